using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Matching;

/// <summary>Finds the ceramic, veneer, cement and wall thickness that bring every zone closest to its target.</summary>
/// <remarks>
/// All combinations count. A combination is dropped early only when one of its zones is already worse than the worst of
/// the best kept so far; its largest difference could only grow, so the best are provably kept. Each combination is
/// compiled once, which takes most of the time.
/// </remarks>
public static class Match
{
    /// <summary>The best combinations.</summary>
    /// <param name="restoration">The restoration; the reference of every zone is a target.</param>
    /// <param name="options">The choices.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1, after each combination.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>
    /// At most <see cref="MatchOptions.Keep"/> candidates by largest difference over zones and illuminants, among
    /// equals by mean. In each zone the wall has, of the thicknesses tried, the one with the smallest largest
    /// difference; none is below the structural minimum.
    /// </returns>
    /// <exception cref="ArgumentException">A zone's reference is not a target or was read in another geometry, nothing
    /// is allowed, or grids or models differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A zone's available thickness is outside the range of the
    /// wall.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static MatchRanking Find(
        Restoration restoration, MatchOptions options,
        IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        DecisionGuard.RequireTargets(restoration);
        IReadOnlyList<Restoration> choices = Guard.NotNull(options).ChoicesOf(restoration);
        SortedSet<Scored> best = new(Scored.Order);
        double[] walls = new double[restoration.Zones.Count];
        int pruned = 0, tooThin = 0;
        for (int k = 0; k < choices.Count; k++)
        {
            cancellation.ThrowIfCancellationRequested();
            double[][] tried = CompiledMatch.WallsOf(choices[k], options.ThicknessStepMm);
            double bar = best.Count < options.Keep ? double.PositiveInfinity : best.Max!.Worst;
            if (Array.Exists(tried, zone => zone.Length == 0))
            {
                tooThin++;
            }
            else
            {
                CompiledMatch compiled = new(choices[k], cancellation);
                if (!compiled.TryEvaluate(tried, bar, walls, out _))
                {
                    pruned++;
                }
                else
                {
                    best.Add(new Scored(k, new MatchCandidate(choices[k], compiled.At(walls))));
                    if (best.Count > options.Keep)
                    {
                        best.Remove(best.Max!);
                    }
                }
            }

            progress?.Report((k + 1.0) / choices.Count);
        }

        MatchCandidate[] candidates = [.. best.Select(item => item.Candidate)];
        return new MatchRanking(restoration, candidates, choices.Count, pruned, tooThin,
            CautionsOf(choices, candidates, tooThin));
    }

    /// <summary>
    /// The combinations that no other one beats in all three of colour, translucency and thickness of the wall.
    /// </summary>
    /// <param name="restoration">The restoration, as for <see cref="Find"/>.</param>
    /// <param name="options">The choices; <see cref="MatchOptions.Keep"/> does not count here.</param>
    /// <param name="wantedTranslucency">TP00 of the thinnest wall that is wanted, such as that of the neighbour tooth,
    /// 0 to 100.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1, after each combination.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>The Pareto set, by largest difference. Every wall thickness counts as a choice of its own where all
    /// zones allow it.</returns>
    /// <exception cref="ArgumentException">As for <see cref="Find"/>.</exception>
    /// <exception cref="ArgumentOutOfRangeException">As for <see cref="Find"/>, or the wanted translucency is outside
    /// its range.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static MatchFront FindPareto(
        Restoration restoration, MatchOptions options, double wantedTranslucency,
        IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        DecisionGuard.RequireTargets(restoration);
        Guard.InRange(wantedTranslucency, 0, 100, "");
        IReadOnlyList<Restoration> choices = Guard.NotNull(options).ChoicesOf(restoration);
        List<(MatchCandidate Candidate, double Worst, double Misfit, double Wall)> all = [];
        Dictionary<(Ceramic, Veneer?, double), double> translucencies = [];
        double[] walls = new double[restoration.Zones.Count];
        int tooThin = 0;
        for (int k = 0; k < choices.Count; k++)
        {
            cancellation.ThrowIfCancellationRequested();
            CompiledMatch? compiled = null;
            double[] before = [];

            // Every wall limited to at most one of the thicknesses tried, so that thin walls are not hidden behind
            // thicker, better ones.
            foreach (double limit in LimitsOf(restoration, options.ThicknessStepMm))
            {
                double[][] tried = CompiledMatch.WallsOf(choices[k], options.ThicknessStepMm, limit);
                if (Array.Exists(tried, zone => zone.Length == 0))
                {
                    continue;
                }

                compiled ??= new CompiledMatch(choices[k], cancellation);
                compiled.TryEvaluate(tried, double.PositiveInfinity, walls, out double worst);
                if (walls.AsSpan().SequenceEqual(before))
                {
                    continue;
                }

                before = (double[])walls.Clone();
                MatchCandidate candidate = new(choices[k], compiled.At(walls));
                all.Add((candidate, worst, Math.Abs(TranslucencyOf(candidate, translucencies) - wantedTranslucency),
                    walls.Max()));
            }

            tooThin += compiled is null ? 1 : 0;
            progress?.Report((k + 1.0) / choices.Count);
        }

        // Whatever beats a choice comes before it in this order, and so does a member of the set that beats it.
        List<(MatchCandidate Candidate, double Worst, double Misfit, double Wall)> front = [];
        foreach ((MatchCandidate Candidate, double Worst, double Misfit, double Wall) item in
            all.OrderBy(item => item.Worst).ThenBy(item => item.Misfit).ThenBy(item => item.Wall))
        {
            if (!front.Exists(other => other.Misfit <= item.Misfit && other.Wall <= item.Wall
                && (other.Worst < item.Worst || other.Misfit < item.Misfit || other.Wall < item.Wall)))
            {
                front.Add(item);
            }
        }

        MatchCandidate[] candidates = [.. front.Select(item => item.Candidate)];
        return new MatchFront(restoration, wantedTranslucency, candidates, choices.Count, tooThin,
            CautionsOf(choices, candidates, tooThin));
    }

    private static double TranslucencyOf(MatchCandidate candidate, Dictionary<(Ceramic, Veneer?, double), double> known)
    {
        (Ceramic, Veneer?, double) key =
            (candidate.Restoration.Core, candidate.Restoration.Veneer, candidate.ThinnestMm);
        if (!known.TryGetValue(key, out double translucency))
        {
            translucency = candidate.Translucency;
            known.Add(key, translucency);
        }

        return translucency;
    }

    private static double[] LimitsOf(Restoration restoration, double stepMm) => new Layers.ThicknessRange(
        restoration.Zones.Max(zone => zone.ThinnestMm ?? zone.AvailableMm),
        restoration.Zones.Max(zone => zone.AvailableMm)).Steps(stepMm);

    private static IReadOnlyList<Caution> CautionsOf(
        IReadOnlyList<Restoration> choices, MatchCandidate[] candidates, int tooThin) =>
        DecisionCautions.Of(
            candidates.Length == 0 ? choices : candidates.Select(candidate => candidate.Restoration), tooThin);

    private sealed record Scored(int Number, MatchCandidate Candidate)
    {
        public double Worst { get; } = Candidate.WorstDifference;

        private double Mean { get; } = Candidate.MeanDifference;

        public static IComparer<Scored> Order { get; } = Comparer<Scored>.Create((a, b) =>
            a.Worst != b.Worst ? a.Worst.CompareTo(b.Worst)
            : a.Mean != b.Mean ? a.Mean.CompareTo(b.Mean)
            : a.Number.CompareTo(b.Number));
    }
}
