namespace CeramicOptics.Layers;

/// <summary>Steps of K and S from which slopes are taken.</summary>
internal static class CoefficientSteps
{
    private const double RelativeStep = 1e-3;

    /// <summary>Steps at each wavelength, 1/mm: small beside the coefficient, and not too small for rounding.</summary>
    public static (double[] K, double[] S) Of(Material material)
    {
        double[] k = material.Absorption.Values.ToArray(), s = material.Scattering.Values.ToArray();
        return (
            [.. k.Zip(s, (a, b) => RelativeStep * Math.Max(a, Math.Max(0.01 * b, 0.001)))],
            [.. k.Zip(s, (a, b) => RelativeStep * Math.Max(b, Math.Max(0.1 * a, 0.01)))]);
    }
}
