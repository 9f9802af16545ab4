using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Staining;

/// <summary>
/// Finds the smallest set of stains, with their loads, that brings a restoration to its target under several
/// illuminants.
/// </summary>
/// <remarks>
/// Sets of one pigment, then of two, and so on, are all optimized until one meets the criterion; loads stay between 0
/// and the limit. In each set the loads minimize the largest difference over zones and illuminants: damped Gauss-Newton
/// steps on the L*a*b* offsets in the metric of CIEDE2000 at the target, with raised weights for the worst ones
/// (iteratively reweighted least squares). Sets are screened coarsely, the eight best of each size to the end, and the
/// set chosen again from other starting points; the result says how many of these agree. For the search the reflectance
/// is a smooth function of the layer's K and S, made once for each zone; what a recipe states is evaluated directly.
/// </remarks>
public static class Stain
{
    private const int Restarts = 8, Refined = 8;
    private const double SameEnd = 0.01;

    // Multiples of their roots spread the starting points evenly; one for each pigment of a mixture.
    private static readonly int[] Primes = [2, 3, 5, 7];

    /// <summary>Finds the mixture.</summary>
    /// <param name="restoration">The restoration, every zone at its available thickness; the reference of every zone is
    /// a target.</param>
    /// <param name="options">The layer that carries the stain, the pigments, and where they go; one mixture serves all
    /// zones.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1, after each size of sets.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="ArgumentException">
    /// A zone's reference is not a target or was read in another geometry, grids or models differ, or stain is to lie
    /// under a veneer that is not there.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">A zone's available thickness is outside the range of the
    /// wall.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static StainRecipe Find(
        Restoration restoration, StainOptions options,
        IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        DecisionGuard.RequireTargets(restoration);
        if (Guard.NotNull(options).Placement == StainPlacement.UnderVeneer && restoration.Veneer is null)
        {
            throw new ArgumentException(
                "Stain is to lie under the veneer but the restoration has none; lay it on the surface.",
                nameof(options));
        }

        cancellation.ThrowIfCancellationRequested();
        StainProblem problem = new(restoration, options, cancellation);
        IReadOnlyList<Pigment> palette = options.Pigments;
        ColorCriterion criterion = restoration.Criterion;
        (int[] Set, double[] Loads, double Worst) best = ([], [], problem.Worst([], []));
        Dictionary<string, double[]> starts = [];
        int mixtures = 0;
        for (int size = 1; size <= Math.Min(options.MaximumPigments, palette.Count)
            && best.Worst > criterion.Limit; size++)
        {
            Dictionary<string, double[]> previous = starts;
            starts = [];
            List<(int[] Set, double[] Loads, double Residual)> screened = [];
            foreach (int[] set in Subsets(palette.Count, size))
            {
                cancellation.ThrowIfCancellationRequested();
                mixtures++;

                // From where the set without its last pigment ended.
                double[] loads =
                    [.. size == 1 ? [] : previous[string.Join(" ", set.Take(size - 1))], 0.1 * options.MaximumLoad];
                double residual = StainOptimizer.Screen(problem, set, loads);
                starts.Add(string.Join(" ", set), [.. loads]);
                screened.Add((set, loads, residual));
            }

            foreach ((int[] set, double[] loads, _) in screened.OrderBy(item => item.Residual).Take(Refined))
            {
                double worst = StainOptimizer.Optimize(problem, set, loads);
                best = worst < best.Worst ? (set, loads, worst) : best;
            }

            progress?.Report(size / (options.MaximumPigments + 1.0));
        }

        int restarts = best.Set.Length == 0 ? 0 : Restarts;
        List<double> ends = [];
        for (int start = 1; start <= restarts; start++)
        {
            double[] loads =
                [.. best.Set.Select((_, j) => options.MaximumLoad * Fraction(start * Math.Sqrt(Primes[j])))];
            double worst = StainOptimizer.Optimize(problem, best.Set, loads);
            ends.Add(worst);
            best = worst < best.Worst ? (best.Set, loads, worst) : best;
        }

        progress?.Report(1);
        return problem.Describe(
            best.Set, best.Loads, mixtures, restarts, ends.Count(end => end - best.Worst < SameEnd));
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
