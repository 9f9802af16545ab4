#if NET
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace CeramicOptics.Colorimetry;

/// <summary>Eight colours with L*, a* and b* in a vector each, from and to memory where they stand in turn.</summary>
internal static class LabLanes
{
    public const int Width = 8;

    /// <summary>The first eight, for processors with 512-bit vectors.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (Vector512<double> L, Vector512<double> A, Vector512<double> B) Load(ReadOnlySpan<Lab> colors)
    {
        ReadOnlySpan<double> values = MemoryMarshal.Cast<Lab, double>(colors.Slice(0, Width));
        Vector512<double> first = Vector512.Create(values), second = Vector512.Create(values.Slice(Width)),
            third = Vector512.Create(values.Slice(2 * Width));
        return (
            Pick(Pick(first, second, 0, 3, 6, 9, 12, 15, 0, 0), third, 0, 1, 2, 3, 4, 5, 10, 13),
            Pick(Pick(first, second, 1, 4, 7, 10, 13, 0, 0, 0), third, 0, 1, 2, 3, 4, 8, 11, 14),
            Pick(Pick(first, second, 2, 5, 8, 11, 14, 0, 0, 0), third, 0, 1, 2, 3, 4, 9, 12, 15));
    }

    /// <summary>The first four, for processors with 256-bit vectors.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (Vector256<double> L, Vector256<double> A, Vector256<double> B) LoadFour(ReadOnlySpan<Lab> colors)
    {
        // Each value stands in a lane of its own over the three vectors: blended, they want only their order.
        ReadOnlySpan<double> values = MemoryMarshal.Cast<Lab, double>(colors.Slice(0, 4));
        Vector256<double> first = Vector256.Create(values), second = Vector256.Create(values.Slice(4)),
            third = Vector256.Create(values.Slice(8));
        return (
            Avx2.Permute4x64(Avx.Blend(Avx.Blend(first, second, 0b0100), third, 0b0010), 0b01_10_11_00),
            Avx2.Permute4x64(Avx.Blend(Avx.Blend(first, second, 0b1001), third, 0b0100), 0b10_11_00_01),
            Avx2.Permute4x64(Avx.Blend(Avx.Blend(first, second, 0b0010), third, 0b1001), 0b11_00_01_10));
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

        if (Avx2.IsSupported)
        {
            StoreFour(l.GetLower(), a.GetLower(), b.GetLower(), values);
            StoreFour(l.GetUpper(), a.GetUpper(), b.GetUpper(), values.Slice(12));
            return;
        }

        for (int i = 0; i < Width; i++)
        {
            destination[i] = new Lab(l[i], a[i], b[i]);
        }
    }

    private static void StoreFour(Vector256<double> l, Vector256<double> a, Vector256<double> b, Span<double> values)
    {
        l = Avx2.Permute4x64(l, 0b01_10_11_00);
        a = Avx2.Permute4x64(a, 0b10_11_00_01);
        b = Avx2.Permute4x64(b, 0b11_00_01_10);
        Avx.Blend(Avx.Blend(l, a, 0b0010), b, 0b0100).CopyTo(values);
        Avx.Blend(Avx.Blend(a, b, 0b0010), l, 0b0100).CopyTo(values.Slice(4));
        Avx.Blend(Avx.Blend(b, l, 0b0010), a, 0b0100).CopyTo(values.Slice(8));
    }

    // Lanes by number: 0 to 7 are those of the first vector, 8 to 15 those of the second.
    private static Vector512<double> Pick(
        Vector512<double> first, Vector512<double> second, long p, long q, long r, long s, long t, long u, long v,
        long w) =>
        Avx512F.PermuteVar8x64x2(first, Vector512.Create(p, q, r, s, t, u, v, w), second);
}
#endif
