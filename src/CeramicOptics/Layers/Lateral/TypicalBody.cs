using CeramicOptics.Layers.TwoFlux;

namespace CeramicOptics.Layers.Lateral;

/// <summary>A thick scattering body such as a tooth, for estimates of what a window loses.</summary>
internal static class TypicalBody
{
    /// <summary>
    /// Reduced scattering, 1/mm: enamel at 633 nm has 6.6 per mm with anisotropy 0.68 (Zijp, ten Bosch, Groenhuis 1995,
    /// J. Dent. Res. 74, abstract), thus 2.1. Dentine scatters more; no measured value was read.
    /// </summary>
    public const double ReducedScatteringPerMm = 2;

    private const double LeastPerMm = 1e-5, MostPerMm = 1e3;

    /// <summary>That of a usual contact instrument (common practice, no source).</summary>
    public static ReadingArea SmallWindow { get; } = ReadingArea.Circular(2, 2);

    /// <summary>
    /// About the share of the light that a window loses of a thick body, by two-flux theory; for an area that is not
    /// stated, of a window of 2 mm radius with a spot as large.
    /// </summary>
    /// <param name="area">Spot and window.</param>
    /// <param name="reflectance">Diffuse reflectance inside the body, as read.</param>
    /// <param name="index">Refractive index of the body.</param>
    public static double LostShare(ReadingArea area, double reflectance, double index)
    {
        ReadingArea taken = area.IsStated ? area : SmallWindow;
        if (!taken.HasWindow)
        {
            return 0;
        }

        SurfaceCorrection surface = new(MeasurementGeometry.DiffuseSpecularIncluded, index);
        AreaWeights weights = new();
        const double S = 0.75 * ReducedScatteringPerMm;
        double read = surface.Measured(reflectance), low = Math.Log(LeastPerMm), high = Math.Log(MostPerMm);
        for (int i = 0; i < 40; i++)
        {
            double middle = (low + high) / 2;
            (low, high) = Through(Math.Exp(middle)) > read ? (middle, high) : (low, middle);
        }

        double k = Math.Exp(low), wide = surface.Measured(TwoFluxLayer.InfiniteReflectance(k, S));
        return Math.Max(0, 1 - (Through(k) / wide));

        double Through(double absorption)
        {
            CircularReading reading = weights.For(taken, absorption, S, index);
            return reading.Of(Array.ConvertAll(LateralFrequencies.PerMm, frequency =>
            {
                (double ownK, double ownS) = TwoFluxLateralSampler.EffectiveAt(absorption, S, frequency);
                return surface.Measured(TwoFluxLayer.InfiniteReflectance(ownK, ownS));
            }));
        }
    }
}
