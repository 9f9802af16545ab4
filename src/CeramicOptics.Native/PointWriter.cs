using System.Runtime.Intrinsics;

namespace CeramicOptics.Native;

/// <summary>Writes numbers for points into memory of the caller: single or double precision, packed or
/// interleaved.</summary>
internal readonly unsafe struct PointWriter
{
    private readonly byte* _data;
    private readonly long _stride;
    private readonly int _width;
    private readonly bool _isSingle, _isPacked, _roundsUp;
    private readonly double[] _block;

    public PointWriter(void* data, long stride, int width, int type, long count, string name, bool roundsUp = false)
    {
        if (count > 0)
        {
            Fields.Pointer(data, name);
            Fields.Stride(stride, (long)width * PointReader.SizeOf(type), $"{name}_stride");
        }

        _data = (byte*)data;
        (_stride, _width, _roundsUp) = (stride, width, roundsUp);
        _isSingle = PointReader.SizeOf(type) == sizeof(float);
        _isPacked = !_isSingle && stride == width * sizeof(double);
        _block = _isPacked ? [] : new double[PointReader.BlockLength * width];
    }

    /// <summary>Where the numbers of some points go before <see cref="Put"/>.</summary>
    public Span<double> Room(long from, int length) => _isPacked
        ? new Span<double>(_data + (from * _stride), length * _width)
        : _block.AsSpan(0, length * _width);

    public void Put(long from, int length)
    {
        if (_isPacked)
        {
            return;
        }

        byte* first = _data + (from * _stride);
        if (_isSingle && !_roundsUp && _stride == _width * sizeof(float))
        {
            ToSingle(_block.AsSpan(0, length * _width), new Span<float>(first, length * _width));
            return;
        }

        int width = _width;
        long stride = _stride;
        double[] block = _block;
        for (int i = 0, at = 0; i < length; i++, first += stride)
        {
            for (int j = 0; j < width; j++, at++)
            {
                if (!_isSingle)
                {
                    ((double*)first)[j] = block[at];
                }
                else
                {
                    ((float*)first)[j] = _roundsUp ? RoundedUp(block[at]) : (float)block[at];
                }
            }
        }
    }

    private static void ToSingle(ReadOnlySpan<double> numbers, Span<float> destination)
    {
        int done = 0;
        for (; done <= numbers.Length - Vector128<float>.Count; done += Vector128<float>.Count)
        {
            Vector128.Narrow(Vector128.Create(numbers[done..]), Vector128.Create(numbers[(done + 2)..]))
                .CopyTo(destination[done..]);
        }

        for (; done < numbers.Length; done++)
        {
            destination[done] = (float)numbers[done];
        }
    }

    // A thickness that is needed must not become thinner.
    private static float RoundedUp(double value)
    {
        float nearest = (float)value;
        return nearest < value ? MathF.BitIncrement(nearest) : nearest;
    }
}
