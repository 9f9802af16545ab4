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
    public ThicknessMap(IEnumerable<ThicknessResponse> zones)
    {
        _zones = MapPoints.Zones(zones);
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
        MapPoints.CheckLengths(thicknessesMm.Length, destination.Length, zones.Length);
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
        MapPoints.CheckStride(buffer.Length, destination.Length, zones.Length, stride, offset);
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
        MapPoints.CheckLengths(thicknessesMm.Length, destination.Length, zones.Length);
        MapPoints.InParts(destination.Length, threads, (from, count) =>
            Differences(thicknessesMm.Span.Slice(from, count), destination.Span.Slice(from, count), MapPoints.Part(zones, from, count)));
    }

    /// <summary>How much thicker the wall must be at each point, mm: up to the recommended minimum of its zone, never below the structural minimum; 0 where it is thick enough.</summary>
    /// <param name="thicknessesMm">Thicknesses, mm; NaN for no data.</param>
    /// <param name="destination">Receives as many thicknesses; NaN where there is no data, or where no thickness of the range is enough. A thickness below the range counts.</param>
    /// <param name="zones">Zone of each point; empty when all belong to the first.</param>
    /// <exception cref="ArgumentException">Lengths differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">No such zone; the points before it are done.</exception>
    /// <remarks>More wall may mean that more tooth is removed: show the cautions of <see cref="ThicknessResponse.Requirement"/>.</remarks>
    public void MissingThicknesses(ReadOnlySpan<double> thicknessesMm, Span<double> destination, ReadOnlySpan<byte> zones = default)
    {
        MapPoints.CheckLengths(thicknessesMm.Length, destination.Length, zones.Length);
        for (int i = 0; i < destination.Length; i++)
        {
            ThicknessResponse zone = ZoneOf(zones, i);
            double missing = (zone.Requirement.RecommendedMinimumMm ?? double.NaN) - thicknessesMm[i];
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
        MapPoints.CheckLengths(thicknessesMm.Length, destination.Length, zones.Length);
        for (int i = 0; i < destination.Length; i++)
        {
            ThicknessResponse zone = ZoneOf(zones, i);
            double mm = thicknessesMm[i], difference = ThicknessResponse.Difference(zone.DifferenceTable, zone.RangeMm.Min, zone.StepsPerMm, mm);
            destination[i] = double.IsNaN(mm) ? PointStatus.NoData
                : double.IsNaN(difference) ? PointStatus.OutOfRange
                : difference > zone.Requirement.Criterion.Limit ? PointStatus.Shows
                : mm < zone.Requirement.StructuralMinimumMm ? PointStatus.BelowStructuralMinimum
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
        MapPoints.CheckLengths(thicknessesMm.Length, destination.Length, zones.Length);
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
        MapPoints.CheckLengths(thicknessesMm.Length, destination.Length, zones.Length);
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

    /// <summary>The response of a point's zone.</summary>
    internal ThicknessResponse ZoneOf(ReadOnlySpan<byte> zones, int point) => MapPoints.ZoneOf(_zones, zones, point);

    private static void Differences(ThicknessResponse zone, ReadOnlySpan<double> thicknessesMm, Span<double> destination)
    {
        ReadOnlySpan<double> table = zone.DifferenceTable;
        (double min, double perMm) = (zone.RangeMm.Min, zone.StepsPerMm);
        for (int i = 0; i < destination.Length; i++)
        {
            destination[i] = ThicknessResponse.Difference(table, min, perMm, thicknessesMm[i]);
        }
    }
}
