using CeramicOptics.Colorimetry;

namespace CeramicOptics.Mapping;

/// <summary>
/// Answers for many points, each with a thickness, such as the vertices of a crown; reads and writes spans.
/// </summary>
/// <remarks>
/// Points may belong to zones with stumps of their own, by index. A NaN thickness, or one outside the range of its
/// response, gives NaN; <see cref="Statuses"/> tells which. An end of the range rounded to single precision is that
/// end. Nothing is allocated and nothing is kept between calls, so parts of one map can be computed on several threads.
/// Immutable and safe to share.
/// </remarks>
public sealed class ThicknessMap
{
    private readonly ThicknessResponse[] _zones;

    /// <summary>A map over one or more zones.</summary>
    /// <param name="zones">The responses of the zones, in the order of the indices, 1 to 256.</param>
    /// <exception cref="ArgumentException">No response, or more than 256.</exception>
    public ThicknessMap(IEnumerable<ThicknessResponse> zones) => _zones = MapPoints.Zones(zones);

    /// <summary>The responses of the zones.</summary>
    public IReadOnlyList<ThicknessResponse> Zones => Array.AsReadOnly(_zones);

    /// <summary>Largest difference over illuminants at each point.</summary>
    /// <param name="thicknessesMm">Thicknesses, mm; NaN for no data.</param>
    /// <param name="destination">Receives as many differences.</param>
    /// <param name="zones">Zone of each point; empty where the map has one.</param>
    /// <exception cref="ArgumentException">Lengths differ, or the zones of several are not given.</exception>
    /// <exception cref="ArgumentOutOfRangeException">No such zone; the points before it are done.</exception>
    public void Differences(
        ReadOnlySpan<double> thicknessesMm, Span<double> destination, ReadOnlySpan<byte> zones = default)
    {
        MapPoints.CheckLengths(thicknessesMm.Length, destination.Length, zones.Length);
        if (zones.IsEmpty && !destination.IsEmpty)
        {
            Differences(MapPoints.ZoneOf(_zones, zones, 0), thicknessesMm, destination);
            return;
        }

        for (int i = 0; i < destination.Length; i++)
        {
            destination[i] = ZoneOf(zones, i).DifferenceOrNone(thicknessesMm[i]);
        }
    }

    /// <summary>The same in single precision and from interleaved data, such as the buffer of a mesh.</summary>
    /// <param name="buffer">Numbers of all points, mm where they are thicknesses; NaN for no data.</param>
    /// <param name="destination">Receives one difference for each point.</param>
    /// <param name="zones">Zone of each point; empty where the map has one.</param>
    /// <param name="stride">Numbers from one point to the next, at least 1.</param>
    /// <param name="offset">Position of the thickness among the numbers of a point, 0 to stride - 1.</param>
    /// <exception cref="ArgumentException">The buffer is not as long as the points need, or the lengths of zones and
    /// destination differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Stride or offset outside its range, or no such zone; the points
    /// before it are done.</exception>
    public void Differences(
        ReadOnlySpan<float> buffer, Span<float> destination, ReadOnlySpan<byte> zones = default, int stride = 1,
        int offset = 0)
    {
        MapPoints.CheckStride(buffer.Length, destination.Length, zones.Length, stride, offset);
        for (int i = 0, at = offset; i < destination.Length; i++, at += stride)
        {
            destination[i] = (float)ZoneOf(zones, i).DifferenceOrNone(buffer[at]);
        }
    }

    /// <summary>The same on several threads.</summary>
    /// <param name="thicknessesMm">Thicknesses, mm; NaN for no data.</param>
    /// <param name="destination">Receives as many differences.</param>
    /// <param name="zones">Zone of each point; empty where the map has one.</param>
    /// <param name="threads">Number of threads, 1 to 1024.</param>
    /// <exception cref="ArgumentException">Lengths differ, or the zones of several are not given.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Threads outside its range.</exception>
    /// <exception cref="AggregateException">Holds what went wrong in parts, such as a zone that does not
    /// exist.</exception>
    public void Differences(
        ReadOnlyMemory<double> thicknessesMm, Memory<double> destination, ReadOnlyMemory<byte> zones, int threads)
    {
        Guard.InRange(threads, 1, 1024);
        MapPoints.CheckLengths(thicknessesMm.Length, destination.Length, zones.Length);
        MapPoints.InParts(destination.Length, threads, (from, count) =>
            Differences(
                thicknessesMm.Span.Slice(from, count), destination.Span.Slice(from, count),
                MapPoints.Part(zones, from, count)));
    }

    /// <summary>How much thicker the wall must be at each point for a goal, mm; 0 where it is thick enough.</summary>
    /// <param name="thicknessesMm">Thicknesses, mm; NaN for no data. A thickness below the range counts.</param>
    /// <param name="destination">
    /// Receives as many thicknesses; NaN where there is no data, where no thickness of the range is enough, and, for
    /// the recommended thickness, everywhere in a zone without a strength limit (its cautions say so). Above the range
    /// 0 where its end is masked; for a target NaN where the wall is too thick for it.
    /// </param>
    /// <param name="zones">Zone of each point; empty where the map has one.</param>
    /// <param name="goal">Which minimum; the recommended one by default.</param>
    /// <exception cref="ArgumentException">Lengths differ, or the zones of several are not given.</exception>
    /// <exception cref="ArgumentOutOfRangeException">No such goal or zone; the points before it are done.</exception>
    /// <remarks>
    /// More wall may mean that more tooth is removed: show the cautions of <see cref="ThicknessResponse.Requirement"/>.
    /// </remarks>
    public void MissingThicknesses(
        ReadOnlySpan<double> thicknessesMm,
        Span<double> destination,
        ReadOnlySpan<byte> zones = default,
        ThicknessGoal goal = ThicknessGoal.Recommended)
    {
        Guard.Defined(goal);
        MapPoints.CheckLengths(thicknessesMm.Length, destination.Length, zones.Length);
        for (int i = 0; i < destination.Length; i++)
        {
            destination[i] = ZoneOf(zones, i).MissingMm(thicknessesMm[i], goal);
        }
    }

