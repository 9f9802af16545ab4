using CeramicOptics.Characterization;
using MathNet.Numerics.LinearAlgebra;

namespace CeramicOptics.Decisions.Staining;

/// <summary>Pigment and carrier at one wavelength: the solution, its chi-square and its covariance.</summary>
internal sealed class PigmentFit
{
    private const int MaximumIterations = 200;

    // Relative step at which a fit ends, and a bound on all coefficients, 1/mm; far beyond any layer.
    private const double SmallestStep = 1e-8, Largest = 1e5;

    // A chi-square beyond this multiple of its expectation is called a poor fit.
    private const double PoorFitRatio = 4;

    private readonly List<PigmentProblem.Row> _rows;
    private readonly Matrix<double> _slopes;

    private PigmentFit(
        double[] x, double chiSquare, List<PigmentProblem.Row> rows, Matrix<double> slopes,
        Matrix<double>? covariance, double enlargement)
    {
        (Values, ChiSquare, _rows, _slopes, Covariance) = (x, chiSquare, rows, slopes, covariance);
        Enlargement = enlargement;
    }

    /// <summary>K and S of the pigment, then of the carrier where that was fitted.</summary>
    public double[] Values { get; }

    public double ChiSquare { get; }

    /// <summary>Of the noise of readings alone, as it is; null when the readings leave something open.</summary>
    public Matrix<double>? Covariance { get; }

    /// <summary>By how much variances grow with chi-square, 1 or more.</summary>
    public double Enlargement { get; }

    /// <summary>Levenberg 1944, Marquardt 1963, with all coefficients projected onto zero and above.</summary>
    public static PigmentFit Solve(PigmentProblem problem, int wavelength)
    {
        int n = problem.Unknowns;
        double[] x = problem.Start(wavelength);
        double chi = problem.ChiSquare(x, wavelength), damping = 1e-4;
        (List<PigmentProblem.Row> rows, Matrix<double> slopes) = At(problem, x, wavelength);
        for (int iteration = 0; iteration < MaximumIterations && damping < 1e12; iteration++)
        {
            Vector<double> gradient = slopes.TransposeThisAndMultiply(Residuals(rows));
            Matrix<double> normal = slopes.TransposeThisAndMultiply(slopes);
            for (int p = 0; p < n; p++)
            {
                // A coefficient at zero that wants to fall stays out of the step.
                if (x[p] == 0 && gradient[p] > 0)
                {
                    normal.ClearRow(p);
                    normal.ClearColumn(p);
                    gradient[p] = 0;
                }

                normal[p, p] = (normal[p, p] * (1 + damping)) + 1e-300;
                normal[p, p] = normal[p, p] > 1e-200 ? normal[p, p] : 1;
            }

            Vector<double> step = normal.Solve(gradient);
            double[] next = [.. x.Select((value, p) =>
                Math.Min(Largest, Math.Max(0, value - (Guard.IsFinite(step[p]) ? step[p] : 0))))];
            double nextChi = problem.ChiSquare(next, wavelength);
            if (!(nextChi <= chi))
            {
                damping *= 10;
                continue;
            }

            bool isDone = x.Zip(next, (a, b) => Math.Abs(a - b) <= SmallestStep * (b + (1e-9 / problem.MostLoad)))
                .All(small => small);
            (x, chi, damping) = (next, nextChi, Math.Max(damping / 10, 1e-12));
            (rows, slopes) = At(problem, x, wavelength);
            if (isDone)
            {
                break;
            }
        }

        int freedom = problem.Readings - n;
        return new PigmentFit(
            x, chi, rows, slopes, CovarianceOf(slopes), freedom > 0 ? Math.Max(1, chi / freedom) : 1);
    }

    /// <summary>
    /// What the coefficients change by when readings change by the given amounts, in units of their standard
    /// uncertainties.
    /// </summary>
    public double[] Shift(Func<PigmentProblem.Row, double> change) =>
        (Covariance! * SlopesTimes(change)).ToArray();

