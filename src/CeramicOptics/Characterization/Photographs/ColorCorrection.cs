using CeramicOptics.Colorimetry;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Factorization;

namespace CeramicOptics.Characterization.Photographs;

/// <summary>Tristimulus values as a linear combination of terms, fitted to a chart by least squares.</summary>
/// <remarks>
/// Columns of the design are scaled to length 1, which leaves the solution as it is and makes the regularization one of
/// shares. Each patch is left out in closed form, by its leverage h: the prediction without it misses by
/// residual / (1 - h).
/// </remarks>
internal sealed class ColorCorrection
{
    private const double LargestConditionNumber = 1e10, SmallestFreedom = 1e-9;

    private readonly CorrectionTerms _terms;
    private readonly double[] _scale;
    private readonly Matrix<double> _triangle, _coefficients;

    private ColorCorrection(
        CorrectionTerms terms, double[] scale, Matrix<double> triangle, Matrix<double> coefficients,
        double[] leverage, Xyz[] leftOut) =>
        (_terms, _scale, _triangle, _coefficients, Leverages, LeftOut) =
            (terms, scale, triangle, coefficients, leverage, leftOut);

    /// <summary>Leverage of each patch, 0 to 1.</summary>
    public IReadOnlyList<double> Leverages { get; }

    /// <summary>The colour of each patch as predicted from all others.</summary>
    public IReadOnlyList<Xyz> LeftOut { get; }

    /// <summary>The fit, or null where the patches do not determine it with each of them left out.</summary>
    public static ColorCorrection? Fit(
        CorrectionMethod method, IReadOnlyList<CameraRgb> linear, IReadOnlyList<Xyz> known, double regularization)
    {
        CorrectionTerms terms = CorrectionTerms.Of(method);
        int n = linear.Count, p = terms.Count;
        Matrix<double> design = Matrix<double>.Build.DenseOfRowArrays(linear.Select(terms.At));
        double[] scale = design.ColumnNorms(2).ToArray();
        if (!Array.TrueForAll(scale, length => length > 0))
        {
            return null;
        }

        // Rows below the patches pull each coefficient to zero.
        double pull = Math.Sqrt(regularization);
        Matrix<double> scaled = Matrix<double>.Build.Dense(
            n + p, p, (i, j) => i < n ? design[i, j] / scale[j] : i - n == j ? pull : 0);
        Matrix<double> right = Matrix<double>.Build.Dense(
            n + p, 3, (i, j) => i >= n ? 0 : j == 0 ? known[i].X : j == 1 ? known[i].Y : known[i].Z);
        QR<double> qr = scaled.QR(QRMethod.Thin);
        if (!(qr.R.ConditionNumber() < LargestConditionNumber))
        {
            return null;
        }

        Matrix<double> coefficients = qr.R.Solve(qr.Q.TransposeThisAndMultiply(right));
        Matrix<double> residuals = right - (scaled * coefficients);
        double[] leverage = new double[n];
        Xyz[] leftOut = new Xyz[n];
        for (int i = 0; i < n; i++)
        {
            Vector<double> row = qr.Q.Row(i);
            leverage[i] = row * row;
            double freedom = 1 - leverage[i];
            if (!(freedom > SmallestFreedom))
            {
                return null;
            }

            leftOut[i] = new Xyz(
                known[i].X - (residuals[i, 0] / freedom),
                known[i].Y - (residuals[i, 1] / freedom),
                known[i].Z - (residuals[i, 2] / freedom));
        }

        return new ColorCorrection(terms, scale, qr.R, coefficients, leverage, leftOut);
    }

    /// <summary>Tristimulus values of a linear reading.</summary>
    public Xyz Apply(CameraRgb linear) => Combine(_terms.At(linear));

    /// <summary>Change of the tristimulus values with one channel of a linear reading above 0.</summary>
    public Xyz Slope(CameraRgb linear, CameraChannel channel) => Combine(_terms.SlopesAt(linear, channel));

    /// <summary>
    /// Variance of the prediction from the fit, in units of that of one reading of the chart; 0 or more.
    /// </summary>
    public double LeverageOf(CameraRgb linear)
    {
        double[] row = Scaled(_terms.At(linear));
        Vector<double> solved = _triangle.Transpose().Solve(Vector<double>.Build.DenseOfArray(row));
        return solved * solved;
    }

    private Xyz Combine(double[] terms)
    {
        Vector<double> xyz = _coefficients.LeftMultiply(Vector<double>.Build.DenseOfArray(Scaled(terms)));
        return new Xyz(xyz[0], xyz[1], xyz[2]);
    }

    private double[] Scaled(double[] terms)
    {
        for (int i = 0; i < terms.Length; i++)
        {
            terms[i] /= _scale[i];
        }

        return terms;
    }
}
