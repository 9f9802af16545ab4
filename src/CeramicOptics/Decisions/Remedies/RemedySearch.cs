using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Remedies;

/// <summary>Which single changes would bring a candidate closer to its target.</summary>
public static class RemedySearch
{
    private const double StepMm = 0.01, WorthTelling = 0.1;

    /// <summary>Changes that help by at least 0.1.</summary>
    /// <param name="candidate">The candidate.</param>
    /// <param name="options">What could be changed; the wall alone when null.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1, after each change tried.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <remarks>
    /// Walls of the limiting zone over the range of the wall are tried in steps of 0.01 mm: the closest one that meets
    /// the criterion, or the best thinner one; a thicker wall that does not meet it is not a remedy. Every change is
    /// judged by the largest difference of all zones, and by the prediction alone: how many pieces meet the criterion
    /// is for <see cref="Masking.MaskingThickness"/> to say. Nothing is offered that has a wall below the structural
    /// minimum; <see cref="Zone.ThinnestMm"/> is not known of a candidate.
    /// </remarks>
    /// <exception cref="ArgumentException">Grids or models differ.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static RemedyResult Find(
        MatchCandidate candidate, RemedyOptions? options = null,
        IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        Restoration made = Guard.NotNull(candidate).Restoration;
        RemedyOptions what = options ?? new RemedyOptions();
        Zone limiting = made.Zones.First(zone => zone.Name == candidate.Limiting.Zone.Name);
        List<Func<Remedy?>> changes = [() => OtherWall(candidate, limiting, cancellation)];
        changes.AddRange(what.Ceramics
            .Where(other => other.Family == made.Core.Family && other.Grade != made.Core.Grade)
            .Select<Ceramic, Func<Remedy?>>(other => () =>
                ForAll(RemedyKind.Grade, candidate, made.WithCore(other), cancellation)));
        changes.AddRange(what.Cements.Where(other => other != made.Cement)
            .Select<Layer, Func<Remedy?>>(other => () =>
                ForAll(RemedyKind.Cement, candidate, made.WithCement(other), cancellation)));
        if (what.BuildUp is Substrate buildUp)
        {
            changes.Add(() => BuiltUp(candidate, limiting, buildUp, cancellation));
        }

        if (what.Liner is Material liner)
        {
            changes.Add(() => Lined(candidate, BlockingLiner.Find(made, liner, what.LinerLimits, null, cancellation)));
        }

        List<Remedy> remedies = [];
        for (int k = 0; k < changes.Count; k++)
        {
            cancellation.ThrowIfCancellationRequested();
            if (changes[k]() is Remedy remedy && remedy.DifferenceAfter < remedy.DifferenceBefore - WorthTelling)
            {
                remedies.Add(remedy);
            }

            progress?.Report((k + 1.0) / changes.Count);
        }

        return new RemedyResult(
            candidate,
            remedies.OrderByDescending(remedy => remedy.Meets).ThenBy(remedy => remedy.DifferenceAfter),
            Guard.Copy(DecisionCautions.Of(made).Concat(remedies.SelectMany(remedy => remedy.Cautions)).Distinct()));
    }

    private static Remedy? OtherWall(MatchCandidate candidate, Zone limiting, CancellationToken cancellation)
    {
        Restoration made = candidate.Restoration;
        double[] walls = CompiledMatch.WallsFrom(made, limiting, made.WallRange.MinMm, made.WallRange.MaxMm, StepMm);
        if (walls.Length == 0)
        {
            return null;
        }

        double nowMm = limiting.AvailableMm, limit = made.Criterion.Limit;
        ZoneComparison compared = new(new CompiledWall(made, cancellation), limiting);
        (double Mm, double After)[] useful =
            [.. walls.Select(mm => (Mm: mm, After: compared.Difference(mm)))
                .Where(item => item.After <= limit || item.Mm < nowMm)];
        if (useful.Length == 0)
        {
            return null;
        }

        double bestMm = useful.OrderBy(item => item.After > limit ? item.After : 0)
            .ThenBy(item => Math.Abs(item.Mm - nowMm)).First().Mm;
        Restoration changed =
            made.WithZones(made.Zones.Select(zone => zone == limiting ? zone.WithWall(bestMm) : zone));
        return new Remedy(
            RemedyKind.Thickness, made, changed, limiting, candidate.WorstDifference, Worst(changed, cancellation),
            CautionsOf(changed, needsTooth: bestMm > nowMm));
    }

    private static Remedy BuiltUp(
        MatchCandidate candidate, Zone limiting, Substrate buildUp, CancellationToken cancellation)
    {
        Zone built = limiting.On(buildUp);
        Restoration made = candidate.Restoration, changed =
            made.WithZones(made.Zones.Select(zone => zone == limiting ? built : zone));
        return new Remedy(
            RemedyKind.StumpBuildUp, made, changed, limiting, candidate.WorstDifference, Worst(changed, cancellation),
            CautionsOf(changed, needsTooth: true));
    }

    // A change that concerns all zones; none where strength requires more of the changed restoration than there is.
    private static Remedy? ForAll(
        RemedyKind kind, MatchCandidate candidate, Restoration changed, CancellationToken cancellation)
    {
        if (!changed.Zones.All(zone => DecisionGuard.IsStrongEnough(changed, zone, zone.AvailableMm)))
        {
            return null;
        }

        return new Remedy(
            kind, candidate.Restoration, changed, null, candidate.WorstDifference, Worst(changed, cancellation),
            CautionsOf(changed, needsTooth: false));
    }

    private static double Worst(Restoration changed, CancellationToken cancellation)
    {
        CompiledWall wall = new(changed, cancellation);
        return changed.Zones.Max(zone => new ZoneComparison(wall, zone).Difference(zone.AvailableMm));
    }

    private static Remedy? Lined(MatchCandidate candidate, BlockingLinerResult blocked) => blocked.Lined is null
        ? null
        : new Remedy(
            RemedyKind.BlockingLiner, candidate.Restoration, blocked.Lined, null, candidate.WorstDifference,
            blocked.WorstDifference, CautionsOf(blocked.Lined, needsTooth: false));

    private static IEnumerable<Caution> CautionsOf(Restoration changed, bool needsTooth) =>
        DecisionCautions.Of(changed).Where(caution => needsTooth || caution.Kind != CautionKind.ToothReduction)
            .Append(Caution.PredictionAlone);
}
