namespace CeramicOptics.Spectra;

/// <summary>
/// The spectrum with the largest weighted sum among those near a given one that keep three other weighted sums.
/// </summary>
/// <remarks>
/// A linear program with simple bounds, solved by a primal barrier method (Boyd, Vandenberghe 2004, Convex
/// Optimization, 11.3) from the given spectrum, which lies strictly inside: each Newton step is a 3 x 3 system. The
/// barrier's own bound says how far from the optimum it stops.
/// </remarks>
internal sealed class LinearExtreme
{
    private const double Gap = 1e-3, Shrink = 0.1;
    private const int NewtonSteps = 30;

    private readonly double[] _start, _low, _high;
    private readonly double[][] _rows;

    public LinearExtreme(
        ReadOnlySpan<double> start, double within, ReadOnlySpan<double> row1, ReadOnlySpan<double> row2,
        ReadOnlySpan<double> row3)
    {
        _start = start.ToArray();
        _low = [.. _start.Select(value => Math.Max(0, value - within))];
        _high = [.. _start.Select(value => Math.Min(1, value + within))];
        _rows = [row1.ToArray(), row2.ToArray(), row3.ToArray()];
    }

    /// <summary>Values whose sum with <paramref name="objective"/> is within 0.001 of the largest.</summary>
    public double[] Maximize(double[] objective)
    {
        int n = _start.Length;
        double[] r = [.. _start], inverse = new double[n], slope = new double[n], step = new double[n];
        double[,] normal = new double[3, 3];
        double[] right = new double[3];
        for (double mu = 1; ; mu *= Shrink)
        {
            for (int k = 0; k < NewtonSteps; k++)
            {
                for (int i = 0; i < n; i++)
                {
                    double below = r[i] - _low[i], above = _high[i] - r[i];
                    slope[i] = objective[i] + (mu / below) - (mu / above);
                    inverse[i] = 1 / ((mu / (below * below)) + (mu / (above * above)));
                }

                for (int p = 0; p < 3; p++)
                {
                    right[p] = Sum(i => _rows[p][i] * inverse[i] * slope[i]);
                    for (int q = 0; q < 3; q++)
                    {
                        normal[p, q] = Sum(i => _rows[p][i] * inverse[i] * _rows[q][i]);
                    }
                }

                double[] multipliers = Solve(normal, right);
                double decrement = 0, fraction = 1;
                for (int i = 0; i < n; i++)
                {
                    double reduced = slope[i] - (multipliers[0] * _rows[0][i]) - (multipliers[1] * _rows[1][i])
                        - (multipliers[2] * _rows[2][i]);
                    step[i] = inverse[i] * reduced;
                    decrement += step[i] * reduced / mu;
                    double room = step[i] > 0 ? _high[i] - r[i] : r[i] - _low[i];
                    fraction = Math.Min(fraction, step[i] == 0 ? 1 : 0.9 * room / Math.Abs(step[i]));
                }

                // Far from the center a damped step always gains (self-concordance).
                fraction = decrement > 0.1 ? Math.Min(fraction, 1 / (1 + Math.Sqrt(decrement))) : fraction;
                for (int i = 0; i < n; i++)
                {
                    r[i] += fraction * step[i];
                }

                if (decrement < 1e-6)
                {
                    break;
                }
            }

            // The sum is at most mu for each of the 2 n bounds short of the largest (eq. 11.12).
            if (mu * 2 * n <= Gap)
            {
                return r;
            }
        }

        double Sum(Func<int, double> term)
        {
            double sum = 0;
            for (int i = 0; i < n; i++)
            {
                sum += term(i);
            }

            return sum;
        }
    }

    private static double[] Solve(double[,] matrix, double[] right) =>
        MathNet.Numerics.LinearAlgebra.Matrix<double>.Build.DenseOfArray(matrix)
            .Solve(MathNet.Numerics.LinearAlgebra.Vector<double>.Build.DenseOfArray(right)).ToArray();
}
