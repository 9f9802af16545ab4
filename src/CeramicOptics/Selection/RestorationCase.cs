using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;

namespace CeramicOptics.Selection;

/// <summary>One restoration to make: its zones, the layers that come with any ceramic, and what counts as good.</summary>
public sealed record RestorationCase
{
    /// <summary>A case.</summary>
    /// <param name="zones">At least one zone; the same ceramic serves all.</param>
    /// <param name="criterion">Difference that is still good enough.</param>
    /// <exception cref="ArgumentException">No zone.</exception>
    public RestorationCase(IEnumerable<Zone> zones, ColorCriterion criterion)
    {
        Zones = Guard.Copy(zones, minimumCount: 1);
        Criterion = Guard.NotNull(criterion);
    }

    /// <summary>The zones.</summary>
    public IReadOnlyList<Zone> Zones { get; private init; }

    /// <summary>Difference that is still good enough.</summary>
    public ColorCriterion Criterion { get; }

    /// <summary>Layers above the ceramic, from the surface down, such as glaze.</summary>
    public IReadOnlyList<Layer> LayersAbove { get; init => field = Guard.Copy(value, name: nameof(LayersAbove)); } = [];

    /// <summary>Layers below the ceramic, such as cement.</summary>
    public IReadOnlyList<Layer> LayersBelow { get; init => field = Guard.Copy(value, name: nameof(LayersBelow)); } = [];

    /// <summary>Clear film above the stump; null when bonded.</summary>
    public CouplingMedium? Coupling { get; init; }

    /// <summary>Illuminants, geometry and structural minimum.</summary>
    public ViewingConditions Conditions { get; init => field = Guard.NotNull(value, nameof(Conditions)); } = ViewingConditions.Default;

    /// <summary>Thicknesses of the ceramic to consider, 0 to 100 mm; each zone's available thickness must lie inside.</summary>
    public (double Min, double Max) RangeMm { get; init => field = Guard.ThicknessRange(value, name: nameof(RangeMm)); } = (0.2, 3.0);

    /// <summary>The same case with other zones, such as with targets in place of masking references.</summary>
    /// <param name="zones">At least one zone.</param>
    /// <exception cref="ArgumentException">No zone.</exception>
    public RestorationCase WithZones(IEnumerable<Zone> zones) => this with { Zones = Guard.Copy(zones, minimumCount: 1) };

    /// <summary>The stack that a ceramic makes over a stump.</summary>
    /// <param name="ceramic">The ceramic.</param>
    /// <param name="thicknessMm">Its thickness, 0 to 100 mm.</param>
    /// <param name="substrate">The stump.</param>
    public LayerStack StackOf(Ceramic ceramic, double thicknessMm, Substrate substrate) =>
        new([.. LayersAbove, new Layer(Guard.NotNull(ceramic).Material, thicknessMm), .. LayersBelow], substrate, Coupling);
}
