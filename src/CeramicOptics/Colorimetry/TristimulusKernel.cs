#if NET
using System.Numerics;

namespace CeramicOptics.Colorimetry;

/// <summary>Weighted sums of eight spectra at a time, four of which share each weight that is read.</summary>
internal static class TristimulusKernel
{
    private const int Together = 4;

    /// <summary>X of the first eight spectra, then Y, then Z.</summary>
    public static void Sum(double[] x, double[] y, double[] z, ReadOnlySpan<double> spectra, Span<double> sums)
    {
        for (int first = 0; first < LabKernel.Width; first += Together)
        {
            SumOfFour(x, y, z, spectra.Slice(first * x.Length, Together * x.Length), sums.Slice(first));
        }
    }

    private static void SumOfFour(
        double[] x, double[] y, double[] z, ReadOnlySpan<double> spectra, Span<double> sums)
    {
        int n = x.Length, width = Vector<double>.Count, whole = n - (n % width);
        ReadOnlySpan<double> s0 = spectra.Slice(0, n), s1 = spectra.Slice(n, n), s2 = spectra.Slice(2 * n, n),
            s3 = spectra.Slice(3 * n, n);
        Vector<double> x0 = default, x1 = default, x2 = default, x3 = default;
        Vector<double> y0 = default, y1 = default, y2 = default, y3 = default;
        Vector<double> z0 = default, z1 = default, z2 = default, z3 = default;
        for (int i = 0; i < whole; i += width)
        {
            Vector<double> wx = new(x, i), wy = new(y, i), wz = new(z, i), r = new(s0.Slice(i));
            (x0, y0, z0) = (SpanMath.Plus(x0, wx, r), SpanMath.Plus(y0, wy, r), SpanMath.Plus(z0, wz, r));
            r = new(s1.Slice(i));
            (x1, y1, z1) = (SpanMath.Plus(x1, wx, r), SpanMath.Plus(y1, wy, r), SpanMath.Plus(z1, wz, r));
            r = new(s2.Slice(i));
            (x2, y2, z2) = (SpanMath.Plus(x2, wx, r), SpanMath.Plus(y2, wy, r), SpanMath.Plus(z2, wz, r));
            r = new(s3.Slice(i));
            (x3, y3, z3) = (SpanMath.Plus(x3, wx, r), SpanMath.Plus(y3, wy, r), SpanMath.Plus(z3, wz, r));
        }

        Put(x0, x1, x2, x3, x, sums, spectra);
        Put(y0, y1, y2, y3, y, sums.Slice(LabKernel.Width), spectra);
        Put(z0, z1, z2, z3, z, sums.Slice(2 * LabKernel.Width), spectra);
    }

    // The lanes together, and what is left over at the end of each spectrum.
    private static void Put(
        Vector<double> a, Vector<double> b, Vector<double> c, Vector<double> d, double[] weights, Span<double> sums,
        ReadOnlySpan<double> spectra)
    {
        int n = weights.Length;
        (double s0, double s1, double s2, double s3) = (Vector.Sum(a), Vector.Sum(b), Vector.Sum(c), Vector.Sum(d));
        for (int i = n - (n % Vector<double>.Count); i < n; i++)
        {
            double w = weights[i];
            s0 += w * spectra[i];
            s1 += w * spectra[n + i];
            s2 += w * spectra[(2 * n) + i];
            s3 += w * spectra[(3 * n) + i];
        }

        (sums[0], sums[1], sums[2], sums[3]) = (s0, s1, s2, s3);
    }
}
#endif
