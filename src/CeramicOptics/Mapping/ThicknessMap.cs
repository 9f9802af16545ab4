using CeramicOptics.Colorimetry;

namespace CeramicOptics.Mapping;

/// <summary>Answers for many points with a thickness each, such as the vertices of a crown: spans in, spans out.</summary>
/// <remarks>
/// Points may belong to zones with stumps of their own, by index. A NaN thickness, or one outside the range of its response, gives NaN;
/// <see cref="Statuses(ReadOnlySpan{double}, Span{PointStatus}, ReadOnlySpan{byte})"/> tells which. Nothing is allocated and nothing is kept between calls, so parts of one map can be
/// computed on several threads. Immutable and safe to share.
/// </remarks>
public sealed class ThicknessMap
{
    private readonly ThicknessResponse[] _zones;

    /// <summary>A map over one or more zones.</summary>
    /// <param name="zones">The responses of the zones, in the order of the indices, 1 to 256.</param>
    /// <exception cref="ArgumentException">No response, or more than 256.</exception>
    public ThicknessMap(params IEnumerable<ThicknessResponse> zones)
    {
        _zones = [.. Guard.Copy(zones, minimumCount: 1)];
        if (_zones.Length > 256)
        {
            throw new ArgumentException($"zones holds {Guard.Text(_zones.Length)} items; at most 256 can be indexed.", nameof(zones));
        }
    }

    /// <summary>The responses of the zones.</summary>
    public IReadOnlyList<ThicknessResponse> Zones => Array.AsReadOnly(_zones);

    /// <summary>Largest difference over illuminants at each point.</summary>
    /// <param name="thicknessesMm">Thicknesses, mm; NaN for no data.</param>
    /// <param name="destination">Receives as many differences.</param>
    /// <param name="zones">Zone of each point; empty when all belong to the first.</param>
    /// <exception cref="ArgumentException">Lengths differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">No such zone; the points before it are done.</exception>
    public void Differences(ReadOnlySpan<double> thicknessesMm, Span<double> destination, ReadOnlySpan<byte> zones = default)
    {
        CheckLengths(thicknessesMm.Length, destination.Length, zones.Length);
        if (zones.IsEmpty)
        {
            Differences(_zones[0], thicknessesMm, destination);
            return;
        }

        for (int i = 0; i < destination.Length; i++)
        {
            ThicknessResponse zone = ZoneOf(zones, i);
            destination[i] = ThicknessResponse.Difference(zone.DifferenceTable, zone.RangeMm.Min, zone.StepsPerMm, thicknessesMm[i]);
        }
    }

    /// <summary>The same in single precision and from interleaved data, such as the buffer of a mesh.</summary>
    /// <param name="buffer">Numbers of all points, mm where they are thicknesses; NaN for no data.</param>
    /// <param name="destination">Receives one difference for each point.</param>
    /// <param name="zones">Zone of each point; empty when all belong to the first.</param>
    /// <param name="stride">Numbers from one point to the next, at least 1.</param>
    /// <param name="offset">Position of the thickness among the numbers of a point, 0 to stride - 1.</param>
    /// <exception cref="ArgumentException">The buffer is not as long as the points need, or the lengths of zones and destination differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Stride or offset outside its range, or no such zone; the points before it are done.</exception>
    public void Differences(ReadOnlySpan<float> buffer, Span<float> destination, ReadOnlySpan<byte> zones = default, int stride = 1, int offset = 0)
    {
        CheckStride(buffer.Length, destination.Length, zones.Length, stride, offset);
        for (int i = 0, at = offset; i < destination.Length; i++, at += stride)
        {
            ThicknessResponse zone = ZoneOf(zones, i);
            destination[i] = (float)ThicknessResponse.Difference(zone.DifferenceTable, zone.RangeMm.Min, zone.StepsPerMm, buffer[at]);
        }
    }

