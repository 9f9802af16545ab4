namespace CeramicOptics.Layers.Lateral;

/// <summary>The lateral frequencies at which a stack is solved, and interpolation between them.</summary>
/// <remarks>
/// k = k0 u / (1 - u) with k0 = 1/mm at the Chebyshev points u = (1 - cos(π j / n)) / 2. A response is smooth in u:
/// near k = 0 it bends at the scale of the decay in depth, and it reaches its value at infinity as a series in 1/k.
/// Interpolation is barycentric (Berrut, Trefethen 2004, SIAM Rev. 46:501).
/// </remarks>
internal static class LateralFrequencies
{
    /// <summary>Range of radii for which the frequencies serve, mm.</summary>
    public const double SmallestRadiusMm = 0.5, LargestRadiusMm = 50;

    /// <summary>Number of frequencies: twelve finite ones, 0 among them, and infinity.</summary>
    public const int Count = 13;

    private const double ScalePerMm = 1;

    private static readonly double[] Points =
        [.. Enumerable.Range(0, Count).Select(j => (1 - Math.Cos(Math.PI * j / (Count - 1))) / 2)];

    /// <summary>k, rad/mm, rising from 0; the last is infinity.</summary>
    public static double[] PerMm { get; } = [.. Points.Select(
        (u, j) => j < Count - 1 ? ScalePerMm * u / (1 - u) : double.PositiveInfinity)];

    /// <summary>
    /// Adds factor times the interpolating polynomials at a frequency to <paramref name="sums"/>, one for each
    /// frequency.
    /// </summary>
    public static void AddPolynomials(double frequencyPerMm, double factor, Span<double> sums)
    {
        double u = double.IsInfinity(frequencyPerMm) ? 1 : frequencyPerMm / (ScalePerMm + frequencyPerMm), all = 0;
        for (int j = 0; j < Count; j++)
        {
            if (u == Points[j])
            {
                sums[j] += factor;
                return;
            }

            all += Barycentric(j) / (u - Points[j]);
        }

        for (int j = 0; j < Count; j++)
        {
            sums[j] += factor * Barycentric(j) / ((u - Points[j]) * all);
        }
    }

    /// <summary>Value at any frequency from those at <see cref="PerMm"/>.</summary>
    public static double Interpolate(ReadOnlySpan<double> values, double frequencyPerMm)
    {
        Span<double> polynomials = stackalloc double[Count];
        polynomials.Clear();
        AddPolynomials(frequencyPerMm, 1, polynomials);
        double sum = 0;
        for (int j = 0; j < values.Length; j++)
        {
            sum += values[j] * polynomials[j];
        }

        return sum;
    }

    private static double Barycentric(int j) => (j % 2 == 0 ? 1 : -1) * (j is 0 or Count - 1 ? 0.5 : 1);
}
