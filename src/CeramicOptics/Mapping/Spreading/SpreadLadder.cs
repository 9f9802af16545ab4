using MathNet.Numerics;

namespace CeramicOptics.Mapping.Spreading;

/// <summary>The round kernels, each twice as wide as the one before, of which every lateral response is
/// composed.</summary>
/// <remarks>
/// Kernel i is (1 - r²/c²)², c = 0.25 mm times 2^i, 0 beyond c. Its Hankel transform, 1 at k = 0, is 48 J3(k c)/(k c)³.
/// Weights are the non-negative ones with the least squares of error over the logarithm of k: the profile of an edge
/// holds frequencies as 1/k. Their sum is what the response loses from k = 0 to infinity.
/// </remarks>
internal static class SpreadLadder
{
    /// <summary>Number of kernels.</summary>
    public const int Count = 7;

    private const double FirstMm = 0.25, LowestPerMm = 0.02, HighestPerMm = 100, SumWeight = 100;

    private const int Frequencies = 64, Sweeps = 2000;

    private static readonly double[] PerMm = [.. Enumerable.Range(0, Frequencies).Select(
        j => LowestPerMm * Math.Pow(HighestPerMm / LowestPerMm, j / (Frequencies - 1.0)))];

    private static readonly double[][] Transforms = [.. Enumerable.Range(0, Count).Select(
        i => Array.ConvertAll(PerMm, k => Transform(k * RadiusMm(i))))];

    /// <summary>c of a kernel, mm.</summary>
    public static double RadiusMm(int kernel) => FirstMm * (1 << kernel);

    /// <summary>Weights of the kernels for a response that is 1 at frequency 0.</summary>
    /// <param name="response">The response at a frequency, rad/mm.</param>
    /// <param name="local">What it keeps at infinity.</param>
    /// <returns>Weights, 0 or more, of which the sum is 1 - local.</returns>
    public static double[] Fit(Func<double, double> response, double local)
    {
        // One more equation, of some weight, for the sum; rounding is taken off at the end.
        double all = Math.Max(0, 1 - local);
        double[] wanted = Array.ConvertAll(PerMm, k => response(k) - local), right = new double[Count];
        double[,] normal = new double[Count, Count];
        for (int i = 0; i < Count; i++)
        {
            right[i] = SumWeight * all;
            for (int j = 0; j < Frequencies; j++)
            {
                right[i] += Transforms[i][j] * wanted[j];
            }

            for (int m = 0; m < Count; m++)
            {
                normal[i, m] = SumWeight;
                for (int j = 0; j < Frequencies; j++)
                {
                    normal[i, m] += Transforms[i][j] * Transforms[m][j];
                }
            }
        }

        // The least along one weight after another (Gauss-Seidel with bounds) ends at the only minimum.
        double[] weights = new double[Count];
        for (int sweep = 0; sweep < Sweeps; sweep++)
        {
            for (int i = 0; i < Count; i++)
            {
                double step = right[i];
                for (int m = 0; m < Count; m++)
                {
                    step -= normal[i, m] * weights[m];
                }

                weights[i] = Math.Max(0, weights[i] + (step / normal[i, i]));
            }
        }

        double sum = weights.Sum();
        return sum > 0 ? Array.ConvertAll(weights, weight => weight * all / sum) : weights;
    }

    private static double Transform(double x) =>
        x < 0.05 ? 1 - (x * x / 16) : 48 * SpecialFunctions.BesselJ(3, x) / (x * x * x);
}