    /// <summary>The same on several threads.</summary>
    /// <param name="thicknessesMm">Thicknesses, mm; NaN for no data.</param>
    /// <param name="destination">Receives as many differences.</param>
    /// <param name="zones">Zone of each point; empty when all belong to the first.</param>
    /// <param name="threads">Number of threads, 1 to 1024.</param>
    /// <exception cref="ArgumentException">Lengths differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Threads outside its range.</exception>
    /// <exception cref="AggregateException">Holds what went wrong in parts, such as a zone that is not there.</exception>
    public void Differences(ReadOnlyMemory<double> thicknessesMm, Memory<double> destination, ReadOnlyMemory<byte> zones, int threads)
    {
        Guard.InRange(threads, 1, 1024);
        CheckLengths(thicknessesMm.Length, destination.Length, zones.Length);
        int part = (destination.Length / threads) + 1;
        Parallel.For(0, threads, new ParallelOptions { MaxDegreeOfParallelism = threads }, thread =>
        {
            int from = Math.Min(thread * part, destination.Length), count = Math.Min(part, destination.Length - from);
            if (count > 0)
            {
                Differences(thicknessesMm.Span.Slice(from, count), destination.Span.Slice(from, count), zones.IsEmpty ? default : zones.Span.Slice(from, count));
            }
        });
    }

    /// <summary>How much thicker the wall must be at each point, mm: up to the recommended minimum of its zone, never below the structural minimum; 0 where it is thick enough.</summary>
    /// <param name="thicknessesMm">Thicknesses, mm; NaN for no data.</param>
    /// <param name="destination">Receives as many thicknesses; NaN where there is no data, or where no thickness of the range is enough. A thickness below the range counts.</param>
    /// <param name="zones">Zone of each point; empty when all belong to the first.</param>
    /// <exception cref="ArgumentException">Lengths differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">No such zone; the points before it are done.</exception>
    /// <remarks>More wall may mean that more tooth is removed: show the cautions of <see cref="ThicknessResponse.Masking"/>.</remarks>
    public void MissingThicknesses(ReadOnlySpan<double> thicknessesMm, Span<double> destination, ReadOnlySpan<byte> zones = default)
    {
        CheckLengths(thicknessesMm.Length, destination.Length, zones.Length);
        for (int i = 0; i < destination.Length; i++)
        {
            ThicknessResponse zone = ZoneOf(zones, i);
            double missing = (zone.Masking.RecommendedMinimumMm ?? double.NaN) - thicknessesMm[i];
            destination[i] = missing > 0 || double.IsNaN(missing) ? missing : thicknessesMm[i] <= zone.RangeMm.Max ? 0 : double.NaN;
        }
    }

    /// <summary>Whether the stump is masked at each point, and why nothing can be said where that is so.</summary>
    /// <param name="thicknessesMm">Thicknesses, mm; NaN for no data.</param>
    /// <param name="destination">Receives as many statuses.</param>
    /// <param name="zones">Zone of each point; empty when all belong to the first.</param>
    /// <exception cref="ArgumentException">Lengths differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">No such zone; the points before it are done.</exception>
    public void Statuses(ReadOnlySpan<double> thicknessesMm, Span<PointStatus> destination, ReadOnlySpan<byte> zones = default)
    {
        CheckLengths(thicknessesMm.Length, destination.Length, zones.Length);
        for (int i = 0; i < destination.Length; i++)
        {
            ThicknessResponse zone = ZoneOf(zones, i);
            double mm = thicknessesMm[i], difference = ThicknessResponse.Difference(zone.DifferenceTable, zone.RangeMm.Min, zone.StepsPerMm, mm);
            destination[i] = double.IsNaN(mm) ? PointStatus.NoData
                : double.IsNaN(difference) ? PointStatus.OutOfRange
                : difference > zone.Masking.Criterion.Limit ? PointStatus.Shows
                : mm < zone.StructuralMinimumMm ? PointStatus.BelowStructuralMinimum
                : PointStatus.Masked;
        }
    }

