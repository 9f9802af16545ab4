using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Lateral;
using CeramicOptics.Mapping.Spreading;
using CeramicOptics.Restorations;

namespace CeramicOptics.Mapping;

/// <summary>
/// Maps of a restoration over stumps that change from point to point, such as a metal post beside dentine, with the
/// light that spreads sideways in the wall.
/// </summary>
/// <remarks>
/// A <see cref="ThicknessMap"/> treats each point alone; around a post or a dark margin that is wrong for some
/// millimetres. Here each point shows a share of every stump within <see cref="ReachMm"/>, by its own thickness. Where
/// only one stump is within reach the answers are those of <see cref="Plain"/>. docs/lateral.md describes the method
/// and its accuracy. Immutable and safe to share.
/// </remarks>
public sealed class SpreadMap
{
    private const double WidestMm = 10, LeastSaid = 0.05;

    private const int MostStumps = 16;

    private readonly Caution? _anisotropy;

    private SpreadMap(
        ThicknessMap plain, IReadOnlyList<Zone> zones, IReadOnlyList<Substrate> stumps, SpreadKernels kernels,
        SpreadColors colors, Caution? anisotropy)
    {
        (_anisotropy, Plain, Zones, Stumps, Kernels, Colors) = (
            anisotropy, plain, zones, stumps, kernels, colors);
        (ReachMm, Range) = (SpreadLadder.RadiusMm(kernels.Kernels - 1), kernels.Range);
    }

    /// <summary>The same restoration with each point alone over the stump of its zone.</summary>
    public ThicknessMap Plain { get; }

    /// <summary>The zones, by index.</summary>
    internal IReadOnlyList<Zone> Zones { get; }

    /// <summary>The stumps, by index.</summary>
    internal IReadOnlyList<Substrate> Stumps { get; }

    /// <summary>Distance beyond which no stump is seen, mm, for all thicknesses of the range.</summary>
    public double ReachMm { get; }

    /// <summary>Thicknesses of the wall that are covered.</summary>
    internal ThicknessRange Range { get; }

    /// <summary>Cautions that must be shown with every answer.</summary>
    public IReadOnlyList<Caution> Cautions => Guard.Copy(
        Plain.Zones.SelectMany(zone => zone.Requirement.Cautions).Append(Caution.SidewaysLight)
            .Concat(Stumps.SelectMany(Caution.OfStump)).Concat(_anisotropy is null ? [] : [_anisotropy]).Distinct());

    internal SpreadKernels Kernels { get; }

    internal SpreadColors Colors { get; }

    /// <summary>Compiles a restoration.</summary>
    /// <param name="restoration">The restoration; points are compared with the references of its zones.</param>
    /// <param name="stumps">The stumps that points may have, 1 to 16; those of the zones are not added.</param>
    /// <param name="masking">What reliable means; the default when null.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="ArgumentException">No stump or more than 16, more than 256 zones, grids or models differ, or a
    /// target was read in another geometry.</exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// The range of the wall is narrower than 0.001 mm or ends above 10 mm, or a zone's available thickness is outside
    /// it.
    /// </exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    /// <remarks>
    /// How light spreads is taken from the stack over the first stump; another refractive index of a stump counts in
    /// its colours, not in the spread. Where the theory states no anisotropy of scattering, 0.4 is assumed, and a
    /// caution says how much the colours beside a rim depend on it.
    /// </remarks>
    public static SpreadMap Compile(
        Restoration restoration,
        IEnumerable<Substrate> stumps,
        MaskingOptions? masking = null,
        IProgress<double>? progress = null,
        CancellationToken cancellation = default)
    {
        Guard.NotNull(restoration);
        IReadOnlyList<Substrate> copy = Guard.Copy(stumps, minimumCount: 1, nameof(stumps), MostStumps);
        Guard.InRange(restoration.WallRange.MaxMm, 0, WidestMm, "mm", "end of the range of the wall");
        ThicknessMap plain = new(restoration.Zones.Select(
            zone => ThicknessResponse.Compile(restoration, zone, masking, null, cancellation)));
        progress?.Report(0.2);
        CompiledWall wall = new(restoration, cancellation);
        ZoneComparison[] zones = [.. restoration.Zones.Select(zone => new ZoneComparison(wall, zone))];
        SpreadBands bands = new(zones[0].Response.Grid);
        SpreadColors colors = new(wall, zones, copy, bands, cancellation);
        progress?.Report(0.4);
        SpreadKernels kernels = new(
            restoration, copy, wall.Range, bands, share => progress?.Report(0.4 + (0.6 * share)), cancellation);
        double change = UnknownAnisotropy.IsStatedBy(restoration.Core.Material.Model) ? 0
            : SpreadAnisotropy.LargestChange(restoration, copy, colors, bands.Grid.Count / 2);
        return new SpreadMap(
            plain, restoration.Zones, copy, kernels, colors,
            change >= LeastSaid ? new Caution(CautionKind.UnknownAnisotropy, value: Math.Round(change, 1)) : null);
    }

    /// <summary>Lets light spread over a surface.</summary>
    /// <param name="mesh">The surface, made of triangles.</param>
    /// <param name="thicknessesMm">Thickness of the wall at each point, mm; NaN for no data.</param>
    /// <param name="stumps">Stump of each point, by index, also where there is no thickness.</param>
    /// <param name="zones">Zone of each point; empty where the map has one.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="ArgumentException">
    /// The mesh has no triangles, lengths differ from its number of points, or the zones of several are not given.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">No such stump or zone; names the point.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    /// <remarks>
    /// The first call for a mesh makes its nodes at every scale, which the mesh keeps. The answer keeps copies of what
    /// is given here.
    /// </remarks>
    public SpreadField Over(
        MapMesh mesh,
        ReadOnlySpan<double> thicknessesMm,
        ReadOnlySpan<byte> stumps,
        ReadOnlySpan<byte> zones = default,
        IProgress<double>? progress = null,
        CancellationToken cancellation = default) =>
        new(this, Guard.NotNull(mesh), thicknessesMm, stumps, zones, progress, cancellation);
}
