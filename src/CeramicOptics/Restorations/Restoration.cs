using System.Diagnostics.CodeAnalysis;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;

namespace CeramicOptics.Restorations;

/// <summary>
/// The question that every decision answers: zones, layers by their role, viewing, criterion, strength and
/// uncertainties of one restoration.
/// </summary>
/// <remarks>
/// From the surface down: glaze, veneer, core, liner, cement, then the stump of each zone. The wall is core and veneer
/// together; decisions vary its thickness. Immutable, equal by value; materials, stumps, references and colorimeters
/// are compared by reference.
/// </remarks>
public sealed record Restoration
{
    private const double ThickestFilmMm = 1;

    /// <summary>A bonded restoration.</summary>
    /// <param name="zones">At least one zone; the same materials serve all.</param>
    /// <param name="core">The ceramic of a monolithic wall, or of the core under a veneer.</param>
    /// <param name="cement">The set cement with its film.</param>
    /// <param name="criterion">Largest difference that is acceptable.</param>
    /// <exception cref="ArgumentException">
    /// No zone, two zones of one name, or a cement of another grid or model than the core.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">The film of cement is thicker than 1 mm.</exception>
    public Restoration(IEnumerable<Zone> zones, Ceramic core, Layer cement, ColorCriterion criterion)
        : this(zones, core, criterion) =>
            Cement = Film(LikeCore(Guard.NotNull(
                cement, "cement (for a restoration that is not bonded, give the coupling medium instead)")));

    /// <summary>
    /// A restoration that is not bonded, such as a dry crown on its stump or one tried in with water.
    /// </summary>
    /// <param name="zones">At least one zone; the same materials serve all.</param>
    /// <param name="core">The ceramic of a monolithic wall, or of the core under a veneer.</param>
    /// <param name="coupling">What fills the gap above the stump.</param>
    /// <param name="criterion">Largest difference that is acceptable.</param>
    /// <exception cref="ArgumentException">No zone, or two zones of one name.</exception>
    public Restoration(IEnumerable<Zone> zones, Ceramic core, CouplingMedium coupling, ColorCriterion criterion)
        : this(zones, core, criterion) =>
            Coupling = Guard.NotNull(coupling, "coupling (for a bonded restoration, give the cement instead)");

    private Restoration(IEnumerable<Zone> zones, Ceramic core, ColorCriterion criterion)
    {
        Zones = EachOnce(zones);
        Core = Guard.NotNull(core);
        Criterion = Guard.NotNull(criterion);
    }

    /// <summary>The zones, in the order given; at least one, each name once.</summary>
    public IReadOnlyList<Zone> Zones { get; private init; }

    /// <summary>The ceramic of a monolithic wall, or of the core under a veneer.</summary>
    public Ceramic Core { get; private init; }

    /// <summary>The set cement with its film; null when not bonded.</summary>
    public Layer? Cement { get; private init; }

    /// <summary>What fills the gap above the stump; null when bonded.</summary>
    public CouplingMedium? Coupling { get; private init; }

    /// <summary>Largest difference that is acceptable.</summary>
    public ColorCriterion Criterion { get; }

    /// <summary>Veneering ceramic over the core; null for a monolithic wall.</summary>
    /// <exception cref="ArgumentException">Its grid or model is not that of the core.</exception>
    public Veneer? Veneer
    {
        get;
        init
        {
            RequireLikeCore(value?.Material);
            field = value;
        }
    }

    /// <summary>Glaze on the surface; null for none.</summary>
    /// <exception cref="ArgumentException">Its grid or model is not that of the core.</exception>
    public Layer? Glaze
    {
        get;
        init => field = LikeCore(value);
    }

    /// <summary>Opaque liner under the core; null for none.</summary>
    /// <exception cref="ArgumentException">Its grid or model is not that of the core.</exception>
    public Layer? Liner
    {
        get;
        init => field = LikeCore(value);
    }

    /// <summary>Illuminants, observers and geometry.</summary>
    public ViewingConditions Viewing
    {
        get;
        init => field = Guard.NotNull(value, nameof(Viewing));
    } = new ViewingConditions();

