namespace CeramicOptics.Decisions.Staining;

/// <summary>Loads, between 0 and a limit, with the smallest largest difference for one set of pigments.</summary>
internal static class StainOptimizer
{
    private const int MaximumSteps = 12, Reweightings = 6;

    // Steps end when they gain less than this share of the sum of squares.
    private const double CoarsePrecision = 0.05, FinePrecision = 1e-9;

    /// <summary>
    /// Improves the loads by plain least squares, not to the end; returns the largest residual. Enough to tell good
    /// sets from bad ones.
    /// </summary>
    public static double Screen(StainProblem problem, int[] set, double[] loads)
    {
        double[] weights = new double[problem.Blocks];
        weights.AsSpan().Fill(1);
        LeastSquares(problem, set, loads, weights, CoarsePrecision);
        return problem.LargestBlockNorm;
    }

    /// <summary>Loads with the smallest largest difference, from those given on; returns that difference.</summary>
    public static double Optimize(StainProblem problem, int[] set, double[] loads)
    {
        int blocks = problem.Blocks;
        double[] weights = new double[blocks], best = [.. loads];
        weights.AsSpan().Fill(1);
        double bestWorst = double.PositiveInfinity;
        for (int round = 0; round < Reweightings; round++)
        {
            LeastSquares(problem, set, loads, weights, FinePrecision);
            double worst = problem.Worst(set, loads);
            if (worst < bestWorst - 1e-6)
            {
                bestWorst = worst;
                loads.CopyTo(best, 0);
            }
            else if (round > 1)
            {
                break;
            }

            double largest = problem.LargestBlockNorm;
            if (blocks == 1 || largest == 0)
            {
                break;
            }

            for (int block = 0; block < blocks; block++)
            {
                weights[block] *= 0.2 + (problem.BlockNorm(block) / largest);
            }
        }

        best.CopyTo(loads, 0);
        return bestWorst;
    }

    // Weighted Gauss-Newton with damping; loads are kept in their box, and those held at an end by their gradient stay
    // there for the step.
    private static void LeastSquares(
        StainProblem problem, int[] set, double[] loads, double[] weights, double precision)
    {
        int m = set.Length;
        double[,] normal = new double[m, m];
        double[] gradient = new double[m], trial = new double[m];
        double cost = problem.Evaluate(set, loads, weights), damping = 1e-3;
        for (int step = 0; step < MaximumSteps; step++)
        {
            for (int p = 0; p < m; p++)
            {
                gradient[p] = Product(problem.ResidualSlopes[p], problem.Residuals, weights);
                for (int q = 0; q <= p; q++)
                {
                    normal[p, q] = normal[q, p] =
                        Product(problem.ResidualSlopes[p], problem.ResidualSlopes[q], weights);
                }
            }

            bool moved = false;
            for (int attempt = 0; attempt < 6 && !moved; attempt++)
            {
                double[] change = BoxStep(normal, gradient, loads, problem.MaximumLoad, damping);
                double largest = 0;
                for (int p = 0; p < m; p++)
                {
                    trial[p] = Math.Min(Math.Max(loads[p] + change[p], 0), problem.MaximumLoad);
                    largest = Math.Max(largest, Math.Abs(trial[p] - loads[p]));
                }

                if (largest < 1e-7 * problem.MaximumLoad)
                {
                    break;
                }

                double next = problem.Evaluate(set, trial, weights);
                if (next < cost)
                {
                    moved = cost - next > precision * cost;
                    (cost, damping) = (next, damping / 10);
                    trial.CopyTo(loads, 0);
                    if (!moved)
                    {
                        break;
                    }
                }
                else
                {
                    damping *= 10;
                }
            }

            if (!moved)
            {
                break;
            }
        }

        problem.Evaluate(set, loads, weights);
    }

    // Solves (N + damping diag N) change = -gradient for the loads that are free to move, by elimination.
    private static double[] BoxStep(double[,] normal, double[] gradient, double[] loads, double maximum, double damping)
    {
        int m = gradient.Length;
        double[] change = new double[m];
        int[] free = [.. Enumerable.Range(0, m).Where(p => normal[p, p] > 0
            && !(loads[p] <= 0 && gradient[p] > 0) && !(loads[p] >= maximum && gradient[p] < 0))];
        int f = free.Length;
        double[,] a = new double[f, f + 1];
        for (int p = 0; p < f; p++)
        {
            for (int q = 0; q < f; q++)
            {
                a[p, q] = normal[free[p], free[q]] * (p == q ? 1 + damping : 1);
            }

            a[p, f] = -gradient[free[p]];
        }

        for (int p = 0; p < f; p++)
        {
            for (int row = p + 1; row < f; row++)
            {
                double factor = a[row, p] / a[p, p];
                for (int q = p; q <= f; q++)
                {
                    a[row, q] -= factor * a[p, q];
                }
            }
        }

        for (int p = f - 1; p >= 0; p--)
        {
            double sum = a[p, f];
            for (int q = p + 1; q < f; q++)
            {
                sum -= a[p, q] * change[free[q]];
            }

            change[free[p]] = sum / a[p, p];
        }

        return change;
    }

    private static double Product(double[] one, double[] other, double[] weights)
    {
        double sum = 0;
        for (int i = 0; i < one.Length; i++)
        {
            sum += weights[i / 3] * one[i] * other[i];
        }

        return sum;
    }
}
