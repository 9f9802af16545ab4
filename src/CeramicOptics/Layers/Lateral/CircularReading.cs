using MathNet.Numerics;
using MathNet.Numerics.Integration;

namespace CeramicOptics.Layers.Lateral;

/// <summary>
/// A round spot of light read through a round window around it, as weights of the responses at lateral frequencies.
/// </summary>
/// <remarks>
/// The light is uniform over a spot of radius a and what leaves within radius b is collected. Relative to a white
/// standard of which no light is lost sideways the reading is max(1, (a/b)²) ∫ R(k) (2 J1(k a)/(k a)) b J1(k b) dk,
/// equal when a and b change places. On a disc of radius c the integral is a sum over the k with k z J1(k c) = J0(k c),
/// with 2 / (k c² (J0² + J1²)(k c)) instead of dk.
/// </remarks>
internal sealed class CircularReading
{
    private const int NodesPerPanel = 8;

    // The integrand less its value at infinity falls as the third power of k; what lies beyond is below 1e-5.
    private const double LastWave = 200, LastWaveOnDisc = 60;

    private readonly double[] _weights;

    private CircularReading(double[] weights) => _weights = weights;

    /// <summary>A specimen much wider than spot and window.</summary>
    /// <param name="spotRadiusMm">a, 0.5 to 50 mm.</param>
    /// <param name="windowRadiusMm">b, 0.5 to 50 mm.</param>
    public static CircularReading OnWideSpecimen(double spotRadiusMm, double windowRadiusMm)
    {
        CheckRadius(spotRadiusMm, LateralFrequencies.LargestRadiusMm, nameof(spotRadiusMm));
        CheckRadius(windowRadiusMm, LateralFrequencies.LargestRadiusMm, nameof(windowRadiusMm));
        double smaller = Math.Min(spotRadiusMm, windowRadiusMm);
        double larger = Math.Max(spotRadiusMm, windowRadiusMm);
        double panel = Math.PI / (2 * larger), end = LastWave / smaller;
        int panels = (int)Math.Ceiling(end / panel);
        GaussLegendreRule rule = new(0, panel, NodesPerPanel);
        double[] weights = new double[LateralFrequencies.Count];
        for (int i = 0; i < panels; i++)
        {
            for (int node = 0; node < NodesPerPanel; node++)
            {
                // With a the larger, max(1, (a/b)²) 2 b / a = 2 a / b.
                double k = (i * panel) + rule.GetAbscissa(node);
                double kernel = 2 * larger / smaller * Bessel(1, k * smaller) * Bessel(1, k * larger) / k;
                LateralFrequencies.AddPolynomials(k, rule.GetWeight(node) * kernel, weights);
            }
        }

        return new CircularReading(Completed(weights));
    }

    /// <summary>A disc with spot and window in its middle.</summary>
    /// <param name="spotRadiusMm">a, mm, at most the radius of the disc.</param>
    /// <param name="windowRadiusMm">b, mm, at most the radius of the disc.</param>
    /// <param name="discRadiusMm">c, mm.</param>
    /// <param name="beyondMm">z, see <see cref="BeyondSide"/>; infinity for a mirror.</param>
    /// <remarks>
    /// Exact in the diffusion picture; light that reaches the side of a clear disc straight from the spot is not
    /// described.
    /// </remarks>
    public static CircularReading OnDisc(
        double spotRadiusMm, double windowRadiusMm, double discRadiusMm, double beyondMm)
    {
        CheckRadius(discRadiusMm, LateralFrequencies.LargestRadiusMm, nameof(discRadiusMm));
        CheckRadius(spotRadiusMm, discRadiusMm, nameof(spotRadiusMm));
        CheckRadius(windowRadiusMm, discRadiusMm, nameof(windowRadiusMm));
        Guard.InRange(beyondMm, 0, double.PositiveInfinity, "mm");
        double smaller = Math.Min(spotRadiusMm, windowRadiusMm);
        double larger = Math.Max(spotRadiusMm, windowRadiusMm);
        double[] weights = new double[LateralFrequencies.Count];
        bool isMirror = double.IsInfinity(beyondMm);
        if (isMirror)
        {
            LateralFrequencies.AddPolynomials(0, larger * larger / (discRadiusMm * discRadiusMm), weights);
        }

        int terms = (int)Math.Ceiling(LastWaveOnDisc * discRadiusMm / (Math.PI * smaller));
        double from = isMirror ? 1 : 0;
        for (int n = 0; n < terms; n++)
        {
            double root = Root(beyondMm / discRadiusMm, ref from), k = root / discRadiusMm;
            double j0 = Bessel(0, root), j1 = Bessel(1, root), norm = root * root * ((j0 * j0) + (j1 * j1));
            double kernel = 4 * larger / smaller * Bessel(1, k * smaller) * Bessel(1, k * larger) / norm;
            LateralFrequencies.AddPolynomials(k, kernel, weights);
        }

        return new CircularReading(Completed(weights));
    }

