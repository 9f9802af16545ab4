namespace CeramicOptics.Layers.Lateral;

/// <summary>The lateral frequencies at which a stack is solved, and interpolation between them.</summary>
/// <remarks>
/// k = k0 u / (1 - u) with k0 = 1/mm at the Chebyshev points u = (1 - cos(π j / n)) / 2. A response is smooth in u:
/// near k = 0 it bends at the scale of the decay in depth, and it reaches its value at infinity as a series in 1/k.
/// Interpolation is barycentric (Berrut, Trefethen 2004, SIAM Rev. 46:501).
/// </remarks>
internal sealed class LateralFrequencies
{
    /// <summary>Range of radii for which the frequencies serve, mm.</summary>
    public const double SmallestRadiusMm = 0.5, LargestRadiusMm = 50;

    private const double ScalePerMm = 1;

    private readonly double[] _points;

    /// <param name="count">Finite frequencies, 0 among them.</param>
    public LateralFrequencies(int count)
    {
        _points = [.. Enumerable.Range(0, count + 1).Select(j => (1 - Math.Cos(Math.PI * j / count)) / 2)];
        PerMm = [.. _points.Select(u => ScalePerMm * u / (1 - u))];
        PerMm[count] = double.PositiveInfinity;
    }

    /// <summary>Twelve finite frequencies and infinity.</summary>
    public static LateralFrequencies Default { get; } = new(12);

    /// <summary>k, rad/mm, rising from 0; the last is infinity.</summary>
    public double[] PerMm { get; }

    /// <summary>Number of frequencies, infinity included.</summary>
    public int Count => _points.Length;

    /// <summary>
    /// Adds factor times the interpolating polynomials at a frequency to <paramref name="sums"/>, one for each
    /// frequency.
    /// </summary>
    public void AddPolynomials(double frequencyPerMm, double factor, Span<double> sums)
    {
        double u = double.IsInfinity(frequencyPerMm) ? 1 : frequencyPerMm / (ScalePerMm + frequencyPerMm), all = 0;
        for (int j = 0; j < _points.Length; j++)
        {
            if (u == _points[j])
            {
                sums[j] += factor;
                return;
            }

            all += Barycentric(j) / (u - _points[j]);
        }

        for (int j = 0; j < _points.Length; j++)
        {
            sums[j] += factor * Barycentric(j) / ((u - _points[j]) * all);
        }
    }

    /// <summary>Value at any frequency from those at <see cref="PerMm"/>.</summary>
    public double Interpolate(ReadOnlySpan<double> values, double frequencyPerMm)
    {
        Span<double> polynomials = stackalloc double[_points.Length];
        polynomials.Clear();
        AddPolynomials(frequencyPerMm, 1, polynomials);
        double sum = 0;
        for (int j = 0; j < values.Length; j++)
        {
            sum += values[j] * polynomials[j];
        }

        return sum;
    }

    private double Barycentric(int j) => (j % 2 == 0 ? 1 : -1) * (j == 0 || j == _points.Length - 1 ? 0.5 : 1);
}
