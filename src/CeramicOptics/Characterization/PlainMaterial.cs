using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;
using CeramicOptics.Spectra;
using MathNet.Numerics.LinearAlgebra;

namespace CeramicOptics.Characterization;

/// <summary>
/// Material of five parameters: ln K at 550 nm without the rise, ln of K's rise at 400 nm, ln S at 550 nm, powers of S
/// and of K.
/// </summary>
internal sealed class PlainMaterial
{
    private const double EdgeNm = 60, DerivativeStep = 1e-4, LargestMiss = 4;
    private const int Iterations = 40;

    // Weak knowledge of what ceramics are like, as standard uncertainties of the parameters, so that colours that do
    // not tell leave them there.
    private static readonly double[] Typical = [Math.Log(0.05), Math.Log(0.3), Math.Log(3), 1, 0],
        Spread = [2, 2, 2, 0.7, 3];

    private readonly WavelengthGrid _grid;
    private readonly double[] _parameters;
    private readonly Matrix<double> _covariance;

    private PlainMaterial(WavelengthGrid grid, double[] parameters, Matrix<double> covariance) =>
        (_grid, _parameters, _covariance) = (grid, parameters, covariance);

    /// <summary>The plain material with the colours of a disc, by a theory.</summary>
    /// <param name="colors">The colours.</param>
    /// <param name="readings">The disc over the same backings; its values do not matter.</param>
    /// <param name="model">The theory.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="ArgumentException">No plain material has nearly these colours.</exception>
    public static PlainMaterial Fit(
        DiscColors colors, DiscSet readings, IOpticalModel model, CancellationToken cancellation)
    {
        double[] p = (double[])Typical.Clone();
        Problem problem = new(colors, readings, CoefficientFit.ForwardModel(readings, model));
        double cost = problem.Cost(p), damping = 1e-2;
        Matrix<double> normal = Matrix<double>.Build.DenseIdentity(p.Length);
        for (int iteration = 0; iteration < Iterations; iteration++)
        {
            (normal, Vector<double> gradient) = problem.Linearize(p);
            double[]? next = null;
            double nextCost = cost;
            for (; next is null && damping < 1e10; damping = next is null ? 10 * damping : Math.Max(1e-8, damping / 10))
            {
                cancellation.ThrowIfCancellationRequested();
                double[] step = (normal + Matrix<double>.Build.DenseOfDiagonalVector(normal.Diagonal() * damping))
                    .Solve(gradient).ToArray();
                double[] tried = [.. p.Select((value, i) => Math.Min(7, Math.Max(-12, value - step[i])))];
                nextCost = problem.Cost(tried);
                next = nextCost <= cost ? tried : null;
            }

            if (next is null)
            {
                break;
            }

            bool isDone = cost - nextCost <= 1e-10 * cost;
            (p, cost) = (next, nextCost);
            if (isDone)
            {
                break;
            }
        }

        double[] misses = [.. problem.ColorsOf(p).Zip(colors.Values, (a, b) => Math.Abs(a - b))];
        if (!(misses.Max() < Math.Max(LargestMiss, 10 * colors.StandardUncertainty)))
        {
            throw new ArgumentException(
                $"No plain ceramic has the colours given for '{colors.Name}'; the nearest misses one of L*, a*, b* "
                    + $"by {Guard.Text(Math.Round(misses.Max(), 1))}.");
        }

        // Colours that the plain material only nearly has say that its shape is wrong; the uncertainty grows with that.
        double chi = misses.Sum(miss => miss * miss) / (colors.StandardUncertainty * colors.StandardUncertainty);
        return new PlainMaterial(readings.Grid, p, normal.Inverse() * Math.Max(1, chi));
    }

    /// <summary>K and S at a wavelength, 1/mm.</summary>
    public (double K, double S) CoefficientsAt(int wavelength) => Coefficients(_grid, _parameters, wavelength);

    /// <summary>Standard uncertainties of ln K and ln S at a wavelength.</summary>
    public (double K, double S) RelativeUncertaintyAt(int wavelength)
    {
        Vector<double> byK = Vector<double>.Build.Dense(_parameters.Length);
        Vector<double> byS = Vector<double>.Build.Dense(_parameters.Length);
        (double k, double s) = CoefficientsAt(wavelength);
        for (int j = 0; j < _parameters.Length; j++)
        {
            (double nextK, double nextS) = Coefficients(_grid, Moved(_parameters, j), wavelength);
            (byK[j], byS[j]) = (Math.Log(nextK / k) / DerivativeStep, Math.Log(nextS / s) / DerivativeStep);
        }

        return (Math.Sqrt(Math.Max(0, byK * _covariance * byK)), Math.Sqrt(Math.Max(0, byS * _covariance * byS)));
    }