    /// <summary>True when pigment and carrier are determined; otherwise, and for what is odd, adds a finding.</summary>
    public bool Judge(PigmentProblem problem, double nm, List<Finding> findings)
    {
        int freedom = problem.Readings - problem.Unknowns;
        if (freedom <= 0 && ChiSquare > DiscPair.DetectionFactor * DiscPair.DetectionFactor)
        {
            findings.Add(Of(nm, FindingKind.Inconsistent, Math.Sqrt(ChiSquare)));
            return false;
        }

        if (freedom > 0 && ChiSquare > PoorFitRatio * freedom)
        {
            findings.Add(Of(nm, FindingKind.PoorFit, ChiSquare, freedom, Math.Sqrt(Enlargement)));
        }

        // Small means an optical thickness of 0.05 in the layer with the largest load.
        double small = 0.05 / (problem.ThicknessMm * problem.MostLoad);
        double k = Values[0], s = Values[1];
        double uK = Uncertainty(0), uS = Uncertainty(1);
        if (!IsKnown(k, uK, s, uS, small))
        {
            findings.Add(Covariance is null
                ? new Finding(nm, FindingKind.Undetermined) { Case = "PigmentHidden" }
                : Of(nm, FindingKind.Undetermined, k, uK, s, uS));
            return false;
        }

        if (k == 0 || s == 0)
        {
            findings.Add(Of(
                nm, k == 0 ? FindingKind.AbsorptionBelowDetection : FindingKind.ScatteringBelowDetection));
        }

        return true;
    }

    /// <summary>
    /// As for discs: K may drown in noise and still be known to be small; S, or a K of unknown size, may not.
    /// </summary>
    public static bool IsKnown(double k, double uK, double s, double uS, double small) =>
        uS < Math.Max(s, small) && uK < Math.Max(k, Math.Max(0.5 * s, small));

    private static Finding Of(double nm, FindingKind kind, params double[] values) =>
        new(nm, kind, values) { Case = "Pigment" };

    private Vector<double> SlopesTimes(Func<PigmentProblem.Row, double> change) =>
        _slopes.TransposeThisAndMultiply(Vector<double>.Build.DenseOfEnumerable(_rows.Select(change)));

    private double Uncertainty(int p) => Covariance is null
        ? double.PositiveInfinity
        : Math.Sqrt(Math.Max(0, Covariance[p, p] * Enlargement));

    private static (List<PigmentProblem.Row> Rows, Matrix<double> Slopes) At(
        PigmentProblem problem, double[] x, int wavelength)
    {
        List<PigmentProblem.Row> rows = problem.Linearize(x, wavelength);
        Matrix<double> slopes = Matrix<double>.Build.Dense(rows.Count, problem.Unknowns);
        for (int r = 0; r < rows.Count; r++)
        {
            Drawdown layer = problem.Layers[rows[r].Layer];
            (slopes[r, 0], slopes[r, 1]) = (layer.LoadAsRead * rows[r].ByK, layer.LoadAsRead * rows[r].ByS);
            if (problem.Unknowns == 4)
            {
                (slopes[r, 2], slopes[r, 3]) = (layer.CarrierShare * rows[r].ByK, layer.CarrierShare * rows[r].ByS);
            }
        }

        return (rows, slopes);
    }

    // Scaled to a unit diagonal first, since loads may be in any unit; null when singular.
    private static Matrix<double>? CovarianceOf(Matrix<double> slopes)
    {
        Matrix<double> normal = slopes.TransposeThisAndMultiply(slopes);
        int n = normal.RowCount;
        double[] scale = [.. Enumerable.Range(0, n).Select(p => Math.Sqrt(normal[p, p]))];
        if (scale.Any(value => !(value > 1e-150)))
        {
            return null;
        }

        Matrix<double> unit = Matrix<double>.Build.Dense(n, n, (p, q) => normal[p, q] / (scale[p] * scale[q]));
        if (!(unit.Evd(Symmetricity.Symmetric).EigenValues.Min(value => value.Real) > 1e-13))
        {
            return null;
        }

        Matrix<double> inverse = unit.Inverse();
        return Matrix<double>.Build.Dense(n, n, (p, q) => inverse[p, q] / (scale[p] * scale[q]));
    }

    private static Vector<double> Residuals(List<PigmentProblem.Row> rows) =>
        Vector<double>.Build.DenseOfEnumerable(rows.Select(row => row.Residual));
}
