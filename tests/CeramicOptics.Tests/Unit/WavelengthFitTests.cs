using CeramicOptics.Characterization;
using MathNet.Numerics.LinearAlgebra;

namespace CeramicOptics.Tests.Unit;

/// <summary>
/// The fit at one wavelength on readings that are linear in K and S, where generalized least squares has a closed form:
/// with noise D and moves a by a common error, V = D + a a', N = J' V⁻¹ J, p = N⁻¹ J' V⁻¹ y.
/// </summary>
public class WavelengthFitTests
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(500, 600, 100);

    private static readonly Backing Any = new(Substrate.Black, null);

    private static readonly Matrix<double> Slopes = Matrix<double>.Build.DenseOfArray(new[,]
    {
        { -0.10, 0.04 }, { -0.20, 0.03 }, { -0.05, 0.06 }, { -0.15, 0.01 }, { -0.12, 0.05 },
    });

    private static readonly Vector<double> Read = Vector<double>.Build.Dense([0.52, 0.47, 0.58, 0.44, 0.55]);

    // The last one is below a thousandth of what the common error does, and counts as that.
    private static readonly double[] Noise = [0.01, 0.02, 0.015, 0.01, 1e-6];

    private static readonly double[] Counted = [0.01, 0.02, 0.015, 0.01, 2e-5];

    private static readonly Vector<double> Common = Vector<double>.Build.Dense([0.03, 0.01, -0.04, 0.02, -0.02]);

    [Fact]
    public void Solution_and_its_noise_are_those_of_generalized_least_squares()
    {
        DiscSet discs = Discs(Read, Noise);
        WavelengthFit fit = WavelengthFit.Solve(discs, new Linear(Slopes), 1, (0.3, 2), [.. Common]);
        Matrix<double> noise = Matrix<double>.Build.DenseOfDiagonalArray([.. Counted.Select(u => u * u)]);
        Matrix<double> inverse = (noise + Common.OuterProduct(Common)).Inverse();
        Matrix<double> solve = (Slopes.Transpose() * inverse * Slopes).Inverse() * Slopes.Transpose() * inverse;
        Vector<double> expected = solve * (Read - Linear.Offset), left = Read - Linear.Offset - (Slopes * expected);
        Assert.Equal(expected[0], fit.K, 1e-6);
        Assert.Equal(expected[1], fit.S, 1e-6);
        Assert.Equal(1, fit.ChiSquare / (left * inverse * left), 1e-6);
        Assert.Equal(
            fit.ChiSquare, WavelengthFit.ChiSquareAt(discs, new Linear(Slopes), 1, fit.K, fit.S, [.. Common]), 1e-9);

        // What of the solution is noise, and what the common error does to it.
        Matrix<double> covariance = solve * noise * solve.Transpose();
        Vector<double> moves = solve * Common;
        Assert.Equal(1, fit.VarianceK / covariance[0, 0], 1e-6);
        Assert.Equal(1, fit.VarianceS / covariance[1, 1], 1e-6);
        Assert.Equal(1, fit.Covariance / covariance[0, 1], 1e-6);
        Assert.Equal(1, fit.CommonK / moves[0], 1e-6);
        Assert.Equal(1, fit.CommonS / moves[1], 1e-6);
        WavelengthFit at = WavelengthFit.At(discs, new Linear(Slopes), 1, fit.K, fit.S, [.. Common]);
        Assert.Equal(fit.ChiSquare, at.ChiSquare, 1e-9);
        Assert.Equal(fit.CommonK, at.CommonK, 1e-9);
    }

    /// <summary>Internally studentized residuals, e / (u √(1 - h)) with the hat matrix.</summary>
    [Fact]
    public void Residuals_are_studentized_by_the_hat_matrix()
    {
        double[] u = [0.01, 0.02, 0.015, 0.01, 0.012];
        DiscSet discs = Discs(Read, u);
        WavelengthFit fit = WavelengthFit.Solve(discs, new Linear(Slopes), 1, (0.3, 2));
        Matrix<double> weighted = Matrix<double>.Build.DenseOfDiagonalArray([.. u.Select(value => 1 / value)]) * Slopes;
        Matrix<double> hat = weighted * (weighted.Transpose() * weighted).Inverse() * weighted.Transpose();
        Vector<double> read = (Read - Linear.Offset).PointwiseDivide(Vector<double>.Build.Dense(u));
        Vector<double> left = read - (hat * read);
        Assert.Equal(
            [0, 1, 2, 3, 4], fit.StudentizedResiduals(discs, new Linear(Slopes), 1).Select(item => item.Reading));
        foreach ((int r, double residual) in fit.StudentizedResiduals(discs, new Linear(Slopes), 1))
        {
            Assert.Equal(left[r] / Math.Sqrt(1 - hat[r, r]), residual, 1e-6);
        }
    }

    /// <summary>
    /// With V = D + a a' the best estimate of the noise is n = D V⁻¹ e, e what least squares leaves, and its covariance
    /// is D P D, P = V⁻¹ - V⁻¹ J N⁻¹ J' V⁻¹: what the common error explains is not a residual.
    /// </summary>
    [Theory]
    [InlineData(1e-6, 2e-5)]
    [InlineData(0.012, 0.012)]
    public void Residuals_beside_a_common_error_are_studentized_too(double last, double counted)
    {
        double[] u = [.. Noise[..4], last];
        WavelengthFit fit = WavelengthFit.Solve(Discs(Read, u), new Linear(Slopes), 1, (0.3, 2), [.. Common]);
        Matrix<double> noise = Matrix<double>.Build.DenseOfDiagonalArray(
            [.. u[..4].Append(counted).Select(value => value * value)]);
        Matrix<double> inverse = (noise + Common.OuterProduct(Common)).Inverse(), seen = inverse * Slopes;
        Matrix<double> left = inverse - (seen * (Slopes.Transpose() * seen).Inverse() * seen.Transpose());
        Matrix<double> covariance = noise * left * noise;
        Vector<double> estimate = noise * left * (Read - Linear.Offset);
        (int Reading, double Residual)[] found =
            [.. fit.StudentizedResiduals(Discs(Read, u), new Linear(Slopes), 1, [.. Common])];
        Assert.All(found[..4], item => Assert.Equal(
            estimate[item.Reading] / Math.Sqrt(covariance[item.Reading, item.Reading]), item.Residual, 1e-4));
    }

    [Fact]
    public void A_reading_that_nothing_checks_has_no_residual()
    {
        Matrix<double> slopes = Matrix<double>.Build.DenseOfArray(new[,] { { -0.1, 0.02 }, { -0.03, 0.06 } });
        DiscSet discs = Discs(Vector<double>.Build.Dense([0.5, 0.6]), [0.01, 0.02]);
        WavelengthFit fit = WavelengthFit.Solve(discs, new Linear(slopes), 1, (0.3, 2));
        Assert.All(fit.StudentizedResiduals(discs, new Linear(slopes), 1), item => Assert.Equal(0, item.Residual));
    }

    /// <summary>From a K that is right already and an S far above: the search may not end at its first step.</summary>
    [Theory]
    [InlineData(0.3, 40)]
    [InlineData(0.3, 0.1)]
    [InlineData(9, 2)]
    [InlineData(0, 0)]
    public void The_start_does_not_matter(double k, double s)
    {
        Matrix<double> apart = Matrix<double>.Build.DenseOfArray(new[,] { { -0.1, 0 }, { 0, 0.06 }, { 0, 0.03 } });
        DiscSet discs = Discs(
            Linear.Offset + (apart * Vector<double>.Build.Dense([0.3, 2])), [0.01, 0.02, 0.015]);
        WavelengthFit fit = WavelengthFit.Solve(discs, new Linear(apart), 1, (k, s));
        Assert.Equal(0.3, fit.K, 1e-9);
        Assert.Equal(2, fit.S, 1e-9);
    }

    /// <summary>Half the log of the ratio of determinants of the normal matrices.</summary>
    [Fact]
    public void More_readings_shrink_the_ellipse_by_the_ratio_of_determinants()
    {
        double[] u = [0.01, 0.02, 0.015, 0.01, 0.012];
        DiscSet discs = Discs(Read, u);
        WavelengthFit fit = WavelengthFit.Solve(discs, new Linear(Slopes), 1, (0.3, 2));
        Matrix<double> Normal(int rows) => Enumerable.Range(0, rows).Aggregate(
            Matrix<double>.Build.Dense(2, 2),
            (sum, r) => sum + (Slopes.Row(r).OuterProduct(Slopes.Row(r)) / (u[r] * u[r])));
        Assert.Equal(
            0.5 * Math.Log(Normal(5).Determinant() / (Normal(5) + Normal(2)).Determinant()),
            fit.LogAreaRatioWith(discs, new Linear(Slopes), 1, 2), 1e-9);
        Assert.Equal(0, WavelengthFit.None.LogAreaRatioWith(discs, new Linear(Slopes), 1, 2));
    }

    private static DiscSet Discs(Vector<double> read, double[] u) => new("disc", 1.5, read.Select((value, r) =>
        DiscReading.Reflectance(
            $"{r}", 1, new ReflectanceSpectrum(Grid, [0.5, value]), Any, MeasurementGeometry.Internal,
            ReadingArea.Large, u[r], 0)));

    private sealed class Linear(Matrix<double> slopes) : IDiscForwardModel
    {
        public const double Offset = 0.45;

        public double Value(int reading, int wavelength, double k, double s) =>
            Offset + (slopes[reading, 0] * k) + (slopes[reading, 1] * s);

        public (double Value, double ByAbsorption, double ByScattering) Evaluate(
            int reading, int wavelength, double k, double s) =>
            (Value(reading, wavelength, k, s), slopes[reading, 0], slopes[reading, 1]);
    }
}