    /// <summary>
    /// How far outside the side of a disc the density of light would fall to zero: z in density = -z times its slope
    /// outwards.
    /// </summary>
    /// <param name="absorptionPerMm">μa, 1/mm.</param>
    /// <param name="reducedScatteringPerMm">μs (1 - g), 1/mm.</param>
    /// <param name="reflectance">What the side returns of diffuse light from inside, 0 (black) to 1 (a mirror).</param>
    /// <returns>mm.</returns>
    /// <remarks>
    /// 0.7104 (1 + r)/(1 - r) / (μa + μs (1 - g)): Milne's length, and the boundary condition of diffusion with
    /// internal reflection (Haskell et al. 1994, J. Opt. Soc. Am. A 11:2727).
    /// </remarks>
    public static double BeyondSide(double absorptionPerMm, double reducedScatteringPerMm, double reflectance) =>
        0.7104 * (1 + Guard.InRange(reflectance, 0, 1, ""))
            / ((1 - reflectance) * (absorptionPerMm + reducedScatteringPerMm));

    /// <summary>The reading from responses at <see cref="LateralFrequencies.PerMm"/>.</summary>
    public double Of(ReadOnlySpan<double> responses)
    {
        double sum = 0;
        for (int j = 0; j < responses.Length; j++)
        {
            sum += _weights[j] * responses[j];
        }

        return sum;
    }

    // What is the same at all frequencies loses nothing.
    private static double[] Completed(double[] weights)
    {
        double sum = 0;
        for (int j = 0; j < weights.Length - 1; j++)
        {
            sum += weights[j];
        }

        weights[weights.Length - 1] = 1 - sum;
        return weights;
    }

    private static void CheckRadius(double radiusMm, double largestMm, string name) =>
        Guard.InRange(radiusMm, LateralFrequencies.SmallestRadiusMm, largestMm, "mm", name);

    private static double Bessel(int order, double x) => SpecialFunctions.BesselJ(order, x);

    // The next root of x z J1(x) = J0(x), z in radii of the disc: one lies in each stretch of π or so, between the
    // zeros of J1 and J0.
    private static double Root(double beyond, ref double from)
    {
        double F(double x) => double.IsInfinity(beyond) ? Bessel(1, x) : (x * beyond * Bessel(1, x)) - Bessel(0, x);
        double low = from + (from == 0 ? 0 : 1e-6), high = low, atLow = F(low);
        while (Math.Sign(F(high)) == Math.Sign(atLow))
        {
            low = high;
            high += 0.5;
        }

        // Newton's steps where they stay between the ends; x J0(x) is the derivative of x J1(x).
        double x = (low + high) / 2;
        for (int step = 0; step < 60 && high - low > 1e-11 * high; step++)
        {
            double f = F(x), j0 = Bessel(0, x), j1 = Bessel(1, x);
            (low, high) = Math.Sign(f) == Math.Sign(atLow) ? (x, high) : (low, x);
            double slope = double.IsInfinity(beyond) ? j0 - (j1 / x) : (x * beyond * j0) + j1;
            double next = x - (f / slope);
            if (Math.Abs(next - x) < 1e-11 * x)
            {
                from = next;
                return next;
            }

            x = next > low && next < high ? next : (low + high) / 2;
        }

        from = high;
        return high;
    }
}
