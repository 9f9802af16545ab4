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

    /// <summary>sum + x y, in one rounding where the hardware has it.</summary>
    public static Vector<double> Plus(Vector<double> sum, Vector<double> x, Vector<double> y) =>
#if NET
        Vector.MultiplyAddEstimate(x, y, sum);
#else
        sum + (x * y);
#endif
}
