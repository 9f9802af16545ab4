using System.Numerics;
using System.Runtime.InteropServices;

namespace CeramicOptics.Layers;

/// <summary>
/// Interpolation by Chebyshev polynomials in the logarithm of a thickness, between the ends of its range.
/// </summary>
/// <remarks>
/// With x = -1 at the thinnest and 1 at the thickest, x linear in ln(t + t0), a function is taken at the extremes of
/// T_n, x_k = cos(π k / n), and becomes the sum of c_k T_k(x). For analytic functions the error falls geometrically
/// with n (Trefethen 2013, Approximation Theory and Approximation Practice, theorem 8.2). t0 is 0 unless the range is
/// so wide, or begins so near 0, that the ends of t + t0 would be more than 200 times apart. Immutable.
/// </remarks>
internal sealed class Chebyshev
{
    private const double WidestRatio = 200;

    private readonly double _shiftMm, _logMin, _perLog;
    private readonly double[] _cosines;

    public Chebyshev(ThicknessRange range, int degree)
    {
        Range = range;
        Degree = range.MaxMm > range.MinMm ? degree : 0;
        _shiftMm = Math.Max(0, (range.MaxMm - (WidestRatio * range.MinMm)) / (WidestRatio - 1));
        _logMin = Math.Log(Math.Max(range.MinMm + _shiftMm, double.Epsilon));
        _perLog = Degree == 0 ? 0 : 2 / (Math.Log(range.MaxMm + _shiftMm) - _logMin);
        _cosines = [.. Enumerable.Range(0, (2 * Math.Max(Degree, 1)) + 1).Select(
            k => Math.Cos(Math.PI * k / Math.Max(Degree, 1)))];
    }

    public ThicknessRange Range { get; }

    public int Degree { get; }

    public int Count => Degree + 1;

    /// <summary>Thickness at point k, from the thickest (k = 0) to the thinnest.</summary>
    public double NodeMm(int k) => k == 0 ? Range.MaxMm : k == Degree ? Range.MinMm : ThicknessAt(_cosines[k]);

    /// <summary>-1 to 1 for a thickness of the range.</summary>
    public double At(double thicknessMm) =>
        Degree == 0 ? 0 : Math.Min(1, Math.Max(-1, ((Math.Log(thicknessMm + _shiftMm) - _logMin) * _perLog) - 1));

    public double ThicknessAt(double x) => Degree == 0
        ? Range.MinMm
        : Math.Min(Range.MaxMm, Math.Max(Range.MinMm, Math.Exp(_logMin + ((x + 1) / _perLog)) - _shiftMm));

    /// <summary>T_0 to T_n at x.</summary>
    public static void Polynomials(double x, Span<double> destination)
    {
        destination[0] = 1;
        if (destination.Length > 1)
        {
            destination[1] = x;
        }

        for (int k = 2; k < destination.Length; k++)
        {
            destination[k] = (2 * x * destination[k - 1]) - destination[k - 2];
        }
    }

    /// <summary>The same at several x, whose number is a multiple of 8: by polynomial, then x.</summary>
    public static void Polynomials(ReadOnlySpan<double> x, Span<double> destination)
    {
        ReadOnlySpan<Vector<double>> at = MemoryMarshal.Cast<double, Vector<double>>(x);
        Span<Vector<double>> to = MemoryMarshal.Cast<double, Vector<double>>(destination);
        for (int v = 0; v < at.Length; v++)
        {
            Vector<double> twice = at[v] + at[v], before = at[v], now = Vector<double>.One;
            for (int k = v; k < to.Length; k += at.Length)
            {
                to[k] = now;
                (before, now) = (now, SpanMath.Plus(-before, twice, now));
            }
        }
    }

    /// <summary>
    /// Values at the points into coefficients, for runs of functions side by side: <paramref name="values"/>[k * width
    /// + f].
    /// </summary>
    /// <remarks>
    /// c_k = (2 / n) Σ'' f_j cos(π j k / n), halved for k = 0 and n; '' halves the terms at both ends.
    /// </remarks>
    public void Transform(
        ReadOnlySpan<double> values, int width, Span<double> coefficients, CancellationToken cancellation = default)
    {
        if (Degree == 0)
        {
            values.Slice(0, width).CopyTo(coefficients);
            return;
        }

        coefficients.Slice(0, Count * width).Clear();
        for (int k = 0; k <= Degree; k++)
        {
            cancellation.ThrowIfCancellationRequested();
            Span<double> row = coefficients.Slice(k * width, width);
            double scale = (k == 0 || k == Degree ? 1.0 : 2.0) / Degree;
            for (int j = 0; j <= Degree; j++)
            {
                double factor = scale * _cosines[j * k % (2 * Degree)] * (j == 0 || j == Degree ? 0.5 : 1);
                ReadOnlySpan<double> from = values.Slice(j * width, width);
                for (int f = 0; f < row.Length; f++)
                {
                    row[f] += factor * from[f];
                }
            }
        }
    }
}