    /// <summary>Colour at each point under the first illuminant of its response.</summary>
    /// <param name="thicknessesMm">Thicknesses, mm; NaN for no data.</param>
    /// <param name="destination">Receives as many colours; NaN in all three where there is no answer.</param>
    /// <param name="zones">Zone of each point; empty when all belong to the first.</param>
    /// <exception cref="ArgumentException">Lengths differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">No such zone; the points before it are done.</exception>
    public void Colors(ReadOnlySpan<double> thicknessesMm, Span<Lab> destination, ReadOnlySpan<byte> zones = default)
    {
        CheckLengths(thicknessesMm.Length, destination.Length, zones.Length);
        for (int i = 0; i < destination.Length; i++)
        {
            ThicknessResponse zone = ZoneOf(zones, i);
            double mm = thicknessesMm[i];
            destination[i] = mm >= zone.RangeMm.Min && mm <= zone.RangeMm.Max ? zone.ColorUnchecked(mm) : new Lab(double.NaN, double.NaN, double.NaN);
        }
    }

    /// <summary>Display colour at each point; for responses whose first illuminant is D65 with the 2 degree observer.</summary>
    /// <param name="thicknessesMm">Thicknesses, mm; NaN for no data.</param>
    /// <param name="destination">Receives as many display colours, not clipped; NaN in all three where there is no answer.</param>
    /// <param name="zones">Zone of each point; empty when all belong to the first.</param>
    /// <exception cref="ArgumentException">Lengths differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">No such zone; the points before it are done.</exception>
    public void DisplayColors(ReadOnlySpan<double> thicknessesMm, Span<Srgb> destination, ReadOnlySpan<byte> zones = default)
    {
        CheckLengths(thicknessesMm.Length, destination.Length, zones.Length);
        Xyz white = Colorimeter.D65TwoDegree.White;
        for (int i = 0; i < destination.Length; i++)
        {
            ThicknessResponse zone = ZoneOf(zones, i);
            double mm = thicknessesMm[i];
            destination[i] = mm >= zone.RangeMm.Min && mm <= zone.RangeMm.Max
                ? Srgb.FromXyz(zone.ColorUnchecked(mm).ToXyz(white))
                : new Srgb(double.NaN, double.NaN, double.NaN);
        }
    }

    private static void Differences(ThicknessResponse zone, ReadOnlySpan<double> thicknessesMm, Span<double> destination)
    {
        ReadOnlySpan<double> table = zone.DifferenceTable;
        (double min, double perMm) = (zone.RangeMm.Min, zone.StepsPerMm);
        for (int i = 0; i < destination.Length; i++)
        {
            destination[i] = ThicknessResponse.Difference(table, min, perMm, thicknessesMm[i]);
        }
    }

    private ThicknessResponse ZoneOf(ReadOnlySpan<byte> zones, int point)
    {
        if (zones.IsEmpty)
        {
            return _zones[0];
        }

        int zone = zones[point];
        return zone < _zones.Length
            ? _zones[zone]
            : throw new ArgumentOutOfRangeException(nameof(zones), $"zone of point {Guard.Text(point)} must be in [0, {Guard.Text(_zones.Length - 1)}] but is {Guard.Text(zone)}.");
    }

    private static void CheckLengths(int thicknesses, int destination, int zones)
    {
        Guard.SameLength(thicknesses, destination, "thicknessesMm");
        if (zones != 0)
        {
            Guard.SameLength(zones, destination, "zones");
        }
    }

    private static void CheckStride(int buffer, int destination, int zones, int stride, int offset)
    {
        Guard.InRange(stride, 1, int.MaxValue);
        Guard.InRange(offset, 0, stride - 1);
        if (zones != 0)
        {
            Guard.SameLength(zones, destination, "zones");
        }

        long needed = destination == 0 ? 0 : ((destination - 1L) * stride) + offset + 1;
        if (buffer < needed || buffer > (long)destination * stride)
        {
            throw new ArgumentException($"buffer holds {Guard.Text(buffer)} numbers, which are not those of {Guard.Text(destination)} points of {Guard.Text(stride)} each.", nameof(buffer));
        }
    }
}
