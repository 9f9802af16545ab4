using CeramicOptics.Colorimetry;
using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Masking;

/// <summary>How thick a wall must be so that the stump does not show.</summary>
public static class MaskingThickness
{
    // The reliable thickness is looked for from the thick end in such steps, then refined.
    private const double StepMm = 0.05, ResolutionMm = 0.001;

    /// <summary>The answer for every zone.</summary>
    /// <param name="restoration">The restoration; walls over its range are considered.</param>
    /// <param name="options">What reliable means; the default when null.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>
    /// For each zone the smallest thickness from which on the difference stays within the limit up to the end of the
    /// range, all crossings (to 1e-9 mm; a touch shorter than 0.0001 mm may be missed), the reliable and the structural
    /// thickness, what is recommended, uncertainties and cautions.
    /// </returns>
    /// <remarks>
    /// The reliable thickness is searched from the thick end in steps of 0.05 mm; a gap narrower than that can be
    /// missed.
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
            zones.Add(Find(comparison, options ?? MaskingOptions.Default, cancellation));
            cautions.AddRange(CautionsOf(zones[zones.Count - 1]));
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
    public static IReadOnlyList<LimitingCase> Curve(Restoration restoration, Zone zone, IEnumerable<double> wallsMm)
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
    }

    internal static ZoneMasking Find(ZoneComparison comparison, MaskingOptions options, CancellationToken cancellation)
    {
        List<Crossing> crossings = CurveSearch.Crossings(comparison);
        bool maskedAtEnd = comparison.Difference(comparison.Range.MaxMm) <= comparison.Criterion.Limit;
        MaskingOutcome outcome = !maskedAtEnd ? MaskingOutcome.NotMasked
            : crossings.Count == 0 ? MaskingOutcome.MaskedThroughout : MaskingOutcome.MaskedFrom;
        double? byColor = outcome switch
        {
            MaskingOutcome.NotMasked => null,
            MaskingOutcome.MaskedThroughout => comparison.Range.MinMm,
            _ => crossings[crossings.Count - 1].WallMm,
        };
        UncertaintyModel model = new(comparison);
        NormalPoints points = new(
            model.Dimensions, new SamplingOptions { Samples = options.Samples, Seed = options.Seed });
        double? reliable = byColor is double from
            ? Reliable(comparison, model, from, options.Share, points, cancellation)
            : null;
        double? uncertainty = outcome == MaskingOutcome.MaskedFrom
            ? ThicknessUncertainty(comparison, model, byColor!.Value)
            : null;
        double? structural = comparison.Wall.Restoration.StructuralMinimumMm(comparison.Zone);
        model.Prepare(comparison.Zone.AvailableMm);
        SampledDifferences atAvailable = SampledDifferences.Of(model, points, cancellation);
        return new ZoneMasking(
            comparison.Zone,
            outcome,
            new MinimumThickness(byColor, reliable, structural, comparison.Range.MaxMm, options.Share, uncertainty),
            comparison.At(byColor ?? comparison.Range.MaxMm),
            comparison.At(CurveSearch.Minimum(comparison)),
            comparison.At(comparison.Zone.AvailableMm),
            atAvailable.StandardDeviation,
            atAvailable.Within(comparison.Criterion.Limit),
            crossings,
            comparison.Range);
    }

    // Never below the thickness by colour, which half of all pieces would miss.
    private static double? Reliable(
        ZoneComparison comparison, UncertaintyModel model, double byColorMm, double share, NormalPoints points,
        CancellationToken cancellation)
    {
        double limit = comparison.Criterion.Limit;

        bool IsReliable(double mm)
        {
            // So far below the limit that even the largest share is met.
            const double Enough = 6;
            double difference = comparison.Difference(mm);
            if (difference > limit)
            {
                return false;
            }

            model.Prepare(mm);
            return difference + (Enough * model.StandardUncertainty()) <= limit
                || SampledDifferences.Of(model, points, cancellation).Within(limit).Value >= share;
        }

        double high = comparison.Range.MaxMm;
        if (!IsReliable(high))
        {
            return null;
        }

        double low = high;
        while (low > byColorMm)
        {
            low = Math.Max(low - StepMm, byColorMm);
            if (!IsReliable(low))
            {
                break;
            }

            high = low;
        }

        while (high - low > ResolutionMm)
        {
            double middle = (low + high) / 2;
            (low, high) = IsReliable(middle) ? (low, middle) : (middle, high);
        }

        return high;
    }

    // u(t) = u(difference) / |d difference / dt| at the crossing.
    private static double? ThicknessUncertainty(ZoneComparison comparison, UncertaintyModel model, double atMm)
    {
        double low = Math.Max(comparison.Range.MinMm, atMm - 1e-4), high = Math.Min(
            comparison.Range.MaxMm, atMm + 1e-4);
        double change = Math.Abs(comparison.Difference(high) - comparison.Difference(low));
        model.Prepare(atMm);
        return change == 0 ? null : model.StandardUncertainty() * (high - low) / change;
    }
}
