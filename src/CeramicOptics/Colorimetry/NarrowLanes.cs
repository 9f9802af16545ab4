#if NET
using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace CeramicOptics.Colorimetry;

/// <summary>Four or two lanes, as many as the processor has without 512-bit vectors.</summary>
internal readonly struct NarrowLanes(Vector<double> v) : ILanes<NarrowLanes>
{
    private readonly Vector<double> v = v;

    public static int Width => Vector<double>.Count;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static NarrowLanes operator +(NarrowLanes x, NarrowLanes y) => new(x.v + y.v);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static NarrowLanes operator -(NarrowLanes x, NarrowLanes y) => new(x.v - y.v);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static NarrowLanes operator *(NarrowLanes x, NarrowLanes y) => new(x.v * y.v);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static NarrowLanes operator &(NarrowLanes x, NarrowLanes y) => new(x.v & y.v);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static NarrowLanes All(double value) => new(Vector.Create(value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (NarrowLanes L, NarrowLanes A, NarrowLanes B) Load(ReadOnlySpan<Lab> colors)
    {
        if (Width == 4)
        {
            (Vector256<double> l, Vector256<double> a, Vector256<double> b) = LabLanes.LoadFour(colors);
            return (new(l.AsVector()), new(a.AsVector()), new(b.AsVector()));
        }

        (Lab p, Lab q) = (colors[0], colors[1]);
        return (
            new(Vector128.Create(p.L, q.L).AsVector()), new(Vector128.Create(p.A, q.A).AsVector()),
            new(Vector128.Create(p.B, q.B).AsVector()));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static NarrowLanes Plus(NarrowLanes sum, NarrowLanes x, NarrowLanes y) =>
        new(Vector.MultiplyAddEstimate(x.v, y.v, sum.v));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static NarrowLanes Min(NarrowLanes x, NarrowLanes y) => new(Vector.MinNative(x.v, y.v));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static NarrowLanes Max(NarrowLanes x, NarrowLanes y) => new(Vector.MaxNative(x.v, y.v));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static NarrowLanes Root(NarrowLanes square) => new(Vector.SquareRoot(square.v));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static NarrowLanes InverseRoot(NarrowLanes square) => new(Vector<double>.One / Vector.SquareRoot(square.v));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static NarrowLanes Less(NarrowLanes x, NarrowLanes y) => new(Vector.LessThan<double>(x.v, y.v));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static uint Mask(NarrowLanes comparison) => Width == 4
        ? comparison.v.AsVector256().ExtractMostSignificantBits()
        : comparison.v.AsVector128().ExtractMostSignificantBits();

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void CopyTo(Span<double> destination) => this.v.CopyTo(destination);
}
#endif