    /// <summary>Whether the stump is masked at each point, or why that is not known.</summary>
    /// <param name="thicknessesMm">Thicknesses, mm; NaN for no data.</param>
    /// <param name="destination">Receives as many statuses.</param>
    /// <param name="zones">Zone of each point; empty where the map has one.</param>
    /// <exception cref="ArgumentException">Lengths differ, or the zones of several are not given.</exception>
    /// <exception cref="ArgumentOutOfRangeException">No such zone; the points before it are done.</exception>
    /// <remarks>
    /// Thicknesses are compared with the exact crossings of the limit, not with the table, so that no answer of
    /// <see cref="ThicknessResponse.Requirement"/> is contradicted.
    /// </remarks>
    public void Statuses(
        ReadOnlySpan<double> thicknessesMm, Span<PointStatus> destination, ReadOnlySpan<byte> zones = default)
    {
        MapPoints.CheckLengths(thicknessesMm.Length, destination.Length, zones.Length);
        for (int i = 0, end; i < destination.Length; i = end)
        {
            StatusSteps statuses = ZoneOf(zones, i).Statuses;
            end = MapPoints.RunEnd(zones, i, destination.Length);
            statuses.At(thicknessesMm.Slice(i, end - i), destination.Slice(i, end - i));
        }
    }

    /// <summary>Colour at each point under the first illuminant of its response.</summary>
    /// <param name="thicknessesMm">Thicknesses, mm; NaN for no data.</param>
    /// <param name="destination">Receives as many colours; NaN in all three where there is no answer.</param>
    /// <param name="zones">Zone of each point; empty where the map has one.</param>
    /// <exception cref="ArgumentException">Lengths differ, or the zones of several are not given.</exception>
    /// <exception cref="ArgumentOutOfRangeException">No such zone; the points before it are done.</exception>
    public void Colors(ReadOnlySpan<double> thicknessesMm, Span<Lab> destination, ReadOnlySpan<byte> zones = default)
    {
        MapPoints.CheckLengths(thicknessesMm.Length, destination.Length, zones.Length);
        for (int i = 0, end; i < destination.Length; i = end)
        {
            ThicknessResponse zone = ZoneOf(zones, i);
            end = MapPoints.RunEnd(zones, i, destination.Length);
            zone.Colors(thicknessesMm.Slice(i, end - i), destination.Slice(i, end - i));
        }
    }

    /// <summary>
    /// Display colour at each point under the first illuminant: its L*a*b* on the display's white, D65, as an eye
    /// adapted to the illuminant sees it (the adaptation of CIELAB itself, ISO/CIE 11664-4; rough for A).
    /// </summary>
    /// <param name="thicknessesMm">Thicknesses, mm; NaN for no data.</param>
    /// <param name="destination">Receives as many display colours, not clipped; NaN in all three where there is no
    /// answer.</param>
    /// <param name="zones">Zone of each point; empty where the map has one.</param>
    /// <exception cref="ArgumentException">Lengths differ, or the zones of several are not given.</exception>
    /// <exception cref="ArgumentOutOfRangeException">No such zone; the points before it are done.</exception>
    public void DisplayColors(
        ReadOnlySpan<double> thicknessesMm, Span<Srgb> destination, ReadOnlySpan<byte> zones = default)
    {
        MapPoints.CheckLengths(thicknessesMm.Length, destination.Length, zones.Length);
        Xyz white = Colorimeter.D65TwoDegree.White;
        for (int i = 0; i < destination.Length; i++)
        {
            ThicknessResponse zone = ZoneOf(zones, i);
            double mm = SinglePrecision.Inside(zone.Range, thicknessesMm[i]);
            destination[i] = mm >= zone.Range.MinMm && mm <= zone.Range.MaxMm
                ? Srgb.FromXyz(zone.ColorUnchecked(mm).ToXyz(white))
                : new Srgb(double.NaN, double.NaN, double.NaN);
        }
    }

    /// <summary>The response of a point's zone.</summary>
    internal ThicknessResponse ZoneOf(ReadOnlySpan<byte> zones, int point) => MapPoints.ZoneOf(_zones, zones, point);

    private static void Differences(
        ThicknessResponse zone, ReadOnlySpan<double> thicknessesMm, Span<double> destination)
    {
        ReadOnlySpan<double> table = zone.DifferenceTable;
        (double min, double perMm) = (zone.Range.MinMm, zone.StepsPerMm);
        for (int i = 0; i < destination.Length; i++)
        {
            destination[i] = ThicknessResponse.Difference(table, min, perMm, thicknessesMm[i]);
        }
    }
}
