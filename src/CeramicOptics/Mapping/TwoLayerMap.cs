using CeramicOptics.Colorimetry;

namespace CeramicOptics.Mapping;

/// <summary>Answers for many points with two thicknesses each, such as veneer and core: spans in, spans out.</summary>
/// <remarks>
/// As <see cref="ThicknessMap"/>: zones by index; a point without data (either thickness NaN) or outside the ranges gives NaN; nothing is allocated or
/// kept between calls. Immutable and safe to share.
/// </remarks>
public sealed class TwoLayerMap
{
    private readonly TwoLayerResponse[] _zones;

    /// <summary>A map over one or more zones.</summary>
    /// <param name="zones">The responses of the zones, in the order of the indices, 1 to 256.</param>
    /// <exception cref="ArgumentException">No response, or more than 256.</exception>
    public TwoLayerMap(IEnumerable<TwoLayerResponse> zones) => _zones = MapPoints.Zones(zones);

    /// <summary>The responses of the zones.</summary>
    public IReadOnlyList<TwoLayerResponse> Zones => Array.AsReadOnly(_zones);

    /// <summary>Largest difference over illuminants at each point.</summary>
    /// <param name="upperMm">Thicknesses of the upper layer, mm; NaN for no data.</param>
    /// <param name="lowerMm">Thicknesses of the lower layer, mm; NaN for no data.</param>
    /// <param name="destination">Receives as many differences.</param>
    /// <param name="zones">Zone of each point; empty when all belong to the first.</param>
    /// <exception cref="ArgumentException">Lengths differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">No such zone; the points before it are done.</exception>
    public void Differences(ReadOnlySpan<double> upperMm, ReadOnlySpan<double> lowerMm, Span<double> destination, ReadOnlySpan<byte> zones = default)
    {
        CheckLengths(upperMm.Length, lowerMm.Length, destination.Length, zones.Length);
        for (int i = 0; i < destination.Length; i++)
        {
            destination[i] = MapPoints.ZoneOf(_zones, zones, i).Difference(upperMm[i], lowerMm[i]);
        }
    }

    /// <summary>The same in single precision and from interleaved data, such as the buffer of a mesh.</summary>
    /// <param name="buffer">Numbers of all points, mm where they are thicknesses; NaN for no data.</param>
    /// <param name="destination">Receives one difference for each point.</param>
    /// <param name="stride">Numbers from one point to the next, at least 2.</param>
    /// <param name="upperOffset">Position of the upper thickness among the numbers of a point, 0 to stride - 1.</param>
    /// <param name="lowerOffset">Position of the lower thickness, likewise.</param>
    /// <param name="zones">Zone of each point; empty when all belong to the first.</param>
    /// <exception cref="ArgumentException">The buffer is not as long as the points need, or the lengths of zones and destination differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Stride or an offset outside its range, or no such zone; the points before it are done.</exception>
    public void Differences(ReadOnlySpan<float> buffer, Span<float> destination, int stride, int upperOffset, int lowerOffset, ReadOnlySpan<byte> zones = default)
    {
        MapPoints.CheckStride(buffer.Length, destination.Length, zones.Length, stride, upperOffset);
        MapPoints.CheckStride(buffer.Length, destination.Length, zones.Length, stride, lowerOffset);
        for (int i = 0, at = 0; i < destination.Length; i++, at += stride)
        {
            destination[i] = (float)MapPoints.ZoneOf(_zones, zones, i).Difference(buffer[at + upperOffset], buffer[at + lowerOffset]);
        }
    }

    /// <summary>The same on several threads.</summary>
    /// <param name="upperMm">Thicknesses of the upper layer, mm; NaN for no data.</param>
    /// <param name="lowerMm">Thicknesses of the lower layer, mm; NaN for no data.</param>
    /// <param name="destination">Receives as many differences.</param>
    /// <param name="zones">Zone of each point; empty when all belong to the first.</param>
    /// <param name="threads">Number of threads, 1 to 1024.</param>
    /// <exception cref="ArgumentException">Lengths differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Threads outside its range.</exception>
    /// <exception cref="AggregateException">Holds what went wrong in parts, such as a zone that is not there.</exception>
    public void Differences(ReadOnlyMemory<double> upperMm, ReadOnlyMemory<double> lowerMm, Memory<double> destination, ReadOnlyMemory<byte> zones, int threads)
    {
        Guard.InRange(threads, 1, 1024);
        CheckLengths(upperMm.Length, lowerMm.Length, destination.Length, zones.Length);
        MapPoints.InParts(destination.Length, threads, (from, count) => Differences(
            upperMm.Span.Slice(from, count), lowerMm.Span.Slice(from, count), destination.Span.Slice(from, count), MapPoints.Part(zones, from, count)));
    }

