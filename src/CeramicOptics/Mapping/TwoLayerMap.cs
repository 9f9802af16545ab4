using CeramicOptics.Colorimetry;

namespace CeramicOptics.Mapping;

/// <summary>Answers for many points, each with a thickness of veneer and core; reads and writes spans.</summary>
/// <remarks>
/// As <see cref="ThicknessMap"/>: zones by index; a point without data (either thickness NaN) or outside the ranges
/// gives NaN; nothing is allocated or kept between calls. Immutable and safe to share.
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
    /// <param name="veneerMm">Thicknesses of the veneer, mm; NaN for no data.</param>
    /// <param name="coreMm">Thicknesses of the core, mm; NaN for no data.</param>
    /// <param name="destination">Receives as many differences.</param>
    /// <param name="zones">Zone of each point; empty where the map has one.</param>
    /// <exception cref="ArgumentException">Lengths differ, or the zones of several are not given.</exception>
    /// <exception cref="ArgumentOutOfRangeException">No such zone; the points before it are done.</exception>
    public void Differences(
        ReadOnlySpan<double> veneerMm, ReadOnlySpan<double> coreMm, Span<double> destination,
        ReadOnlySpan<byte> zones = default)
    {
        CheckLengths(veneerMm.Length, coreMm.Length, destination.Length, zones.Length);
        for (int i = 0; i < destination.Length; i++)
        {
            destination[i] = MapPoints.ZoneOf(_zones, zones, i).Difference(veneerMm[i], coreMm[i]);
        }
    }

    /// <summary>The same in single precision and from interleaved data, such as the buffer of a mesh.</summary>
    /// <param name="buffer">Numbers of all points, mm where they are thicknesses; NaN for no data.</param>
    /// <param name="destination">Receives one difference for each point.</param>
    /// <param name="stride">Numbers from one point to the next, at least 2.</param>
    /// <param name="veneerOffset">Position of the veneer among the numbers of a point, 0 to stride - 1.</param>
    /// <param name="coreOffset">Position of the core, likewise.</param>
    /// <param name="zones">Zone of each point; empty where the map has one.</param>
    /// <exception cref="ArgumentException">The buffer is not as long as the points need, or the lengths of zones and
    /// destination differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Stride or an offset outside its range, or no such zone; the points
    /// before it are done.</exception>
    public void Differences(
        ReadOnlySpan<float> buffer, Span<float> destination, int stride, int veneerOffset, int coreOffset,
        ReadOnlySpan<byte> zones = default)
    {
        MapPoints.CheckStride(buffer.Length, destination.Length, zones.Length, stride, veneerOffset);
        MapPoints.CheckStride(buffer.Length, destination.Length, zones.Length, stride, coreOffset);
        for (int i = 0, at = 0; i < destination.Length; i++, at += stride)
        {
            destination[i] = (float)MapPoints.ZoneOf(_zones, zones, i)
                .Difference(buffer[at + veneerOffset], buffer[at + coreOffset]);
        }
    }

    /// <summary>The same on several threads.</summary>
    /// <param name="veneerMm">Thicknesses of the veneer, mm; NaN for no data.</param>
    /// <param name="coreMm">Thicknesses of the core, mm; NaN for no data.</param>
    /// <param name="destination">Receives as many differences.</param>
    /// <param name="zones">Zone of each point; empty where the map has one.</param>
    /// <param name="threads">Number of threads, 1 to 1024.</param>
    /// <exception cref="ArgumentException">Lengths differ, or the zones of several are not given.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Threads outside its range.</exception>
    /// <exception cref="AggregateException">Holds what went wrong in parts, such as a zone that does not
    /// exist.</exception>
    public void Differences(
        ReadOnlyMemory<double> veneerMm, ReadOnlyMemory<double> coreMm, Memory<double> destination,
        ReadOnlyMemory<byte> zones, int threads)
    {
        Guard.InRange(threads, 1, 1024);
        CheckLengths(veneerMm.Length, coreMm.Length, destination.Length, zones.Length);
        MapPoints.InParts(destination.Length, threads, (from, count) => Differences(
            veneerMm.Span.Slice(from, count), coreMm.Span.Slice(from, count), destination.Span.Slice(from, count),
            MapPoints.Part(zones, from, count)));
    }

    /// <summary>How much thicker the core must be at each point, mm, with the veneer as it is; 0 where it is thick
    /// enough.</summary>
    /// <param name="veneerMm">Thicknesses of the veneer, mm; NaN for no data.</param>
    /// <param name="coreMm">Thicknesses of the core, mm; NaN for no data. A thickness below the range counts.</param>
    /// <param name="destination">
    /// Receives as many thicknesses; NaN where there is no data, where no core of the range is enough, and, for the
    /// recommended thickness, everywhere in a zone without a strength limit. Above the range of the core 0 where its
    /// end is masked; for a target NaN where the core is too thick for it.
    /// </param>
    /// <param name="zones">Zone of each point; empty where the map has one.</param>
    /// <param name="goal">Which minimum; the recommended one by default.</param>
    /// <exception cref="ArgumentException">Lengths differ, or the zones of several are not given.</exception>
    /// <exception cref="ArgumentOutOfRangeException">No such goal or zone; the points before it are done.</exception>
    /// <remarks>
    /// More wall may mean that more tooth is removed: show the cautions of
    /// <see cref="TwoLayerResponse.CoreRequirementAt"/>.
    /// </remarks>
    public void MissingCoreThicknesses(
        ReadOnlySpan<double> veneerMm,
        ReadOnlySpan<double> coreMm,
        Span<double> destination,
        ReadOnlySpan<byte> zones = default,
        ThicknessGoal goal = ThicknessGoal.Recommended)
    {
        Guard.Defined(goal);
        CheckLengths(veneerMm.Length, coreMm.Length, destination.Length, zones.Length);
        for (int i = 0; i < destination.Length; i++)
        {
            destination[i] = MapPoints.ZoneOf(_zones, zones, i).MissingCoreMm(veneerMm[i], coreMm[i], goal);
        }
    }

    /// <summary>Whether the stump is masked at each point, or why that is not known.</summary>
    /// <param name="veneerMm">Thicknesses of the veneer, mm; NaN for no data.</param>
    /// <param name="coreMm">Thicknesses of the core, mm; NaN for no data.</param>
    /// <param name="destination">Receives as many statuses.</param>
    /// <param name="zones">Zone of each point; empty where the map has one.</param>
    /// <exception cref="ArgumentException">Lengths differ, or the zones of several are not given.</exception>
    /// <exception cref="ArgumentOutOfRangeException">No such zone; the points before it are done.</exception>
    /// <remarks>
    /// Masked is where the table is within the limit; <see cref="TwoLayerResponse.CoreRequirementAt"/> asks for its
    /// bound more, so that from its thickness by colour on no point shows. Where a thickness is below its range and the
    /// other above, the status is <see cref="PointStatus.BelowRange"/>.
    /// </remarks>
    public void Statuses(
        ReadOnlySpan<double> veneerMm, ReadOnlySpan<double> coreMm, Span<PointStatus> destination,
        ReadOnlySpan<byte> zones = default)
    {
        CheckLengths(veneerMm.Length, coreMm.Length, destination.Length, zones.Length);
        for (int i = 0; i < destination.Length; i++)
        {
            destination[i] = MapPoints.ZoneOf(_zones, zones, i).StatusOf(veneerMm[i], coreMm[i]);
        }
    }

    /// <summary>Colour at each point under the first illuminant of its response.</summary>
    /// <param name="veneerMm">Thicknesses of the veneer, mm; NaN for no data.</param>
    /// <param name="coreMm">Thicknesses of the core, mm; NaN for no data.</param>
    /// <param name="destination">Receives as many colours; NaN in all three where there is no answer.</param>
    /// <param name="zones">Zone of each point; empty where the map has one.</param>
    /// <exception cref="ArgumentException">Lengths differ, or the zones of several are not given.</exception>
    /// <exception cref="ArgumentOutOfRangeException">No such zone; the points before it are done.</exception>
    public void Colors(
        ReadOnlySpan<double> veneerMm, ReadOnlySpan<double> coreMm, Span<Lab> destination,
        ReadOnlySpan<byte> zones = default)
    {
        CheckLengths(veneerMm.Length, coreMm.Length, destination.Length, zones.Length);
        for (int i = 0; i < destination.Length; i++)
        {
            destination[i] = MapPoints.ZoneOf(_zones, zones, i).ColorOrNone(veneerMm[i], coreMm[i]);
        }
    }

    private static void CheckLengths(int veneer, int core, int destination, int zones)
    {
        MapPoints.CheckLengths(veneer, destination, zones, "veneerMm");
        MapPoints.CheckLengths(core, destination, zones, "coreMm");
    }
}
