using CeramicOptics.Layers;

namespace CeramicOptics.Decisions.Uncertainty;

/// <summary>The errors of K and S of one material taken apart into a few independent directions.</summary>
internal static class NoiseDirections
{
    // Variances below this share of all are rounding.
    private const double Rounding = 1e-12;

    /// <summary>Adds what changes of K and S at one wavelength do to the numbers of interest.</summary>
    public delegate void Effect(int wavelength, double byK, double byS, double[] sum);

    /// <summary>At most so many directions, whose squares add up to the covariance of these numbers.</summary>
    /// <remarks>
    /// Noise is independent at each wavelength; a common cause moves the coefficients of all wavelengths together. Any
    /// factor of the covariance gives its directions; Cholesky's, the largest rest first, needs few.
    /// </remarks>
    public static double[][] Of(CoefficientUncertainty uncertainty, int size, int most, Effect effect)
    {
        double[,] covariance = new double[size, size];
        double[] move = new double[size];
        int n = uncertainty.AbsorptionPerMm.Length;
        for (int i = 0; i < n; i++)
        {
            effect(i, uncertainty.CommonAbsorptionPerMm[i], uncertainty.CommonScatteringPerMm[i], move);
        }

        AddMove();
        for (int i = 0; i < n; i++)
        {
            double uS = uncertainty.ScatteringPerMm[i], rho = uncertainty.Correlation[i];
            effect(i, uncertainty.AbsorptionPerMm[i], rho * uS, move);
            AddMove();
            effect(i, 0, Math.Sqrt(1 - (rho * rho)) * uS, move);
            AddMove();
        }

        return Directions(covariance, most);

        void AddMove()
        {
            for (int p = 0; p < size; p++)
            {
                for (int q = 0; q < size; q++)
                {
                    covariance[p, q] += move[p] * move[q];
                }
            }

            Array.Clear(move, 0, size);
        }
    }

    // The covariance is used up.
    private static double[][] Directions(double[,] covariance, int most)
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
