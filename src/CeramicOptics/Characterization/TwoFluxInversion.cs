using CeramicOptics.Layers.TwoFlux;

namespace CeramicOptics.Characterization;

/// <summary>K and S of two-flux theory from one disc over two backings, in closed form.</summary>
/// <remarks>
/// At each wavelength: readings to internal reflectances (surface correction), backings to what the disc sees of them
/// (their own surface, the film between), then the exact inversion of the two-flux layer.
/// </remarks>
internal static class TwoFluxInversion
{
    public static CharacterizationResult Solve(DiscPair pair, Finding? note)
    {
        DiscSet discs = pair.Discs;
        var solutions = new CharacterizationResult.Solution?[discs.Grid.Count];
        List<Finding> findings = [.. note is null ? [] : (Finding[])[note]];
        for (int i = 0; i < solutions.Length; i++)
        {
            DiscPair.Reading at = pair.At(i);
            Finding? finding = pair.FaultOf(at, i);
            if (finding is null)
            {
                (solutions[i], finding) = SolveAt(at, pair.ThicknessMm, discs.Grid[i]);
            }

            if (finding is not null)
            {
                findings.Add(finding);
            }
        }

        return new CharacterizationResult(
            discs, TwoFluxModel.Instance, solutions, findings.OrderBy(finding => finding.WavelengthNm));
    }

    private static (CharacterizationResult.Solution? Solution, Finding? Finding) SolveAt(
        DiscPair.Reading at, double mm, double nm)
    {
        (double g1, double g2) = (at.DarkBacking, at.LightBacking);
        double r1 = at.Surface.Inverse(at.Dark), r2 = at.Surface.Inverse(at.Light);
        double u1 = at.DarkNoise * at.Surface.InverseSlope(at.Dark);
        double u2 = at.LightNoise * at.Surface.InverseSlope(at.Light);
        LayerFit fit = new(mm, [g1, g2], [r1, r2], [u1, u2]);
        (double k, double s) = ClosedForm(r1, r2, g1, g2, mm);
        if (Guard.IsFinite(k) && Guard.IsFinite(s) && k >= 0 && s >= 0)
        {
            return (fit.SolutionAt(fit.Polish(k, s)), null);
        }

        // Noise has pushed one coefficient below zero. Hold it at zero, fit the other, and accept what the noise can
        // explain.
        (double, double) noAbsorption = fit.PolishScattering(InitialScattering(r1, g1, mm));
        (double, double) noScattering = fit.PolishAbsorption(InitialAbsorption(r2, g2, mm));
        double missNoAbsorption = fit.LargestMiss(noAbsorption), missNoScattering = fit.LargestMiss(noScattering);
        double miss = Math.Min(missNoAbsorption, missNoScattering);
        if (!(miss <= DiscPair.DetectionFactor))
        {
            return (null, new Finding(nm, FindingKind.Inconsistent, miss));
        }

        return missNoAbsorption <= missNoScattering
            ? (fit.SolutionAt(noAbsorption), new Finding(nm, FindingKind.AbsorptionBelowDetection))
            : (fit.SolutionAt(noScattering), new Finding(nm, FindingKind.ScatteringBelowDetection));
    }

    // Eliminating T² from R = R0 + T² g / (1 - R0 g) for two backings leaves R0 linear; K and S then follow from
    // Kubelka 1948, with u = (1 - R0)² - T², v = (1 + R0)² - T²: K = (x/t) sqrt(u/v), S = (x/t) 2 R0 / sqrt(u v), x =
    // ln((1 - R0 R∞) / T).
    public static (double K, double S) ClosedForm(double r1, double r2, double g1, double g2, double t)
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
    private static double InitialAbsorption(double r, double g, double t) =>
        Math.Max(0, -Math.Log(Math.Min(1, Math.Max(1e-12, r) / g)) / (2 * t));
}