    /// <summary>Standard uncertainties of the inputs of predictions.</summary>
    public InputUncertainty Uncertainty
    {
        get;
        init => field = Guard.NotNull(value, nameof(Uncertainty));
    } = new InputUncertainty();

    /// <summary>Thicknesses of the wall that every decision considers; 0.2 to 3 mm by default.</summary>
    public ThicknessRange WallRange { get; init; } = new(0.2, 3.0);

    /// <summary>The same restoration with other zones.</summary>
    /// <param name="zones">At least one zone.</param>
    /// <exception cref="ArgumentException">No zone, or two zones of one name.</exception>
    public Restoration WithZones(IEnumerable<Zone> zones) => this with { Zones = EachOnce(zones) };

    /// <summary>The same restoration made of another ceramic.</summary>
    /// <param name="core">The ceramic.</param>
    /// <exception cref="ArgumentException">Its grid or model is not that of the other layers.</exception>
    public Restoration WithCore(Ceramic core)
    {
        Restoration changed = this with { Core = Guard.NotNull(core) };
        foreach (Material? other in (Material?[])[
            Veneer?.Material, Glaze?.Material, Liner?.Material, Cement?.Material])
        {
            changed.RequireLikeCore(other);
        }

        return changed;
    }

    /// <summary>The same restoration bonded with another cement.</summary>
    /// <param name="cement">The set cement with its film, at most 1 mm.</param>
    /// <exception cref="ArgumentException">Its grid or model is not that of the core.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The film is thicker than 1 mm.</exception>
    public Restoration WithCement(Layer cement) =>
        this with { Cement = Film(LikeCore(Guard.NotNull(cement))), Coupling = null };

    /// <summary>The same restoration without cement, on a coupling medium.</summary>
    /// <param name="coupling">What fills the gap above the stump.</param>
    public Restoration Unbonded(CouplingMedium coupling) =>
        this with { Cement = null, Coupling = Guard.NotNull(coupling) };

    /// <summary>All layers over a stump.</summary>
    /// <param name="wallMm">Thickness of the wall, mm; at least that of a veneer of fixed thickness.</param>
    /// <param name="stump">The stump.</param>
    /// <exception cref="ArgumentException">Grids or models differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The wall is thinner than the veneer, or above 100 mm.</exception>
    public LayerStack StackOver(Substrate stump, double wallMm) =>
        new(LayersOf(wallMm).Select(item => item.Layer), stump, Coupling);

    /// <summary>
    /// Smallest wall that strength allows in a zone, mm; null when neither the ceramic nor the zone has a limit.
    /// </summary>
    /// <param name="zone">The zone.</param>
    internal double? StructuralMinimumMm(Zone zone)
    {
        double? strictest = null;
        foreach (StrengthLimit limit in (StrengthLimit[])[Core.Strength, Guard.NotNull(zone).Strength])
        {
            if (limit.MinimumMm is double minimum)
            {
                double wall = Veneer is null || limit.Scope == StrengthScope.CoreAndVeneer
                    ? minimum
                    : (minimum + Veneer.ThicknessMm) / (1 - Veneer.Share);
                strictest = Math.Max(strictest ?? 0, wall);
            }
        }

        return strictest;
    }

    /// <summary>What strength requires in a zone, by the layers that count; the stricter of ceramic and zone.</summary>
    internal CoreStrength CoreStrengthIn(Zone zone)
    {
        double? Strictest(StrengthScope scope) =>
            new[] { Core.Strength, zone.Strength }.Where(limit => limit.Scope == scope).Max(limit => limit.MinimumMm);
        return new CoreStrength(Strictest(StrengthScope.Core), Strictest(StrengthScope.CoreAndVeneer));
    }

    /// <summary>The layers of a wall with their roles, from the surface down.</summary>
    internal IReadOnlyList<(LayerRole Role, Layer Layer)> LayersOf(double wallMm)
    {
        List<(LayerRole, Layer)> layers = [];
        void Add(LayerRole role, Layer? layer)
        {
            if (layer is not null)
            {
                layers.Add((role, layer));
            }
        }

        double veneerMm = Veneer?.InWallMm(wallMm) ?? 0;
        Add(LayerRole.Glaze, Glaze);
        Add(LayerRole.Veneer, Veneer is null ? null : new Layer(Veneer.Material, veneerMm));
        Add(LayerRole.Core, new Layer(
            Core.Material,
            Guard.InRange(wallMm - veneerMm, 0, Layer.MaximumThicknessMm, "mm", "core under the veneer")));
        Add(LayerRole.Liner, Liner);
        Add(LayerRole.Cement, Cement);
        return layers;
    }

