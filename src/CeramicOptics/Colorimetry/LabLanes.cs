#if NET
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace CeramicOptics.Colorimetry;

/// <summary>Eight colours with L*, a* and b* in a vector each, from and to memory where they stand in turn.</summary>
internal static class LabLanes
{
    public const int Width = 8;

    public static (Vector512<double> L, Vector512<double> A, Vector512<double> B) Load(ReadOnlySpan<Lab> colors)
    {
        ReadOnlySpan<double> values = MemoryMarshal.Cast<Lab, double>(colors.Slice(0, Width));
        if (Avx512F.IsSupported)
        {
            Vector512<double> first = Vector512.Create(values), second = Vector512.Create(values.Slice(Width)),
                third = Vector512.Create(values.Slice(2 * Width));
            return (
                Pick(Pick(first, second, 0, 3, 6, 9, 12, 15, 0, 0), third, 0, 1, 2, 3, 4, 5, 10, 13),
                Pick(Pick(first, second, 1, 4, 7, 10, 13, 0, 0, 0), third, 0, 1, 2, 3, 4, 8, 11, 14),
                Pick(Pick(first, second, 2, 5, 8, 11, 14, 0, 0, 0), third, 0, 1, 2, 3, 4, 9, 12, 15));
        }

        (Lab p, Lab q, Lab r, Lab s) = (colors[0], colors[1], colors[2], colors[3]);
        (Lab t, Lab u, Lab v, Lab w) = (colors[4], colors[5], colors[6], colors[7]);
        return (
            Vector512.Create(p.L, q.L, r.L, s.L, t.L, u.L, v.L, w.L),
            Vector512.Create(p.A, q.A, r.A, s.A, t.A, u.A, v.A, w.A),
            Vector512.Create(p.B, q.B, r.B, s.B, t.B, u.B, v.B, w.B));
    }

    public static void Store(Vector512<double> l, Vector512<double> a, Vector512<double> b, Span<Lab> destination)
    {
        Span<double> values = MemoryMarshal.Cast<Lab, double>(destination.Slice(0, Width));
        if (Avx512F.IsSupported)
        {
            Pick(Pick(l, a, 0, 8, 0, 1, 9, 0, 2, 10), b, 0, 1, 8, 3, 4, 9, 6, 7).CopyTo(values);
            Pick(Pick(l, a, 0, 3, 11, 0, 4, 12, 0, 5), b, 10, 1, 2, 11, 4, 5, 12, 7).CopyTo(values.Slice(Width));
            Pick(Pick(l, a, 13, 0, 6, 14, 0, 7, 15, 0), b, 0, 13, 2, 3, 14, 5, 6, 15).CopyTo(values.Slice(2 * Width));
            return;
        }

        for (int i = 0; i < Width; i++)
        {
            destination[i] = new Lab(l[i], a[i], b[i]);
        }
    }

    // Lanes by number: 0 to 7 are those of the first vector, 8 to 15 those of the second.
    private static Vector512<double> Pick(
        Vector512<double> first, Vector512<double> second, long p, long q, long r, long s, long t, long u, long v,
        long w) =>
        Avx512F.PermuteVar8x64x2(first, Vector512.Create(p, q, r, s, t, u, v, w), second);
}
#endif
