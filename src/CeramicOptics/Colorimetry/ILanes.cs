#if NET
namespace CeramicOptics.Colorimetry;

/// <summary>A vector of numbers: what a kernel needs of it, so that it is written once for several widths.</summary>
internal interface ILanes<T>
    where T : unmanaged, ILanes<T>
{
    static abstract int Width { get; }

    static abstract T operator +(T x, T y);

    static abstract T operator -(T x, T y);

    static abstract T operator *(T x, T y);

    /// <summary>Bits set in both; of a comparison and numbers, those where it holds, 0 elsewhere.</summary>
    static abstract T operator &(T x, T y);

    static abstract T All(double value);

    /// <summary>L*, a* and b* of the first colours.</summary>
    static abstract (T L, T A, T B) Load(ReadOnlySpan<Lab> colors);

    /// <summary>sum + x y, in one rounding where the hardware has it.</summary>
    static abstract T Plus(T sum, T x, T y);

    static abstract T Min(T x, T y);

    static abstract T Max(T x, T y);

    /// <summary>Of 1e-37 or more.</summary>
    static abstract T Root(T square);

    /// <summary>Of 1e-37 or more.</summary>
    static abstract T InverseRoot(T square);

    /// <summary>All bits of a lane are set where x is less than y.</summary>
    static abstract T Less(T x, T y);

    /// <summary>Bit i tells that the comparison holds in lane i.</summary>
    static abstract uint Mask(T comparison);

    void CopyTo(Span<double> destination);
}
#endif
