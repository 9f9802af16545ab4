using MathNet.Numerics.LinearAlgebra;

namespace CeramicOptics.Spectra;

/// <summary>The smoothest reflectance in (0, 1) that satisfies linear conditions, such as having a given XYZ.</summary>
/// <remarks>
/// Burns, S.A. 2020, Numerical methods for smoothest reflectance reconstruction, Color Res. Appl. 45:8-21, the form
/// with least slope squared in z where reflectance = (tanh z + 1) / 2. Newton's method on the Lagrange conditions, with
/// step halving.
/// </remarks>
internal static class SmoothestSpectrum
{
    private const int MaximumIterations = 200;

    /// <summary>Values with weights · values = targets, or null when no such spectrum is found.</summary>
    /// <param name="weights">One row for each condition, one column for each wavelength.</param>
    /// <param name="targets">One value for each condition, all of the order of 1.</param>
    public static double[]? Find(double[,] weights, double[] targets)
    {
        int conditions = weights.GetLength(0), n = weights.GetLength(1);
        double[] unknowns = new double[n + conditions];
        double[] residual = Residual(weights, targets, unknowns);
        double norm = Norm(residual);
        for (int iteration = 0; iteration < MaximumIterations && norm > 1e-13; iteration++)
        {
            double[] step = Jacobian(weights, unknowns).Solve(Vector<double>.Build.DenseOfArray(residual)).ToArray();
            if (!Array.TrueForAll(step, Guard.IsFinite))
            {
                return null;
            }

            double fraction = 1, bestNorm;
            double[] trial, trialResidual;
            do
            {
                trial = new double[unknowns.Length];
                for (int i = 0; i < trial.Length; i++)
                {
                    trial[i] = unknowns[i] - (fraction * step[i]);
                }

                trialResidual = Residual(weights, targets, trial);
                bestNorm = Norm(trialResidual);
                fraction /= 2;
            }
            while (!(bestNorm < norm) && fraction > 1e-6);

            if (!(bestNorm < norm))
            {
                break;
            }

            (unknowns, residual, norm) = (trial, trialResidual, bestNorm);
        }

        if (!(norm < 1e-9))
        {
            return null;
        }

        double[] values = new double[n];
        for (int i = 0; i < n; i++)
        {
            values[i] = (Math.Tanh(unknowns[i]) + 1) / 2;
        }

        return values;
    }

    // Stationarity of sum (z[i+1] - z[i])^2 + multipliers · (weights · reflectance(z) - targets), then the conditions
    // themselves.
    private static double[] Residual(double[,] weights, double[] targets, double[] unknowns)
    {
        int conditions = targets.Length, n = unknowns.Length - conditions;
        double[] residual = new double[unknowns.Length];
        for (int i = 0; i < n; i++)
        {
            double tanh = Math.Tanh(unknowns[i]), slope = (1 - (tanh * tanh)) / 2;
            residual[i] = (i > 0 ? 2 * (unknowns[i] - unknowns[i - 1]) : 0)
                + (i < n - 1 ? 2 * (unknowns[i] - unknowns[i + 1]) : 0);
            for (int k = 0; k < conditions; k++)
            {
                residual[i] += slope * weights[k, i] * unknowns[n + k];
                residual[n + k] += weights[k, i] * (tanh + 1) / 2;
            }
        }

        for (int k = 0; k < conditions; k++)
        {
            residual[n + k] -= targets[k];
        }

        return residual;
    }

    private static Matrix<double> Jacobian(double[,] weights, double[] unknowns)
    {
        int conditions = weights.GetLength(0), n = weights.GetLength(1);
        Matrix<double> matrix = Matrix<double>.Build.Dense(n + conditions, n + conditions);
        for (int i = 0; i < n; i++)
        {
            double tanh = Math.Tanh(unknowns[i]), slope = (1 - (tanh * tanh)) / 2, force = 0;
            for (int k = 0; k < conditions; k++)
            {
                force += weights[k, i] * unknowns[n + k];
                matrix[i, n + k] = matrix[n + k, i] = slope * weights[k, i];
            }

            matrix[i, i] = (i > 0 ? 2 : 0) + (i < n - 1 ? 2 : 0) - (2 * tanh * slope * force);
            if (i > 0)
            {
                matrix[i, i - 1] = matrix[i - 1, i] = -2;
            }
        }

        return matrix;
    }

    private static double Norm(double[] vector)
    {
        double sum = 0;
        foreach (double value in vector)
        {
            sum += value * value;
        }

        return Math.Sqrt(sum);
    }
}