    /// <summary>How much thicker the lower layer must be at each point, mm, with the upper one as it is; 0 where it is thick enough.</summary>
    /// <param name="upperMm">Thicknesses of the upper layer, mm; NaN for no data.</param>
    /// <param name="lowerMm">Thicknesses of the lower layer, mm; NaN for no data. A thickness below the range counts.</param>
    /// <param name="destination">Receives as many thicknesses; NaN where there is no data, or where no lower thickness of the range is enough.</param>
    /// <param name="zones">Zone of each point; empty when all belong to the first.</param>
    /// <exception cref="ArgumentException">Lengths differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">No such zone; the points before it are done.</exception>
    /// <remarks>More wall may mean that more tooth is removed: show the cautions of <see cref="TwoLayerResponse.LowerRequirementAt"/>.</remarks>
    public void MissingLowerThicknesses(ReadOnlySpan<double> upperMm, ReadOnlySpan<double> lowerMm, Span<double> destination, ReadOnlySpan<byte> zones = default)
    {
        CheckLengths(upperMm.Length, lowerMm.Length, destination.Length, zones.Length);
        for (int i = 0; i < destination.Length; i++)
        {
            TwoLayerResponse zone = MapPoints.ZoneOf(_zones, zones, i);
            (double upper, double lower) = (upperMm[i], lowerMm[i]);
            bool isKnown = upper >= zone.UpperRangeMm.Min && upper <= zone.UpperRangeMm.Max && lower <= zone.LowerRangeMm.Max;
            destination[i] = isKnown ? Math.Max(0, zone.LowerMinimumAt(upper).RecommendedMm - lower) : double.NaN;
        }
    }

    /// <summary>Whether the stump is masked at each point, and why nothing can be said where that is so.</summary>
    /// <param name="upperMm">Thicknesses of the upper layer, mm; NaN for no data.</param>
    /// <param name="lowerMm">Thicknesses of the lower layer, mm; NaN for no data.</param>
    /// <param name="destination">Receives as many statuses; the structural minimum is that of both layers together.</param>
    /// <param name="zones">Zone of each point; empty when all belong to the first.</param>
    /// <exception cref="ArgumentException">Lengths differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">No such zone; the points before it are done.</exception>
    public void Statuses(ReadOnlySpan<double> upperMm, ReadOnlySpan<double> lowerMm, Span<PointStatus> destination, ReadOnlySpan<byte> zones = default)
    {
        CheckLengths(upperMm.Length, lowerMm.Length, destination.Length, zones.Length);
        for (int i = 0; i < destination.Length; i++)
        {
            TwoLayerResponse zone = MapPoints.ZoneOf(_zones, zones, i);
            double difference = zone.Difference(upperMm[i], lowerMm[i]), wall = upperMm[i] + lowerMm[i];
            destination[i] = double.IsNaN(wall) ? PointStatus.NoData
                : double.IsNaN(difference) ? PointStatus.OutOfRange
                : difference > zone.Requirement.Criterion.Limit ? PointStatus.Shows
                : wall < zone.Requirement.StructuralMinimumMm ? PointStatus.BelowStructuralMinimum
                : PointStatus.Masked;
        }
    }

    /// <summary>Colour at each point under the first illuminant of its response.</summary>
    /// <param name="upperMm">Thicknesses of the upper layer, mm; NaN for no data.</param>
    /// <param name="lowerMm">Thicknesses of the lower layer, mm; NaN for no data.</param>
    /// <param name="destination">Receives as many colours; NaN in all three where there is no answer.</param>
    /// <param name="zones">Zone of each point; empty when all belong to the first.</param>
    /// <exception cref="ArgumentException">Lengths differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">No such zone; the points before it are done.</exception>
    public void Colors(ReadOnlySpan<double> upperMm, ReadOnlySpan<double> lowerMm, Span<Lab> destination, ReadOnlySpan<byte> zones = default)
    {
        CheckLengths(upperMm.Length, lowerMm.Length, destination.Length, zones.Length);
        for (int i = 0; i < destination.Length; i++)
        {
            TwoLayerResponse zone = MapPoints.ZoneOf(_zones, zones, i);
            destination[i] = zone.Covers(upperMm[i], lowerMm[i]) ? zone.ColorUnchecked(upperMm[i], lowerMm[i]) : new Lab(double.NaN, double.NaN, double.NaN);
        }
    }

    private static void CheckLengths(int upper, int lower, int destination, int zones)
    {
        MapPoints.CheckLengths(upper, destination, zones, "upperMm");
        MapPoints.CheckLengths(lower, destination, zones, "lowerMm");
    }
}
