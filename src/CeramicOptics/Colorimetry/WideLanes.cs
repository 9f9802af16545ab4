#if NET
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace CeramicOptics.Colorimetry;

/// <summary>Eight lanes, for processors with 512-bit vectors.</summary>
/// <remarks>Roots come from an estimate of their reciprocals to 14 bits, without roots and divisions.</remarks>
internal readonly struct WideLanes(Vector512<double> v) : ILanes<WideLanes>
{
    private readonly Vector512<double> v = v;

    public static int Width => LabLanes.Width;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static WideLanes operator +(WideLanes x, WideLanes y) => new(x.v + y.v);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static WideLanes operator -(WideLanes x, WideLanes y) => new(x.v - y.v);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static WideLanes operator *(WideLanes x, WideLanes y) => new(x.v * y.v);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static WideLanes operator &(WideLanes x, WideLanes y) => new(x.v & y.v);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static WideLanes All(double value) => new(Vector512.Create(value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (WideLanes L, WideLanes A, WideLanes B) Load(ReadOnlySpan<Lab> colors)
    {
        (Vector512<double> l, Vector512<double> a, Vector512<double> b) = LabLanes.Load(colors);
        return (new(l), new(a), new(b));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static WideLanes Plus(WideLanes sum, WideLanes x, WideLanes y) =>
        new(Vector512.MultiplyAddEstimate(x.v, y.v, sum.v));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static WideLanes Min(WideLanes x, WideLanes y) => new(Vector512.MinNative(x.v, y.v));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static WideLanes Max(WideLanes x, WideLanes y) => new(Vector512.MaxNative(x.v, y.v));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static WideLanes Root(WideLanes square)
    {
        Vector512<double> estimate = Avx512F.ReciprocalSqrt14(square.v);
        return Refined(square.v * estimate, square.v * estimate, estimate);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static WideLanes InverseRoot(WideLanes square)
    {
        Vector512<double> estimate = Avx512F.ReciprocalSqrt14(square.v);
        return Refined(estimate, square.v * estimate, estimate);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static WideLanes Less(WideLanes x, WideLanes y) => new(Vector512.LessThan(x.v, y.v));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static uint Mask(WideLanes comparison) => (uint)comparison.v.ExtractMostSignificantBits();

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void CopyTo(Span<double> destination) => this.v.CopyTo(destination);

    // With x y = 1 + e: times (1 + e)^(-1/2) by its series, which makes 1e-16 of 14 bits.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static WideLanes Refined(Vector512<double> estimate, Vector512<double> x, Vector512<double> y)
    {
        Vector512<double> e = Vector512.MultiplyAddEstimate(x, y, -Vector512<double>.One);
        Vector512<double> series = Vector512.MultiplyAddEstimate(
            Vector512.Create(-5.0 / 16), e, Vector512.Create(3.0 / 8));
        series = Vector512.MultiplyAddEstimate(series, e, Vector512.Create(-0.5));
        return new(Vector512.MultiplyAddEstimate(estimate * e, series, estimate));
    }
}
#endif
