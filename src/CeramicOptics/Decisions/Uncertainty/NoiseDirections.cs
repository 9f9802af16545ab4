namespace CeramicOptics.Decisions.Uncertainty;

/// <summary>A covariance taken apart into a few independent directions.</summary>
internal static class NoiseDirections
{
    // Variances below this share of all are rounding.
    private const double Rounding = 1e-12;

    /// <summary>
    /// At most so many directions, whose squares add up to the covariance; the covariance is used up.
    /// </summary>
    /// <remarks>
    /// Any factor of the covariance gives its directions; Cholesky's, the largest rest first, needs few.
    /// </remarks>
    public static double[][] Of(double[,] covariance, int most)
    {
        int size = covariance.GetLength(0);
        List<double[]> directions = [];
        double whole = 0;
        for (int p = 0; p < size; p++)
        {
            whole += covariance[p, p];
        }

        while (directions.Count < most)
        {
            int pivot = 0;
            double rest = 0;
            for (int p = 0; p < size; p++)
            {
                rest += Math.Max(0, covariance[p, p]);
                pivot = covariance[p, p] > covariance[pivot, pivot] ? p : pivot;
            }

            if (!(rest > Rounding * whole))
            {
                break;
            }

            double[] move = new double[size];
            double root = Math.Sqrt(covariance[pivot, pivot]);
            for (int p = 0; p < size; p++)
            {
                move[p] = covariance[p, pivot] / root;
            }

            directions.Add(move);
            for (int p = 0; p < size; p++)
            {
                for (int q = 0; q < size; q++)
                {
                    covariance[p, q] -= move[p] * move[q];
                }
            }
        }

        return [.. directions];
    }
}
