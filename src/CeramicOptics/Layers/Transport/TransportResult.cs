namespace CeramicOptics.Layers.Transport;

/// <summary>Reflectance and transmittance by radiative transfer.</summary>
/// <param name="DiffuseReflectance">Share of Lambertian light from above that returns, 0 to 1.</param>
/// <param name="DiffuseTransmittance">Share of Lambertian light from above that passes, 0 to 1.</param>
/// <param name="NormalReflectance">Share of collimated light at normal incidence that returns, 0 to 1.</param>
/// <param name="NormalTransmittance">
/// Share of collimated light at normal incidence that passes, scattered or not, 0 to 1.
/// </param>
/// <param name="ErrorEstimate">
/// Upper estimate of the largest error of these four: three times the last change by a doubling of streams, or a tenth
/// of the change before where that is more.
/// </param>
public readonly record struct TransportResult(
    double DiffuseReflectance, double DiffuseTransmittance, double NormalReflectance, double NormalTransmittance,
    double ErrorEstimate)
{
    internal double LargestChangeFrom(TransportResult other) => Math.Max(
        Math.Max(
            Math.Abs(DiffuseReflectance - other.DiffuseReflectance),
            Math.Abs(DiffuseTransmittance - other.DiffuseTransmittance)),
        Math.Max(
            Math.Abs(NormalReflectance - other.NormalReflectance),
            Math.Abs(NormalTransmittance - other.NormalTransmittance)));
}
