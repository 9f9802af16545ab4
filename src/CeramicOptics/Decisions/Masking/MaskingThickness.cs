using CeramicOptics.Colorimetry;
using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Masking;

/// <summary>How thick a wall must be so that the stump does not show.</summary>
public static class MaskingThickness
{
    /// <summary>The answer for every zone.</summary>
    /// <param name="restoration">The restoration; walls over its range are considered.</param>
    /// <param name="options">What reliable means; the default when null.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>
    /// For each zone the smallest thickness from which on the difference stays within the limit up to the end of the
    /// range (for a target up to where the wall is too thick), all crossings (to 1e-9 mm; a touch shorter than 0.0001
    /// mm may be missed), the reliable and the structural thickness, what is recommended, uncertainties and cautions.
    /// </returns>
    /// <remarks>
    /// The reliable thickness is searched from the thick end in steps of 0.05 mm; a gap narrower than that can be
    /// missed. For a target it is searched from the thin end of what meets the criterion, in steps of 0.05 mm or a
    /// sixteenth of it.
    /// </remarks>
    /// <exception cref="ArgumentException">
    /// Grids or models differ, or a target was read in another geometry.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A zone's available thickness is outside the range of the wall.
    /// </exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static MaskingResult Find(
        Restoration restoration, MaskingOptions? options = null, IProgress<double>? progress = null,
        CancellationToken cancellation = default)
    {
        CompiledWall wall = new(Guard.NotNull(restoration), cancellation);
        List<ZoneMasking> zones = [];
        List<Caution> cautions = [];
        IReadOnlyList<WeightingTable>? tables = null;
        foreach (Zone zone in restoration.Zones)
        {
            ZoneComparison comparison = new(wall, zone);
            tables = comparison.Tables;
            zones.Add(Find(comparison, options ?? new MaskingOptions(), cancellation));
            cautions.AddRange(
                CautionsOf(zones[zones.Count - 1]).Concat(CautionsOfRoom(zone, zones[zones.Count - 1].Minimum)));
            progress?.Report(zones.Count / (double)restoration.Zones.Count);
        }

        return new MaskingResult(restoration, zones, Guard.Copy(Caution.Of(restoration, tables!).Concat(cautions)));
    }

    /// <summary>The largest difference over lights at each of several thicknesses, for a chart.</summary>
    /// <param name="restoration">The restoration.</param>
    /// <param name="zone">One of its zones.</param>
    /// <param name="wallsMm">Thicknesses of the wall inside its range, mm, at least one.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A thickness is outside the range of the wall, or the zone's available thickness is.
    /// </exception>
    public static IReadOnlyList<LimitingCase> FindCurve(Restoration restoration, Zone zone, IEnumerable<double> wallsMm)
    {
        ZoneComparison comparison = new(new CompiledWall(Guard.NotNull(restoration), default), Guard.NotNull(zone));
        return Guard.Copy(Guard.Copy(wallsMm, minimumCount: 1)
            .Select(
                mm => comparison.At(Guard.InRange(mm, comparison.Range.MinMm, comparison.Range.MaxMm, "mm",
                "thickness of the wall"))));
    }

    internal static IEnumerable<Caution> CautionsOf(ZoneMasking zone)
    {
        if (!DecisionGuard.IsStrongEnough(zone.Minimum.StructuralMm, zone.Zone.AvailableMm))
        {
            yield return new Caution(
                CautionKind.BelowStructuralMinimum, zone.Zone.Name, zone.Minimum.StructuralMm);
        }

        foreach (Caution caution in CautionsOf(zone.Zone.Name, zone.Minimum))
        {
            yield return caution;
        }
    }

    /// <summary>What a minimum thickness itself makes necessary to say.</summary>
    internal static IEnumerable<Caution> CautionsOf(string zone, MinimumThickness minimum)
    {
        if (minimum.StructuralMm > minimum.ReliableMm)
        {
            yield return new Caution(CautionKind.StructuralMinimumGoverns, zone, minimum.StructuralMm);
        }

        if (minimum.ReliableMm is null)
        {
            yield return new Caution(CautionKind.NotReliable, zone, minimum.Share);
        }

        if ((minimum.ReliableUpToMm ?? minimum.ByColorUpToMm) is double upTo)
        {
            yield return new Caution(CautionKind.TooThickForTarget, zone, -Guard.RoundedUp(-upTo));
        }
    }

    /// <summary>What the available thickness of a zone makes necessary to say.</summary>
    internal static IEnumerable<Caution> CautionsOfRoom(Zone zone, MinimumThickness minimum) =>
        CautionsOfRoom(zone.Name, zone.AvailableMm, minimum);

    /// <summary>The same by name.</summary>
    internal static IEnumerable<Caution> CautionsOfRoom(string zone, double availableMm, MinimumThickness minimum) =>
        minimum.LackingMm(availableMm) is > 0 and double mm ? [new Caution(CautionKind.DoesNotFit, zone, mm)] : [];

    internal static ZoneMasking Find(ZoneComparison comparison, MaskingOptions options, CancellationToken cancellation)
    {
        List<Crossing> crossings = CurveSearch.Crossings(comparison);
        ThicknessRange range = comparison.Range;
        UncertaintyModel model = new(comparison);
        NormalPoints points = new(
            model.Dimensions, new SamplingOptions { Samples = options.Samples, Seed = options.Seed },
            cancellation);
        double? structural = comparison.Wall.Restoration.StructuralMinimumMm(comparison.Zone);
        (ThicknessRange? byColor, ThicknessRange? reliable) = Answer(
            CurveSearch.MaskedRanges(
                crossings, range, comparison.Difference(range.MaxMm) <= comparison.Criterion.Limit),
            comparison.Targets is not null, range, structural,
            new ReliableSearch(comparison, model, points, options.Share, cancellation));
        MaskingOutcome outcome = byColor is not { } met ? MaskingOutcome.NotMasked
            : met == range ? MaskingOutcome.MaskedThroughout
            : met.MaxMm == range.MaxMm ? MaskingOutcome.MaskedFrom : MaskingOutcome.MaskedBetween;
        double? uncertainty = byColor?.MinMm > range.MinMm
            ? ThicknessUncertainty(comparison, model, byColor.Value.MinMm)
            : null;
        bool hasUpperEnd = comparison.Targets is not null;
        model.Prepare(comparison.Zone.AvailableMm);
        SampledDifferences atAvailable = SampledDifferences.Of(model, points, cancellation);
        return new ZoneMasking(
            comparison.Zone,
            outcome,
            new MinimumThickness(
                byColor?.MinMm, reliable?.MinMm, structural, range.MaxMm, options.Share, uncertainty,
                hasUpperEnd ? byColor?.MaxMm : null, hasUpperEnd ? reliable?.MaxMm : null),
            comparison.At(byColor?.MinMm ?? range.MaxMm),
            comparison.At(CurveSearch.Minimum(comparison)),
            comparison.At(comparison.Zone.AvailableMm),
            atAvailable.StandardDeviation,
            atAvailable.Within(comparison.Criterion.Limit),
            crossings,
            comparison.Range);
    }

    // Thicknesses that meet the criterion by colour and reliably. Masking: up to the end of the range, since a
    // thicker wall hides more. A target: the thinnest that meet it, wherever the range ends.
    private static (ThicknessRange? ByColor, ThicknessRange? Reliable) Answer(
        IReadOnlyList<ThicknessRange> masked, bool isTarget, ThicknessRange range, double? structuralMm,
        ReliableSearch search)
    {
        if (!isTarget)
        {
            return masked.Count > 0 && masked[masked.Count - 1] is { } last && last.MaxMm == range.MaxMm
                ? (last, search.UpToTheEnd(last))
                : (null, null);
        }

        double smallestMm = structuralMm ?? 0;
        return ReliableSearch.ThinnestOf(masked, smallestMm, met => search.Thinnest(met, smallestMm));
    }

    // u(t) = u(difference) / |d difference / dt| at the crossing.
    private static double? ThicknessUncertainty(ZoneComparison comparison, UncertaintyModel model, double atMm)
    {
        double steepness = comparison.SteepnessAt(atMm);
        model.Prepare(atMm);
        return steepness == 0 ? null : model.StandardUncertainty() / steepness;
    }
}