    private static (double K, double S) Coefficients(WavelengthGrid grid, double[] p, int i) => (
        (Math.Exp(p[0]) * Math.Pow(grid[i] / 550, p[4])) + (Math.Exp(p[1]) * Math.Exp(-(grid[i] - 400) / EdgeNm)),
        Math.Exp(p[2]) * Math.Pow(grid[i] / 550, -p[3]));

    private static double[] Moved(double[] p, int parameter)
    {
        double[] moved = (double[])p.Clone();
        moved[parameter] += DerivativeStep;
        return moved;
    }

    /// <summary>Least squares in the parameters.</summary>
    private sealed class Problem(DiscColors colors, DiscSet readings, IDiscForwardModel forward)
    {
        private readonly double[] _targets = colors.Values;

        public double[] ColorsOf(double[] p)
        {
            double[] black = new double[readings.Grid.Count], white = new double[black.Length];
            for (int i = 0; i < black.Length; i++)
            {
                (double k, double s) = Coefficients(readings.Grid, p, i);
                (black[i], white[i]) = (Math.Max(0, forward.Value(0, i, k, s)), Math.Max(0, forward.Value(1, i, k, s)));
            }

            return Colors(black, white);
        }

        public double Cost(double[] p) =>
            ColorsOf(p).Zip(_targets, (a, b) => Square((a - b) / colors.StandardUncertainty)).Sum()
            + p.Select((value, i) => Square((value - Typical[i]) / Spread[i])).Sum();

        public (Matrix<double> Normal, Vector<double> Gradient) Linearize(double[] p)
        {
            double[] at = ColorsOf(p);
            double[][] slopes = Slopes(p);
            Matrix<double> jacobian = Matrix<double>.Build.Dense(at.Length + p.Length, p.Length);
            Vector<double> residual = Vector<double>.Build.Dense(at.Length + p.Length);
            for (int j = 0; j < p.Length; j++)
            {
                for (int i = 0; i < at.Length; i++)
                {
                    jacobian[i, j] = slopes[j][i] / colors.StandardUncertainty;
                    residual[i] = (at[i] - _targets[i]) / colors.StandardUncertainty;
                }

                jacobian[at.Length + j, j] = 1 / Spread[j];
                residual[at.Length + j] = (p[j] - Typical[j]) / Spread[j];
            }

            return (jacobian.TransposeThisAndMultiply(jacobian), jacobian.TransposeThisAndMultiply(residual));
        }

        private double[] Colors(double[] black, double[] white)
        {
            Lab overBlack = colors.Under.ToLab(new ReflectanceSpectrum(readings.Grid, black));
            Lab overWhite = colors.Under.ToLab(new ReflectanceSpectrum(readings.Grid, white));
            return [overBlack.L, overBlack.A, overBlack.B, overWhite.L, overWhite.A, overWhite.B];
        }

        // Change of the six colours with each parameter, through the slopes of the readings by K and S.
        private double[][] Slopes(double[] p)
        {
            int n = readings.Grid.Count;
            double[] black = new double[n], white = new double[n];
            double[][] movedBlack = Rows(p.Length, n), movedWhite = Rows(p.Length, n);
            for (int i = 0; i < n; i++)
            {
                (double k, double s) = Coefficients(readings.Grid, p, i);
                (black[i], double blackByK, double blackByS) = forward.Evaluate(0, i, k, s);
                (white[i], double whiteByK, double whiteByS) = forward.Evaluate(1, i, k, s);
                for (int j = 0; j < p.Length; j++)
                {
                    (double nextK, double nextS) = Coefficients(readings.Grid, Moved(p, j), i);
                    movedBlack[j][i] = Math.Max(0, black[i] + (blackByK * (nextK - k)) + (blackByS * (nextS - s)));
                    movedWhite[j][i] = Math.Max(0, white[i] + (whiteByK * (nextK - k)) + (whiteByS * (nextS - s)));
                }
            }

            double[] at = Colors(
                Array.ConvertAll(black, value => Math.Max(0, value)),
                Array.ConvertAll(white, value => Math.Max(0, value)));
            return [.. movedBlack.Select((row, j) => Colors(row, movedWhite[j])
                .Select((value, i) => (value - at[i]) / DerivativeStep).ToArray())];
        }

        private static double[][] Rows(int count, int length) =>
            [.. Enumerable.Range(0, count).Select(_ => new double[length])];

        private static double Square(double value) => value * value;
    }
}
