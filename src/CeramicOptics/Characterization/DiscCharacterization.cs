using CeramicOptics.Layers;

namespace CeramicOptics.Characterization;

/// <summary>K and S from one disc read over a black and over a white backing.</summary>
/// <remarks>
/// At each wavelength: readings to internal reflectances (surface correction), backings to what the disc sees of them (their own
/// surface, the film between), then the exact inversion of the two-flux layer. Two readings give two numbers, so nothing is left
/// to judge the model by; a disc far from the thickness of use, or thin and clear, may mislead.
/// </remarks>
public static class DiscCharacterization
{
    private const double DetectionFactor = 3;

    /// <summary>Finds K and S at every wavelength of a measurement.</summary>
    /// <param name="measurement">The readings.</param>
    /// <returns>K and S with uncertainties, or a finding, for each wavelength.</returns>
    public static CharacterizationResult Solve(DiscMeasurement measurement)
    {
        Guard.NotNull(measurement);
        int n = measurement.Grid.Count;
        var solutions = new CharacterizationResult.Solution?[n];
        List<Finding> findings = [];
        BoundaryCache boundaries = new();
        for (int i = 0; i < n; i++)
        {
            (solutions[i], FindingKind? kind, string message) = SolveAt(measurement, i, boundaries);
            if (kind is not null)
            {
                findings.Add(new Finding(measurement.Grid[i], kind.Value, message));
            }
        }

        return new CharacterizationResult(
            measurement.Name, measurement.Grid, measurement.RefractiveIndex, measurement.ThicknessStandardUncertaintyMm / measurement.ThicknessMm, solutions, findings);
    }

    private static (CharacterizationResult.Solution? Solution, FindingKind? Kind, string Message) SolveAt(
        DiscMeasurement measurement, int i, BoundaryCache boundaries)
    {
        double black = measurement.OverBlack[i], white = measurement.OverWhite[i], noise = measurement.ReadingStandardUncertainty;
        if (white <= black)
        {
            return (null, FindingKind.BlackNotBelowWhite, $"reads {Guard.Text(black)} over black and {Guard.Text(white)} over white.");
        }

        if (white - black < DetectionFactor * Math.Sqrt(2) * noise)
        {
            return (null, FindingKind.TooOpaque,
                $"readings over black and white differ by {Guard.Text(Math.Round(white - black, 6))}, less than three times their noise; use a thinner disc.");
        }

        double index = measurement.RefractiveIndex.At(measurement.Grid[i]);
        SurfaceCorrection surface = boundaries.Surface(measurement.Geometry, index);
        double low = surface.Measured(0), high = surface.Measured(1);
        if (black < low || white > high)
        {
            return (null, FindingKind.OutsideSurfaceModel,
                $"readings {Guard.Text(black)} and {Guard.Text(white)} are not within [{Guard.Text(Math.Round(low, 6))}, {Guard.Text(Math.Round(high, 6))}], which index {Guard.Text(index)} and {measurement.Geometry} allow.");
        }

        double g1 = measurement.BlackBacking.SeenFrom(index, measurement.Grid[i], i, boundaries);
        double g2 = measurement.WhiteBacking.SeenFrom(index, measurement.Grid[i], i, boundaries);
        if (g2 - g1 < 0.02)
        {
            return (null, FindingKind.BackingsAlike, $"seen from the disc the backings reflect {Guard.Text(Math.Round(g1, 6))} and {Guard.Text(Math.Round(g2, 6))}.");
        }

        double r1 = surface.Inverse(black), r2 = surface.Inverse(white);
        double u1 = noise * surface.InverseSlope(black), u2 = noise * surface.InverseSlope(white);
        LayerFit fit = new(measurement.ThicknessMm, [g1, g2], [r1, r2], [u1, u2]);
        (double k, double s) = ClosedForm(r1, r2, g1, g2, measurement.ThicknessMm);
        if (Guard.IsFinite(k) && Guard.IsFinite(s) && k >= 0 && s >= 0)
        {
            return (fit.SolutionAt(fit.Polish(k, s)), null, "");
        }

        // Noise has pushed one coefficient below zero. Hold it at zero, fit the other, and accept what the noise can explain.
        (double, double) noAbsorption = fit.PolishScattering(InitialScattering(r1, g1, measurement.ThicknessMm));
        (double, double) noScattering = fit.PolishAbsorption(InitialAbsorption(r2, g2, measurement.ThicknessMm));
        double missNoAbsorption = fit.LargestMiss(noAbsorption), missNoScattering = fit.LargestMiss(noScattering);
        bool scatters = missNoAbsorption <= missNoScattering;
        double miss = Math.Min(missNoAbsorption, missNoScattering);
        if (!(miss <= DetectionFactor))
        {
            return (null, FindingKind.Inconsistent,
                FormattableString.Invariant($"no layer gives {Guard.Text(black)} over black and {Guard.Text(white)} over white; the best misses by {miss:0.0} times the noise."));
        }

        return scatters
            ? (fit.SolutionAt(noAbsorption), FindingKind.AbsorptionBelowDetection, "absorption is zero within noise and set to zero.")
            : (fit.SolutionAt(noScattering), FindingKind.ScatteringBelowDetection, "scattering is zero within noise and set to zero.");
    }

    // Eliminating T² from R = R0 + T² g / (1 - R0 g) for two backings leaves R0 linear; K and S then follow from Kubelka 1948,
    // with u = (1 - R0)² - T², v = (1 + R0)² - T²: K = (x/t) sqrt(u/v), S = (x/t) 2 R0 / sqrt(u v), x = ln((1 - R0 R∞) / T).
    internal static (double K, double S) ClosedForm(double r1, double r2, double g1, double g2, double t)
    {
        double r0 = ((g2 * r1) - (g1 * r2)) / (g2 - g1 - (g1 * g2 * (r2 - r1)));
        double t2 = (r2 - r0) * (1 - (r0 * g2)) / g2;
        double u = ((1 - r0) * (1 - r0)) - t2, v = ((1 + r0) * (1 + r0)) - t2;
        if (!(t2 > 0 && r0 >= 0 && u >= 0))
        {
            return (double.NaN, double.NaN);
        }

        double root = Math.Sqrt(u * v);
        if (root < 1e-8)
        {
            // Next to no absorption: the limit x -> 0 of the same formulas.
            double s0 = r0 / ((1 - r0) * t);
            return (r0 > 0 ? s0 * u / (2 * r0) : -Math.Log(t2) / (2 * t), s0);
        }

        double x = Math.Log((1 - (2 * r0 * r0 / (1 + (r0 * r0) - t2 + root))) / Math.Sqrt(t2));
        return (x / t * Math.Sqrt(u / v), x / t * 2 * r0 / root);
    }

    // K = 0: R = (g + S t (1 - g)) / (1 + S t (1 - g)).
    private static double InitialScattering(double r, double g, double t) =>
        Math.Max(0, (r - g) / ((1 - g) * Math.Max(1e-3, 1 - r) * t));

    // S = 0: R = g exp(-2 K t).
    private static double InitialAbsorption(double r, double g, double t) => Math.Max(0, -Math.Log(Math.Min(1, Math.Max(1e-12, r) / g)) / (2 * t));
}
