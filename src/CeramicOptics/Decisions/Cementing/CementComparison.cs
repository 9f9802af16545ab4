using CeramicOptics.Colorimetry;
using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Cementing;

/// <summary>
/// How much the choice of cement changes the colour over the given stumps, every zone at its available thickness.
/// </summary>
public static class CementComparison
{
    /// <summary>Colours with each cement and with its try-in paste.</summary>
    /// <param name="restoration">The restoration; each cement replaces its own cement or coupling.</param>
    /// <param name="cements">At least one; the others are compared with the first.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1, after each cement.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="ArgumentException">No cement, grids or models differ, or a target was read in another
    /// geometry.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A zone's available thickness is outside the range of the
    /// wall.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static CementComparisonResult Find(
        Restoration restoration, IEnumerable<CementOption> cements,
        IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        Guard.NotNull(restoration);
        IReadOnlyList<CementOption> options = Guard.Copy(cements, minimumCount: 1);
        List<CementEffect> effects = [];
        List<Caution> cautions = [];
        foreach (CementOption option in options)
        {
            cancellation.ThrowIfCancellationRequested();
            ZoneComparison[] bonded = Compiled(option.Bonded);
            ZoneComparison[]? triedIn = option.TryInPaste is Layer paste ? Compiled(paste) : null;
            effects.Add(new CementEffect(option, bonded[0].Wall.Restoration, bonded.Select((zone, z) =>
                EffectOf(zone, triedIn?[z], effects.Count == 0 ? null : effects[0].Zones[z]))));
            foreach (ZoneComparison[] made in triedIn is null ? [bonded] : (ZoneComparison[][])[bonded, triedIn])
            {
                cautions.AddRange(DecisionCautions.Of(made[0].Wall.Restoration));
            }

            progress?.Report(effects.Count / (double)options.Count);
        }

        return new CementComparisonResult(restoration, effects, Guard.Copy(cautions.Distinct()));

        ZoneComparison[] Compiled(Layer film)
        {
            CompiledWall wall = new(restoration.WithCement(film), cancellation);
            return [.. restoration.Zones.Select(zone => new ZoneComparison(wall, zone))];
        }
    }

    private static ZoneCementEffect EffectOf(ZoneComparison zone, ZoneComparison? paste, ZoneCementEffect? first)
    {
        IReadOnlyList<Lab> bonded = ColorsOf(zone);
        IReadOnlyList<Lab>? triedIn = paste is null ? null : ColorsOf(paste);
        IReadOnlyList<Lab> withFirst = first?.Bonded ?? bonded;
        return new ZoneCementEffect(
            zone.Zone, zone.At(zone.Zone.AvailableMm), bonded, triedIn, Largest(withFirst, bonded),
            triedIn is null ? null : Largest(triedIn, bonded), withFirst[0]);

        double Largest(IReadOnlyList<Lab> references, IReadOnlyList<Lab> colors) =>
            ZoneComparison.Largest(zone.Criterion, [.. references], [.. colors], out _);
    }

    private static IReadOnlyList<Lab> ColorsOf(ZoneComparison zone)
    {
        Lab[] colors = new Lab[zone.Lights], references = new Lab[zone.Lights];
        zone.Evaluate(zone.Zone.AvailableMm, colors, references);
        return Guard.Copy(colors);
    }
}
