using CeramicOptics.Layers;

namespace CeramicOptics.Selection;

/// <summary>Finds the ceramic, veneer, cement and wall thickness that bring every zone nearest to its target.</summary>
/// <remarks>
/// All combinations count. A combination is dropped early only when one of its zones is already worse than the worst of the best kept so far; its
/// largest difference could only grow, so the best are provably kept. Colours are those of two-flux theory.
/// </remarks>
public static class Match
{
    /// <summary>The best combinations.</summary>
    /// <param name="restoration">The case. The reference of every zone is a target; <see cref="RestorationCase.LayersBelow"/> come between ceramic and cement.</param>
    /// <param name="options">What there is to choose from.</param>
    /// <param name="progress">Told the share done, 0 to 1, after each ceramic.</param>
    /// <param name="cancellation">Stops the work between two combinations.</param>
    /// <returns>
    /// At most <see cref="MatchOptions.Keep"/> candidates by largest difference over zones and illuminants, among equals by mean. In each zone the
    /// wall has, of the thicknesses tried, the one with the smallest largest difference; no ceramic layer is below the structural minimum.
    /// </returns>
    /// <exception cref="ArgumentException">A zone's reference is no target, nothing is allowed (no veneer and no monolithic wall), or grids differ.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static MatchRanking Rank(
        RestorationCase restoration, MatchOptions options, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        MatchEvaluator evaluator = new(restoration, options);
        SortedSet<Scored> best = new(Scored.Order);
        int considered = 0, pruned = 0, tooThin = 0;
        for (int c = 0; c < options.Ceramics.Count; c++)
        {
            foreach (Material? veneer in evaluator.Veneers)
            {
                foreach (IReadOnlyList<Layer> cements in evaluator.CementSets)
                {
                    MatchEvaluator.Build build = evaluator.Prepare(options.Ceramics[c], veneer, cements);
                    foreach (double share in veneer is null ? [0] : options.VeneerShares)
                    {
                        cancellation.ThrowIfCancellationRequested();
                        double bar = best.Count < options.Keep ? double.PositiveInfinity : best.Max!.Worst;
                        considered++;
                        switch (build.Evaluate(share, bar, out MatchEvaluator.ZoneChoice[] zones))
                        {
                            case MatchEvaluator.Verdict.Pruned:
                                pruned++;
                                break;
                            case MatchEvaluator.Verdict.TooThin:
                                tooThin++;
                                break;
                            default:
                                best.Add(new Scored(zones.Max(zone => zone.Worst), evaluator.Mean(zones), considered, options.Ceramics[c], veneer, share, zones));
                                if (best.Count > options.Keep)
                                {
                                    best.Remove(best.Max!);
                                }

                                break;
                        }
                    }
                }
            }

            progress?.Report((c + 1.0) / options.Ceramics.Count);
        }

        return new MatchRanking(
            Guard.Copy(best.Select(item => evaluator.Describe(item.Ceramic, item.Veneer, item.Share, item.Zones))),
            considered, pruned, tooThin, evaluator.Cautions(tooThin));
    }

    /// <summary>The combinations of which none is beaten in all three: colour, translucency and thickness of the wall.</summary>
    /// <param name="restoration">The case, as for <see cref="Rank"/>.</param>
    /// <param name="options">What there is to choose from; <see cref="MatchOptions.Keep"/> does not count here.</param>
    /// <param name="wantedTranslucency">TP00 of the thinnest wall that is wanted, such as that of the neighbour tooth, 0 to 100.</param>
    /// <param name="progress">Told the share done, 0 to 1, after each limit of thickness.</param>
    /// <param name="cancellation">Stops the work between two combinations.</param>
    /// <returns>The Pareto set, by largest difference. Every wall thickness counts as a choice of its own where all zones allow it.</returns>
    /// <exception cref="ArgumentException">As for <see cref="Rank"/>.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The wanted translucency is outside its range.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static IReadOnlyList<MatchCandidate> Pareto(
        RestorationCase restoration, MatchOptions options, double wantedTranslucency, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        Guard.InRange(wantedTranslucency, 0, 100, "");
        List<(MatchCandidate Candidate, double Worst, double Misfit, double Wall)> all = [];
        RestorationCase[] slices = [.. ThicknessSlices(Guard.NotNull(restoration), Guard.NotNull(options))];
        for (int k = 0; k < slices.Length; k++)
        {
            MatchRanking ranking = Rank(slices[k], options with { Keep = 100_000 }, null, cancellation);
            all.AddRange(ranking.Candidates.Select(candidate => (
                candidate, candidate.WorstDifference, Math.Abs(candidate.Translucency - wantedTranslucency), candidate.Zones.Max(zone => zone.WallMm))));
            progress?.Report((k + 1.0) / slices.Length);
        }

        static bool Beats((MatchCandidate, double Worst, double Misfit, double Wall) one, (MatchCandidate, double Worst, double Misfit, double Wall) other) =>
            one.Worst <= other.Worst && one.Misfit <= other.Misfit && one.Wall <= other.Wall
            && (one.Worst < other.Worst || one.Misfit < other.Misfit || one.Wall < other.Wall);

        return Guard.Copy(all
            .Where(item => !all.Exists(other => Beats(other, item)))
            .OrderBy(item => item.Worst)
            .Select(item => item.Candidate));
    }

    // The case with every wall limited to at most one of the thicknesses tried, so that thin walls are not hidden behind thicker, better ones.
    private static IEnumerable<RestorationCase> ThicknessSlices(RestorationCase restoration, MatchOptions options)
    {
        double thickest = restoration.Zones.Max(zone => zone.AvailableThicknessMm);
        foreach (double limit in MatchEvaluator.Thicknesses(restoration.Zones.Max(zone => zone.ThinnestMm ?? zone.AvailableThicknessMm), thickest, options.ThicknessStepMm))
        {
            yield return restoration.WithZones(restoration.Zones.Select(zone => zone.AvailableThicknessMm <= limit
                ? zone
                : new Zone(zone.Name, zone.Substrate, limit, zone.Reference) { ThinnestMm = zone.ThinnestMm, Weight = zone.Weight }));
        }
    }

    private sealed record Scored(
        double Worst, double Mean, int Number, Ceramic Ceramic, Material? Veneer, double Share, MatchEvaluator.ZoneChoice[] Zones)
    {
        public static IComparer<Scored> Order { get; } = Comparer<Scored>.Create((a, b) =>
            a.Worst != b.Worst ? a.Worst.CompareTo(b.Worst) : a.Mean != b.Mean ? a.Mean.CompareTo(b.Mean) : a.Number.CompareTo(b.Number));
    }
}
