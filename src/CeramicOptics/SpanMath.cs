using System.Numerics;
using System.Runtime.InteropServices;

namespace CeramicOptics;

/// <summary>Rows of numbers, changed in place.</summary>
internal static class SpanMath
{
    public static void Scale(Span<double> values, double factor)
    {
        for (int i = 0; i < values.Length; i++)
        {
            values[i] *= factor;
        }
    }

    /// <summary>Adds factor times the values to the sums, which are equally many.</summary>
    public static void AddScaled(Span<double> sums, ReadOnlySpan<double> values, double factor)
    {
        int whole = sums.Length - (sums.Length % Vector<double>.Count);
        Span<Vector<double>> to = MemoryMarshal.Cast<double, Vector<double>>(sums.Slice(0, whole));
        ReadOnlySpan<Vector<double>> from = MemoryMarshal.Cast<double, Vector<double>>(values.Slice(0, whole));
        for (int i = 0; i < to.Length; i++)
        {
            to[i] += factor * from[i];
        }

        for (int i = whole; i < sums.Length; i++)
        {
            sums[i] += factor * values[i];
        }
    }

    /// <summary>
    /// The sum of rows of numbers, each times its factor; a row begins every <paramref name="stride"/> numbers and
    /// counts as far as the sums reach.
    /// </summary>
    public static void SumScaled(
        ReadOnlySpan<double> rows, int stride, ReadOnlySpan<double> factors, Span<double> sums)
    {
        int width = Vector<double>.Count, at = 0;

        // Four vectors of sums stay in registers while the rows go by.
        for (; at + (4 * width) <= sums.Length; at += 4 * width)
        {
            Vector<double> a = Vector<double>.Zero, b = a, c = a, d = a;
            for (int k = 0; k < factors.Length; k++)
            {
                Vector<double> factor = new(factors[k]);
                ReadOnlySpan<Vector<double>> row = MemoryMarshal.Cast<double, Vector<double>>(
                    rows.Slice((k * stride) + at, 4 * width));
                (a, b, c, d) = (
                    Plus(a, factor, row[0]), Plus(b, factor, row[1]), Plus(c, factor, row[2]), Plus(d, factor, row[3]));
            }

            Span<Vector<double>> to = MemoryMarshal.Cast<double, Vector<double>>(sums.Slice(at, 4 * width));
            (to[0], to[1], to[2], to[3]) = (a, b, c, d);
        }

        Span<double> rest = sums.Slice(at);
        rest.Clear();
        for (int k = 0; k < factors.Length; k++)
        {
            AddScaled(rest, rows.Slice((k * stride) + at, rest.Length), factors[k]);
        }
    }

    private static Vector<double> Plus(Vector<double> sum, Vector<double> x, Vector<double> y) =>
#if NET
        Vector.MultiplyAddEstimate(x, y, sum);
#else
        sum + (x * y);
#endif
}
