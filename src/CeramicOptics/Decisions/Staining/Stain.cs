using CeramicOptics.Colorimetry.Differences;

namespace CeramicOptics.Selection;

/// <summary>Finds few stains, and their loads, that bring a restoration to its target under several illuminants.</summary>
/// <remarks>
/// Sets of one pigment, then of two, and so on, are all optimized until one meets the criterion; loads stay between 0 and the limit. In each set
/// the loads minimize the largest difference over places and illuminants: damped Gauss-Newton steps with closed-form derivatives on the L*a*b*
/// offsets in the metric of CIEDE2000 at the target, with weights raised for what is worst (iteratively reweighted least squares). Sets are
/// screened coarsely, the eight best of each size to the end, and the set chosen anew from other starting points; the result says how many of
/// these agree.
/// </remarks>
public static class Stain
{
    private const int Restarts = 8, Refined = 8;
    private const double SameEnd = 0.01;

    // Multiples of their roots spread the starting points evenly; one for each pigment of a mixture.
    private static readonly int[] Primes = [2, 3, 5, 7];

    /// <summary>The mixture.</summary>
    /// <param name="places">Where the stain is laid, at least one place; one mixture serves all.</param>
    /// <param name="layer">The layer that carries it, with its limits.</param>
    /// <param name="pigments">Pigments to choose from, 1 to 24.</param>
    /// <param name="criterion">Difference that is good enough.</param>
    /// <param name="conditions">Illuminants and geometry; D65 and 2 degrees when null.</param>
    /// <param name="progress">Told the share done, 0 to 1, after each size of sets.</param>
    /// <param name="cancellation">Stops the work between two sets.</param>
    /// <exception cref="ArgumentException">No place, no or too many pigments, a target that moves with the stack, or grids differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A position is not in its stack.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static StainRecipe Find(
        IEnumerable<StainPlace> places,
        StainLayer layer,
        IEnumerable<Pigment> pigments,
        ColorCriterion criterion,
        ViewingConditions? conditions = null,
        IProgress<double>? progress = null,
        CancellationToken cancellation = default)
    {
        IReadOnlyList<Pigment> palette = Guard.Copy(pigments, minimumCount: 1);
        if (palette.Count > 24)
        {
            throw new ArgumentException($"pigments holds {Guard.Text(palette.Count)} items; at most 24 can be combined.", nameof(pigments));
        }

        StainProblem problem = new(Guard.Copy(places, minimumCount: 1), Guard.NotNull(layer), palette, Guard.NotNull(criterion), conditions ?? ViewingConditions.Default);
        (int[] Set, double[] Loads, double Worst) best = ([], [], problem.Worst([], []));
        Dictionary<string, double[]> starts = [];
        int mixtures = 0;
        for (int size = 1; size <= Math.Min(layer.MaximumPigments, palette.Count) && best.Worst > criterion.Limit; size++)
        {
            Dictionary<string, double[]> previous = starts;
            starts = [];
            List<(int[] Set, double[] Loads, double Residual)> screened = [];
            foreach (int[] set in Subsets(palette.Count, size))
            {
                cancellation.ThrowIfCancellationRequested();
                mixtures++;

                // From where the set without its last pigment ended.
                double[] loads = [.. size == 1 ? [] : previous[string.Join(" ", set.Take(size - 1))], 0.1 * layer.MaximumLoad];
                double residual = StainOptimizer.Screen(problem, set, loads);
                starts.Add(string.Join(" ", set), [.. loads]);
                screened.Add((set, loads, residual));
            }

            foreach ((int[] set, double[] loads, _) in screened.OrderBy(item => item.Residual).Take(Refined))
            {
                double worst = StainOptimizer.Optimize(problem, set, loads);
                best = worst < best.Worst ? (set, loads, worst) : best;
            }

            progress?.Report(size / (layer.MaximumPigments + 1.0));
        }

        int restarts = best.Set.Length == 0 ? 0 : Restarts;
        List<double> ends = [];
        for (int start = 1; start <= restarts; start++)
        {
            double[] loads = [.. best.Set.Select((_, j) => layer.MaximumLoad * Fraction(start * Math.Sqrt(Primes[j])))];
            double worst = StainOptimizer.Optimize(problem, best.Set, loads);
            ends.Add(worst);
            best = worst < best.Worst ? (best.Set, loads, worst) : best;
        }

        progress?.Report(1);
        return problem.Describe(best.Set, best.Loads, mixtures, restarts, ends.Count(end => end - best.Worst < SameEnd));
    }

    private static double Fraction(double value) => value - Math.Floor(value);

    private static IEnumerable<int[]> Subsets(int count, int size)
    {
        int[] set = [.. Enumerable.Range(0, size)];
        while (true)
        {
            yield return (int[])set.Clone();
            int last = size - 1;
            while (last >= 0 && set[last] == count - size + last)
            {
                last--;
            }

            if (last < 0)
            {
                yield break;
            }

            set[last]++;
            for (int i = last + 1; i < size; i++)
            {
                set[i] = set[i - 1] + 1;
            }
        }
    }
}
