using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Remedies;

/// <summary>
/// The thinnest opaque liner with which a restoration meets its criterion where it does not without one.
/// </summary>
public static class BlockingLiner
{
    private const double StepMm = 0.005, ResolutionMm = 0.0005;

    /// <summary>Finds the liner, directly under the core.</summary>
    /// <param name="restoration">The restoration, every zone at its available thickness; a liner that it has is
    /// replaced.</param>
    /// <param name="liner">Substance of the liner.</param>
    /// <param name="options">Its largest thickness and where it takes its room; the default when null.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <remarks>
    /// Thicknesses are tried in steps of 0.005 mm and the first that meets the criterion is refined; a gain narrower
    /// than a step can be missed. The wall above the liner is never below the structural minimum of its zone: where
    /// there is no room for that, no liner is given and a caution says so.
    /// </remarks>
    /// <exception cref="ArgumentException">Grids or models differ, or a target was read in another
    /// geometry.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A zone's available thickness is outside the range of the
    /// wall.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static BlockingLinerResult Find(
        Restoration restoration, Material liner, BlockingLinerOptions? options = null,
        IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        Guard.NotNull(restoration);
        Guard.NotNull(liner);
        BlockingLinerOptions limits = options ?? new BlockingLinerOptions();
        double limit = restoration.Criterion.Limit;
        cancellation.ThrowIfCancellationRequested();
        IReadOnlyList<LimitingCase> without = Evaluate(restoration, cancellation);
        double worstWithout = without.Max(zone => zone.Difference);
        double room = restoration.Zones.Min(zone => zone.AvailableMm - DecisionGuard.ThinnestWallMm(restoration, zone));
        double last = limits.TakesFromCeramic ? Math.Min(limits.MaximumMm, room) : limits.MaximumMm;
        if (worstWithout <= limit || room < 0 || last < StepMm)
        {
            progress?.Report(1);
            bool isNeeded = worstWithout > limit, hasRoom = room >= 0 && last >= StepMm;
            return new BlockingLinerResult(
                restoration, without, isNeeded ? null : 0, hasRoom || !isNeeded ? 0 : null, null, null,
                CautionsOf(restoration, isNeeded && !hasRoom));
        }

        Restoration thickest = restoration with { Liner = new Layer(liner, last) };
        ZoneComparison[] zones =
            [.. restoration.Zones.Select(zone => Sweep(thickest, zone, limits.TakesFromCeramic, last, cancellation))];
        double Worst(double linerMm) => zones.Max(zone => zone.Difference(linerMm));

        (double bestMm, double best) = (0, worstWithout);
        double? found = null;
        double[] tried = new ThicknessRange(0, last).Steps(StepMm);
        for (int i = 1; i < tried.Length && found is null; i++)
        {
            cancellation.ThrowIfCancellationRequested();
            double worst = Worst(tried[i]);
            (bestMm, best) = worst < best ? (tried[i], worst) : (bestMm, best);
            if (worst <= limit)
            {
                (double low, double high) = (tried[i - 1], tried[i]);
                while (high - low > ResolutionMm)
                {
                    double middle = (low + high) / 2;
                    (low, high) = Worst(middle) <= limit ? (low, middle) : (middle, high);
                }

                found = high;
            }

            progress?.Report(found is null ? i / (tried.Length - 1.0) : 1);
        }

        double shown = found ?? bestMm;
        if (shown == 0)
        {
            return new BlockingLinerResult(restoration, without, null, 0, null, null, CautionsOf(restoration, false));
        }

        // What is stated is evaluated like any restoration; at the limit itself that may round to the other side, so
        // the liner grows until it is met.
        Restoration lined = With(shown);
        IReadOnlyList<LimitingCase> with = Evaluate(lined, cancellation);
        while (found is not null && with.Max(zone => zone.Difference) > limit && shown < last)
        {
            found = shown = Math.Min(shown + (ResolutionMm / 10), last);
            lined = With(shown);
            with = Evaluate(lined, cancellation);
        }

        found = with.Max(zone => zone.Difference) <= limit ? found : null;
        return new BlockingLinerResult(
            restoration, without, found, bestMm, lined, with,
            Guard.Copy(CautionsOf(lined, false).Append(Caution.PredictionAlone)));

        Restoration With(double linerMm) => (restoration with { Liner = new Layer(liner, linerMm) }).WithZones(
            restoration.Zones.Select(zone => limits.TakesFromCeramic
                ? zone.WithWall(Math.Max(zone.AvailableMm - linerMm, DecisionGuard.ThinnestWallMm(restoration, zone)))
                : zone));
    }

    // The largest difference of one zone by the thickness of the liner.
    private static ZoneComparison Sweep(
        Restoration thickest, Zone zone, bool takesFromCeramic, double lastMm, CancellationToken cancellation)
    {
        double share = thickest.Veneer?.Share ?? 0, veneerMm = thickest.Veneer?.ThicknessMm ?? 0;
        double wallMm = zone.AvailableMm;
        List<LayerPart> parts = [];
        IReadOnlyList<(LayerRole Role, Layer Layer)> layers = thickest.LayersOf(wallMm);
        for (int i = 0; i < layers.Count; i++)
        {
            if (layers[i].Role == LayerRole.Liner)
            {
                parts.Add(new LayerPart(i));
            }
            else if (takesFromCeramic && layers[i].Role == LayerRole.Core)
            {
                parts.Add(new LayerPart(i, share - 1, ((1 - share) * wallMm) - veneerMm));
            }
            else if (takesFromCeramic && layers[i].Role == LayerRole.Veneer && share > 0)
            {
                parts.Add(new LayerPart(i, -share, share * wallMm));
            }
        }

        return new ZoneComparison(new CompiledWall(
            thickest, wallMm, new VariableThickness(parts, new ThicknessRange(0, lastMm)), cancellation), zone);
    }

    private static IReadOnlyList<LimitingCase> Evaluate(Restoration restoration, CancellationToken cancellation)
    {
        CompiledWall wall = new(restoration, cancellation);
        return Guard.Copy(restoration.Zones.Select(zone => new ZoneComparison(wall, zone).At(zone.AvailableMm)));
    }

    private static IReadOnlyList<Caution> CautionsOf(Restoration restoration, bool lacksRoom) =>
        Guard.Copy(DecisionCautions.Of(restoration)
        .Concat(lacksRoom
            ? restoration.Zones
                .Where(zone => DecisionGuard.IsStrongEnough(restoration, zone, zone.AvailableMm)
                    && !DecisionGuard.IsStrongEnough(restoration, zone, zone.AvailableMm - StepMm))
                .Select(zone =>
                    new Caution(CautionKind.StructuralMinimumGoverns, zone.Name, restoration.StructuralMinimumMm(zone)))
            : [])
        .Distinct());
}
