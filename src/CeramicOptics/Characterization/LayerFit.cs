using CeramicOptics.Layers;
using CeramicOptics.Layers.TwoFlux;

namespace CeramicOptics.Characterization;

/// <summary>
/// One layer of known thickness over backings of known reflectance, and the reflectances it should have, at one
/// wavelength.
/// </summary>
internal sealed class LayerFit(double thicknessMm, double[] backings, double[] targets, double[] uncertainties)
{
    // Weights for readings given as exact.
    private const double SmallestUncertainty = 1e-9;
    private const int Iterations = 60;

    /// <summary>
    /// Newton's method in both coefficients; the closed form is the start, so a few steps bring it to rounding.
    /// </summary>
    public (double K, double S) Polish(double k, double s)
    {
        (double K, double S) best = (k, s);
        double bestMiss = LargestMiss(best);
        for (int i = 0; i < 4 && bestMiss > 0; i++)
        {
            LayerSensitivity a = At(0, best), b = At(1, best);
            double e1 = a.Reflectance - targets[0], e2 = b.Reflectance - targets[1];
            double determinant = (a.ByAbsorptionMm * b.ByScatteringMm) - (b.ByAbsorptionMm * a.ByScatteringMm);
            (double K, double S) next = (
                best.K - (((e1 * b.ByScatteringMm) - (e2 * a.ByScatteringMm)) / determinant),
                best.S - (((e2 * a.ByAbsorptionMm) - (e1 * b.ByAbsorptionMm)) / determinant));
            if (!(next.K >= 0 && next.S >= 0 && next.K <= 1e6 && next.S <= 1e6) || !(LargestMiss(next) < bestMiss))
            {
                break;
            }

            (best, bestMiss) = (next, LargestMiss(next));
        }

        return best;
    }

    /// <summary>Least squares in S with K = 0.</summary>
    public (double K, double S) PolishScattering(double s) => (
        0, GaussNewton(s, value => (0, value), sensitivity => sensitivity.ByScatteringMm));

    /// <summary>Least squares in K with S = 0.</summary>
    public (double K, double S) PolishAbsorption(double k) => (
        GaussNewton(k, value => (value, 0), sensitivity => sensitivity.ByAbsorptionMm), 0);

    /// <summary>Largest distance of a reflectance from its target, in standard uncertainties.</summary>
    public double LargestMiss((double K, double S) at)
    {
        double largest = 0;
        for (int i = 0; i < targets.Length; i++)
        {
            double miss = Math.Abs(TwoFluxLayer.Reflectance(at.K, at.S, thicknessMm, backings[i]) - targets[i]);
            largest = Math.Max(largest, miss / Math.Max(uncertainties[i], SmallestUncertainty));
        }

        return largest;
    }

    /// <summary>
    /// The coefficients with first-order uncertainty from that of the readings (JCGM 100, 5.1): C = J⁻¹ U J⁻ᵀ.
    /// </summary>
    public CharacterizationResult.Solution SolutionAt((double K, double S) at)
    {
        LayerSensitivity a = At(0, at), b = At(1, at);
        double determinant = (a.ByAbsorptionMm * b.ByScatteringMm) - (b.ByAbsorptionMm * a.ByScatteringMm);
        if (determinant == 0)
        {
            return new CharacterizationResult.Solution(at.K, at.S, 1e6, 1e6, 0);
        }

        double k1 = b.ByScatteringMm / determinant * uncertainties[0],
            k2 = -a.ByScatteringMm / determinant * uncertainties[1];
        double s1 = -b.ByAbsorptionMm / determinant * uncertainties[0],
            s2 = a.ByAbsorptionMm / determinant * uncertainties[1];
        return CharacterizationResult.Solution.FromCovariance(
            at.K, at.S, (k1 * k1) + (k2 * k2), (s1 * s1) + (s2 * s2), (k1 * s1) + (k2 * s2));
    }

    private double GaussNewton(
        double start, Func<double, (double K, double S)> point, Func<LayerSensitivity, double> derivative)
    {
        double value = Math.Min(start, 1e6);
        for (int iteration = 0; iteration < Iterations; iteration++)
        {
            double gradient = 0, curvature = 0;
            for (int i = 0; i < targets.Length; i++)
            {
                LayerSensitivity sensitivity = At(i, point(value));
                double weight = 1 / Math.Max(uncertainties[i], SmallestUncertainty);
                double slope = derivative(sensitivity) * weight;
                gradient += slope * (sensitivity.Reflectance - targets[i]) * weight;
                curvature += slope * slope;
            }

            double next = curvature > 0 ? Math.Min(1e6, Math.Max(0, value - (gradient / curvature))) : value;
            if (Math.Abs(next - value) <= 1e-14 * value)
            {
                break;
            }

            value = next;
        }

        return value;
    }

    private LayerSensitivity At(int i, (double K, double S) at) =>
        TwoFluxLayer.Sensitivity(at.K, at.S, thicknessMm, backings[i]);
}