    /// <summary>What the theory itself adds to the uncertainty of the colour of a wall.</summary>
    internal OwnError OwnErrorAt(double wallMm) => Uncertainty.ModelColor is double each
        ? OwnError.Equal(each)
        : Core.Material.Model.OwnError.Of(LayersOf(wallMm).Select(item => item.Layer));

    /// <summary>The same of the difference from the wall with its core infinitely thick.</summary>
    internal OwnError OwnErrorToInfinite(double wallMm) => Uncertainty.ModelColor is double
        ? OwnErrorAt(wallMm)
        : OwnErrorAt(wallMm).And(Core.Material.Model.OwnError.Of([OwnErrorLaw.Infinite(Core.Material)]));

    /// <summary>
    /// How core and veneer follow the thickness of the wall, over walls that leave the core some thickness.
    /// </summary>
    internal VariableThickness WallOver(ThicknessRange range)
    {
        IReadOnlyList<(LayerRole Role, Layer Layer)> layers = LayersOf(range.MaxMm);
        List<LayerPart> parts = [];
        for (int i = 0; i < layers.Count; i++)
        {
            if (layers[i].Role == LayerRole.Veneer && Veneer!.Share > 0)
            {
                parts.Add(new LayerPart(i, Veneer.Share));
            }
            else if (layers[i].Role == LayerRole.Core)
            {
                parts.Add(new LayerPart(i, 1 - (Veneer?.Share ?? 0), -(Veneer?.ThicknessMm ?? 0)));
            }
        }

        double thinnest = Math.Max(range.MinMm, Veneer?.ThicknessMm ?? 0);
        return new VariableThickness(parts, new ThicknessRange(Math.Min(thinnest, range.MaxMm), range.MaxMm));
    }

    private void RequireLikeCore(Material? other)
    {
        if (other is not null)
        {
            Core.Material.Grid.RequireSame(other.Grid, $"'{other.Name}'");
            Core.Material.RequireSameModel(other);
        }
    }

    [return: NotNullIfNotNull(nameof(layer))]
    private Layer? LikeCore(Layer? layer)
    {
        RequireLikeCore(layer?.Material);
        return layer;
    }

    /// <summary>Problems with the room of the zones, to be shown before any decision is made.</summary>
    /// <returns>
    /// One for each zone whose available thickness is outside <see cref="WallRange"/>, which decisions refuse, or below
    /// what strength requires, where they suggest nothing; empty when there is none.
    /// </returns>
    public IReadOnlyList<InputProblem> FindProblems()
    {
        ThicknessRange range = WallOver(WallRange).Range;
        return Guard.Copy(Zones.Select(zone =>
        {
            double availableMm = zone.AvailableMm, strongMm = StructuralMinimumMm(zone) ?? 0;
            InputProblem About(InputProblemKind kind, double leastMm) =>
                new(kind, "available thickness", zone.Name, availableMm, "mm", leastMm, range.MaxMm);
            return !(availableMm >= range.MinMm && availableMm <= range.MaxMm)
                ? About(InputProblemKind.OutOfRange, range.MinMm)
                : strongMm > availableMm + 1e-12 ? About(InputProblemKind.TooLittleRoom, strongMm) : null;
        }).OfType<InputProblem>());
    }

    // Films are some hundredths to a few tenths of a millimetre thick (common practice, no source); more is an error in
    // the unit, and would hide the stump without a word.
    private static Layer Film(Layer cement)
    {
        Guard.InRange(cement.ThicknessMm, 0, ThickestFilmMm, "mm", "film of cement");
        return cement;
    }

    private static IReadOnlyList<Zone> EachOnce(IEnumerable<Zone> zones) =>
        Guard.EachOnce(Guard.Copy(zones, minimumCount: 1), zone => zone.Name, nameof(zones));
}
