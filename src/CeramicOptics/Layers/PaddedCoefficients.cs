using System.Numerics;
using System.Runtime.InteropServices;

namespace CeramicOptics.Layers;

/// <summary>
/// Coefficients of a compiled stack by row, then function, then wavelength, those of each function padded to whole
/// vectors.
/// </summary>
internal sealed class PaddedCoefficients
{
    private readonly Vector<double>[] _vectors;

    public PaddedCoefficients(double[] coefficients, int wavelengths)
    {
        PerFunction = (wavelengths + Vector<double>.Count - 1) / Vector<double>.Count;
        int runs = coefficients.Length / wavelengths;
        _vectors = new Vector<double>[runs * PerFunction];
        for (int run = 0; run < runs; run++)
        {
            coefficients.AsSpan(run * wavelengths, wavelengths).CopyTo(
                MemoryMarshal.Cast<Vector<double>, double>(_vectors.AsSpan(run * PerFunction, PerFunction)));
        }
    }

    /// <summary>Vectors that hold one function at all wavelengths.</summary>
    public int PerFunction { get; }

    /// <summary>
    /// Functions side by side, from one on, each row times its factor. Four sums at a time stay in registers.
    /// </summary>
    public void Sum(ReadOnlySpan<double> factors, int function, Span<Vector<double>> sums)
    {
        int row = StackResponse.Functions * PerFunction, at = 0;
        ReadOnlySpan<Vector<double>> from = _vectors.AsSpan(function * PerFunction);
        for (; at + 4 <= sums.Length; at += 4)
        {
            Vector<double> a = Vector<double>.Zero, b = a, c = a, d = a;
            for (int k = 0; k < factors.Length; k++)
            {
                Vector<double> factor = new(factors[k]);
                ReadOnlySpan<Vector<double>> four = from.Slice((k * row) + at, 4);
                a = SpanMath.Plus(a, factor, four[0]);
                b = SpanMath.Plus(b, factor, four[1]);
                c = SpanMath.Plus(c, factor, four[2]);
                d = SpanMath.Plus(d, factor, four[3]);
            }

            (sums[at], sums[at + 1], sums[at + 2], sums[at + 3]) = (a, b, c, d);
        }

        for (; at < sums.Length; at++)
        {
            Vector<double> sum = Vector<double>.Zero;
            for (int k = 0; k < factors.Length; k++)
            {
                sum = SpanMath.Plus(sum, new Vector<double>(factors[k]), from[(k * row) + at]);
            }

            sums[at] = sum;
        }
    }

    /// <summary>Writes as many lanes as there is room for.</summary>
    public static void Put(Vector<double> lanes, Span<double> destination, int at)
    {
        if (at + Vector<double>.Count <= destination.Length)
        {
            MemoryMarshal.Cast<double, Vector<double>>(destination.Slice(at, Vector<double>.Count))[0] = lanes;
            return;
        }

        for (int i = at; i < destination.Length; i++)
        {
            destination[i] = lanes[i - at];
        }
    }
}
