using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Comparison;

/// <summary>
/// The wall of one restoration compiled over its range, once for every refractive index of stumps; stumps themselves
/// may differ.
/// </summary>
/// <remarks>Not for use by two threads at once.</remarks>
internal sealed class CompiledWall
{
    // Standard uncertainties of the wall that are covered beyond its range.
    private const double Spread = 4;

    private readonly List<StackResponse> _responses = [];
    private readonly List<(StackResponse Base, IReadOnlyList<WallNeighbour> Neighbours)> _neighbours = [];
    private readonly CancellationToken _cancellation;
    private readonly double _stackWallMm;
    private readonly bool _isWallFixed;

    public CompiledWall(Restoration restoration, CancellationToken cancellation)
        : this(restoration, restoration.WallRange, cancellation)
    {
    }

    public CompiledWall(Restoration restoration, ThicknessRange range, CancellationToken cancellation)
    {
        (Restoration, _cancellation) = (restoration, cancellation);
        Range = restoration.WallOver(range).Range;

        // Real pieces are thicker or thinner than planned, and densities differ; walls somewhat beyond the range are
        // covered too.
        double scale = restoration.Core.Material.Uncertainty?.RelativeScale ?? 0;
        double beyond = restoration.Veneer is null
            ? Spread * (restoration.Uncertainty.CoreMm + (scale * Range.MaxMm))
            : 0;
        Wall = restoration.WallOver(new ThicknessRange(
            Math.Max(Range.MinMm - beyond, Range.MinMm / 2), Math.Min(Range.MaxMm + beyond, Layer.MaximumThicknessMm)));
        Core = Index(restoration.LayersOf(range.MaxMm), LayerRole.Core);
        _stackWallMm = Wall.Range.MaxMm;
    }

    /// <summary>
    /// A wall of one thickness in which something else varies, such as a liner under it; thicknesses asked for are then
    /// those of what varies.
    /// </summary>
    public CompiledWall(
        Restoration restoration, double wallMm, VariableThickness varied, CancellationToken cancellation)
    {
        (Restoration, _cancellation, _stackWallMm, _isWallFixed) = (restoration, cancellation, wallMm, true);
        (Range, Wall) = (varied.Range, varied);
        Core = Index(restoration.LayersOf(wallMm), LayerRole.Core);
    }

    public Restoration Restoration { get; }

    /// <summary>Thicknesses of the wall that are asked for.</summary>
    public ThicknessRange Range { get; }

    /// <summary>How the layers follow the wall, over its range and what lies beside it.</summary>
    public VariableThickness Wall { get; }

    /// <summary>Position of the core in the stack.</summary>
    public int Core { get; }

    /// <summary>The available thickness of a zone lies in the range of the wall.</summary>
    public void RequireRoom(Zone zone)
    {
        if (!_isWallFixed)
        {
            Guard.InRange(
                zone.AvailableMm, Range.MinMm, Range.MaxMm, "mm", "available thickness", zone.Name);
        }
    }

    /// <summary>The compiled stack that serves a substrate.</summary>
    public StackResponse Over(Substrate substrate)
    {
        foreach (StackResponse response in _responses)
        {
            if (response.Serves(substrate))
            {
                return response;
            }
        }

        StackResponse added = Restoration.StackOver(substrate, _stackWallMm)
            .Compile(Restoration.Viewing.Geometry, [Wall], _cancellation);
        _responses.Add(added);
        return added;
    }

    /// <summary>The same stack with one input moved at a time, for uncertainties.</summary>
    public IReadOnlyList<WallNeighbour> NeighboursOver(Substrate substrate)
    {
        StackResponse response = Over(substrate);
        foreach ((StackResponse of, IReadOnlyList<WallNeighbour> known) in _neighbours)
        {
            if (of == response)
            {
                return known;
            }
        }

        IReadOnlyList<WallNeighbour> made = WallNeighbour.All(this, response, _cancellation);
        _neighbours.Add((response, made));
        return made;
    }

    /// <summary>Position of the layer of a role.</summary>
    internal static int Index(IReadOnlyList<(LayerRole Role, Layer Layer)> layers, LayerRole role)
    {
        for (int i = 0; i < layers.Count; i++)
        {
            if (layers[i].Role == role)
            {
                return i;
            }
        }

        throw new InvalidOperationException($"The restoration has no {role}.");
    }
}
