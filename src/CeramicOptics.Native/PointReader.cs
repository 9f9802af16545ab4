namespace CeramicOptics.Native;

/// <summary>Reads points from memory of the caller, block by block: single or double precision, packed or
/// interleaved.</summary>
internal sealed unsafe class PointReader
{
    public const int BlockLength = 512;
    private const int Single = 1, Double = 2;

    private readonly PointsInput _points;
    private readonly NativeMap _map;
    private readonly double[] _veneerMm, _wallMm;
    private readonly byte[] _zones;

    public PointReader(PointsInput* points, NativeMap map)
    {
        Fields.Pointer(points, "points");
        Fields.Size(points->Size, sizeof(PointsInput), "ceramic_points");
        (_points, _map) = (*points, map);
        if (_points.Count is < 0 or > long.MaxValue / 64)
        {
            throw new FieldException($"points.count must be 0 or more but is {_points.Count}.");
        }

        Fields.Choice(_points.Type, Double, "points.type", "CERAMIC_FLOAT (1) or CERAMIC_DOUBLE (2)");
        Check(_points.Thickness, _points.ThicknessStride, NumberSize, "thickness");
        if (map.IsTwoLayer)
        {
            Check(_points.Veneer, _points.VeneerStride, NumberSize, "veneer");
        }
        else if (_points.Veneer != null)
        {
            throw new FieldException("points.veneer must be NULL, because this map is over the wall alone.");
        }

        if (_points.Zones != null || map.Zones > 1)
        {
            Check(_points.Zones, _points.ZoneStride, 1, "zones");
        }

        _wallMm = new double[BlockLength];
        _veneerMm = map.IsTwoLayer ? new double[BlockLength] : [];
        _zones = _points.Zones != null ? new byte[BlockLength] : [];
    }

    public long Count => _points.Count;

    public int Type => _points.Type;

    /// <summary>Bytes of a number.</summary>
    public int NumberSize => SizeOf(_points.Type);

    public static int SizeOf(int type) => type == Single ? sizeof(float) : sizeof(double);

    public static int LengthFrom(long from, long count) => (int)Math.Min(BlockLength, count - from);

    /// <summary>The points from one on; they stay until the next call.</summary>
    public PointBlock Block(long from)
    {
        int length = LengthFrom(from, Count);
        Span<byte> zones = _zones.Length == 0 ? default : _zones.AsSpan(0, length);
        for (int i = 0; i < zones.Length; i++)
        {
            zones[i] = _points.Zones[(from + i) * _points.ZoneStride];
            if (zones[i] >= _map.Zones)
            {
                throw new FieldException(
                    $"points.zones of point {from + i} must be in [0, {_map.Zones - 1}] but is {zones[i]}.");
            }
        }

        ReadOnlySpan<double> wall = Numbers(_points.Thickness, _points.ThicknessStride, from, _wallMm, length);
        ReadOnlySpan<double> veneer = _map.IsTwoLayer
            ? Numbers(_points.Veneer, _points.VeneerStride, from, _veneerMm, length)
            : default;
        return new PointBlock(veneer, wall, zones);
    }

    private ReadOnlySpan<double> Numbers(byte* data, long stride, long from, double[] block, int length)
    {
        byte* first = data + (from * stride);
        if (_points.Type == Double)
        {
            if (stride == sizeof(double))
            {
                return new ReadOnlySpan<double>(first, length);
            }

            for (int i = 0; i < length; i++)
            {
                block[i] = *(double*)(first + (i * stride));
            }

            return block.AsSpan(0, length);
        }

        for (int i = 0; i < length; i++)
        {
            block[i] = *(float*)(first + (i * stride));
        }

        return block.AsSpan(0, length);
    }

    private void Check(void* data, long stride, int size, string name)
    {
        if (Count > 0)
        {
            Fields.Pointer(data, $"points.{name}");
            Fields.Stride(stride, size, name == "zones" ? "points.zone_stride" : $"points.{name}_stride");
        }
    }
}
