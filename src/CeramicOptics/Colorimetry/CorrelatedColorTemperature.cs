using CeramicOptics.Spectra;
using MathNet.Numerics.Optimization;

namespace CeramicOptics.Colorimetry;

/// <summary>Correlated colour temperature: the black body whose chromaticity is nearest, and how far it is.</summary>
/// <param name="Kelvin">Temperature, 1150 to 87000 K.</param>
/// <param name="DistanceUv">
/// Distance from the Planckian locus in the CIE 1960 diagram (Duv), positive above it (greenish).
/// </param>
/// <remarks>
/// CIE 15:2004, 9.5: nearest in u', 2/3 v' of the 1931 observer, meaningful for a distance up to 0.05. Found by a
/// golden-section search in reciprocal temperature.
/// </remarks>
public readonly record struct CorrelatedColorTemperature(double Kelvin, double DistanceUv)
{
    private const double HottestMired = 10, CoolestMired = 1000;

    /// <summary>The temperature of a white.</summary>
    /// <param name="white">Tristimulus values for the 1931 observer, in any unit.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// The colour is more than 0.05 away from the locus, or beyond its ends; the temperature would mean nothing.
    /// </exception>
    public static CorrelatedColorTemperature Of(Xyz white)
    {
        (double u, double v) = Uv(white);
        double DistanceAt(double mired)
        {
            (double uPlanck, double vPlanck) = Uv(XyzOf(Illuminant.PlanckianPower(1e6 / mired)));
            return Math.Sqrt(((u - uPlanck) * (u - uPlanck)) + ((v - vPlanck) * (v - vPlanck)));
        }

        // The distance has one minimum along the locus for whites; a coarse scan brackets it.
        double best = HottestMired;
        for (double mired = HottestMired; mired <= CoolestMired; mired *= 1.15)
        {
            best = DistanceAt(mired) < DistanceAt(best) ? mired : best;
        }

        if (best * 1.15 > CoolestMired || best == HottestMired)
        {
            throw new ArgumentOutOfRangeException(
                nameof(white),
                $"The colour x {Guard.Text(white.ChromaticityX)}, y {Guard.Text(white.ChromaticityY)} is nearest to "
                    + "no black body from 1150 to 87000 K.");
        }

        double nearest = GoldenSectionMinimizer.Minimum(
            ObjectiveFunction.ScalarValue(DistanceAt), Math.Max(HottestMired, best / 1.2),
            Math.Min(CoolestMired, best * 1.2), 1e-9, 500).MinimizingPoint;
        double distance = Guard.InRange(DistanceAt(nearest), 0, 0.05, "", "distance from the Planckian locus");
        return new CorrelatedColorTemperature(
            1e6 / nearest, v >= Uv(XyzOf(Illuminant.PlanckianPower(1e6 / nearest))).V ? distance : -distance);
    }

    private static (double U, double V) Uv(Xyz xyz)
    {
        (double u, double v) = xyz.UniformChromaticity;
        return (u, 2 * v / 3);
    }

    /// <summary>
    /// Tristimulus values of a source for the 1931 observer, over the range that whites are summed over, in units of
    /// the source.
    /// </summary>
    internal static Xyz XyzOf(PowerSpectrum power) => new TristimulusNodes(
        Observer.Cie1931TwoDegree, power, "The source").Sum;
}
