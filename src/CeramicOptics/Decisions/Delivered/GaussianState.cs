using MathNet.Numerics.LinearAlgebra;

namespace CeramicOptics.Decisions.Delivered;

/// <summary>Mean and covariance of quantities that readings of three coordinates update one after another.</summary>
/// <remarks>
/// Bayesian linear regression with known variances: K = P Jᵀ (J P Jᵀ + R)⁻¹, mean + K e, P in Joseph's form, which
/// stays symmetric and positive (Bierman 1977, Factorization Methods for Discrete Sequential Estimation, ch. II). One
/// piece after another gives what all at once would. Not for use by two threads at once.
/// </remarks>
internal sealed class GaussianState
{
    public GaussianState(Vector<double> mean, Matrix<double> covariance) => (Mean, Covariance) = (mean, covariance);

    public Vector<double> Mean { get; private set; }

    public Matrix<double> Covariance { get; private set; }

    /// <summary>
    /// The expected reading is J times the quantities; returns the innovation (reading minus that) before the update,
    /// in independent standard normal units by the lower Cholesky factor of its covariance.
    /// </summary>
    public Vector<double> Update(
        Matrix<double> jacobian, Vector<double> read, Matrix<double> scatter, out Vector<double> innovation)
    {
        innovation = read - (jacobian * Mean);
        Matrix<double> cross = Covariance * jacobian.Transpose();
        Matrix<double> expected = Symmetric((jacobian * cross) + scatter);
        Matrix<double> lower = expected.Cholesky().Factor;
        Vector<double> standard = lower.Solve(innovation);
        Matrix<double> gain = expected.Solve(cross.Transpose()).Transpose();
        Mean += gain * innovation;
        Matrix<double> kept = Matrix<double>.Build.DenseIdentity(Mean.Count) - (gain * jacobian);
        Covariance = Symmetric((kept * Covariance * kept.Transpose()) + (gain * scatter * gain.Transpose()));
        return standard;
    }

    private static Matrix<double> Symmetric(Matrix<double> matrix) => (matrix + matrix.Transpose()) / 2;
}
