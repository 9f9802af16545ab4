using MathNet.Numerics;
using MathNet.Numerics.Integration;

namespace CeramicOptics.Layers.Lateral;

/// <summary>A round spot of light read through a round window with the same axis, as weights of a stack's responses at lateral frequencies.</summary>
/// <remarks>
/// The light is uniform over a spot of radius a and what leaves within radius b is collected. Relative to a white standard of which no light
/// is lost sideways the reading is max(1, (a/b)²) ∫ R(k) (2 J1(k a)/(k a)) b J1(k b) dk, equal when a and b change places. On a disc of radius
/// c the integral is a sum over the zeros of J0 (side black: no light at c + z) or of J1 (side a mirror: none leaves), see <see cref="OnDisc"/>.
/// </remarks>
internal sealed class CircularReading
{
    private const int NodesPerPanel = 8, MaximumTerms = 4000;

    // The integrand less its value at infinity falls as the third power of k; what lies beyond is below 1e-5.
    private const double LastWave = 200;

    private readonly double[] _weights;

    private CircularReading(LateralFrequencies frequencies, double[] weights) => (Frequencies, _weights) = (frequencies, weights);

    /// <summary>Where the responses are wanted.</summary>
    public LateralFrequencies Frequencies { get; }

    /// <summary>A specimen much wider than spot and window.</summary>
    /// <param name="spotRadiusMm">a, mm.</param>
    /// <param name="windowRadiusMm">b, mm.</param>
    /// <param name="frequencies">Frequencies to use; the default when null.</param>
    public static CircularReading OnWideSpecimen(double spotRadiusMm, double windowRadiusMm, LateralFrequencies? frequencies = null)
    {
        LateralFrequencies chosen = frequencies ?? LateralFrequencies.Default;
        double smaller = Math.Min(spotRadiusMm, windowRadiusMm), larger = Math.Max(spotRadiusMm, windowRadiusMm);
        double panel = Math.PI / (2 * larger), end = LastWave / smaller;
        int panels = (int)Math.Ceiling(end / panel);
        GaussLegendreRule rule = new(0, panel, NodesPerPanel);
        double[] weights = new double[chosen.Count];
        for (int i = 0; i < panels; i++)
        {
            for (int node = 0; node < NodesPerPanel; node++)
            {
                // With a the larger, max(1, (a/b)²) 2 b / a = 2 a / b.
                double k = (i * panel) + rule.GetAbscissa(node);
                double kernel = 2 * larger / smaller * Bessel(1, k * smaller) * Bessel(1, k * larger) / k;
                chosen.AddPolynomials(k, rule.GetWeight(node) * kernel, weights);
            }
        }

        return new CircularReading(chosen, Completed(weights));
    }

    /// <summary>A disc with spot and window in its middle.</summary>
    /// <param name="spotRadiusMm">a, mm, at most the radius of the disc.</param>
    /// <param name="windowRadiusMm">b, mm, at most the radius of the disc.</param>
    /// <param name="discRadiusMm">c, mm.</param>
    /// <param name="beyondMm">z, how far outside a black side the light's density would fall to zero, mm; null for a mirror.</param>
    /// <param name="frequencies">Frequencies to use; the default when null.</param>
    /// <remarks>Exact in the diffusion picture; light that reaches the side of a clear disc straight from the spot is not described.</remarks>
    public static CircularReading OnDisc(
        double spotRadiusMm, double windowRadiusMm, double discRadiusMm, double? beyondMm, LateralFrequencies? frequencies = null)
    {
        LateralFrequencies chosen = frequencies ?? LateralFrequencies.Default;
        double smaller = Math.Min(spotRadiusMm, windowRadiusMm), larger = Math.Max(spotRadiusMm, windowRadiusMm);
        double radius = discRadiusMm + (beyondMm ?? 0);
        double[] weights = new double[chosen.Count];
        int kind = beyondMm is null ? 1 : 0;
        if (kind == 1)
        {
            chosen.AddPolynomials(0, larger * larger / (radius * radius), weights);
        }

        int terms = Math.Min(MaximumTerms, (int)Math.Ceiling(LastWave * radius / (Math.PI * smaller)));
        for (int n = 1; n <= terms; n++)
        {
            double zero = Zero(kind, n), k = zero / radius, norm = radius * Bessel(1 - kind, zero);
            double kernel = 4 * larger / smaller * Bessel(1, k * smaller) * Bessel(1, k * larger) / (zero / radius * (zero / radius) * norm * norm);
            chosen.AddPolynomials(k, kernel, weights);
        }

        return new CircularReading(chosen, Completed(weights));
    }

    /// <summary>The reading from responses at the frequencies, the one at infinity last.</summary>
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

    private static double Bessel(int order, double x) => SpecialFunctions.BesselJ(order, x);

    // McMahon's expansion (Abramowitz, Stegun 9.5.12) and Newton's steps.
    private static double Zero(int order, int n)
    {
        double beta = Math.PI * (n + (order == 0 ? -0.25 : 0.25)), mu = 4 * order * order;
        double x = beta - ((mu - 1) / (8 * beta));
        for (int step = 0; step < 4; step++)
        {
            double slope = order == 0 ? -Bessel(1, x) : Bessel(0, x) - (Bessel(1, x) / x);
            x -= Bessel(order, x) / slope;
        }

        return x;
    }
}
