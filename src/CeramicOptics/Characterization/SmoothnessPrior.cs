using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Factorization;

namespace CeramicOptics.Characterization;

/// <summary>
/// Draws fitted coefficients towards smoothness over wavelength, no harder than their uncertainty allows.
/// </summary>
/// <remarks>
/// Minimum of sum (p - p_fit)' N (p - p_fit) + weight · sum (second difference of ln p / 0.01)², N the normal matrix at
/// each wavelength and ln p linear about the fit: Whittaker 1923 with the fit's own covariance. Coefficients that span
/// decades keep their shape, as they would not with a prior on p itself. Chi-square grows by the quadratic form of the
/// move.
/// </remarks>
internal static class SmoothnessPrior
{
    private const double UnitBend = 0.01;

    /// <summary>
    /// The fits drawn together. A wavelength without a fit has next to no weight and stays without one. Fits that leave
    /// even the smoothest course open are returned as they are.
    /// </summary>
    public static WavelengthFit?[] Apply(WavelengthFit?[] found, double weight)
    {
        int n = found.Length;
        if (found.All(fit => fit is null))
        {
            return found;
        }

        WavelengthFit[] fits = [.. found.Select((fit, i) => fit ?? Nearest(found, i))];
        Matrix<double> normal = Matrix<double>.Build.Dense(2 * n, 2 * n);
        Vector<double> right = Vector<double>.Build.Dense(2 * n);
        for (int i = 0; i < n; i++)
        {
            WavelengthFit fit = fits[i];
            normal[2 * i, 2 * i] = fit.NormalKK;
            normal[(2 * i) + 1, (2 * i) + 1] = fit.NormalSS;
            normal[2 * i, (2 * i) + 1] = normal[(2 * i) + 1, 2 * i] = fit.NormalKS;
            right[2 * i] = (fit.NormalKK * fit.K) + (fit.NormalKS * fit.S);
            right[(2 * i) + 1] = (fit.NormalKS * fit.K) + (fit.NormalSS * fit.S);
        }

        AddBends(normal, right, 0, weight, [.. fits.Select(fit => fit.K)]);
        AddBends(normal, right, 1, weight, [.. fits.Select(fit => fit.S)]);
        if (TryFactor(normal) is not { } factor)
        {
            return found;
        }

        Vector<double> smooth = factor.Solve(right);
        Matrix<double> covariance = factor.Solve(Matrix<double>.Build.DenseIdentity(2 * n));
        var result = new WavelengthFit?[n];
        for (int i = 0; i < n; i++)
        {
            if (found[i] is null)
            {
                continue;
            }

            WavelengthFit fit = fits[i];
            double k = Math.Max(0, smooth[2 * i]), s = Math.Max(0, smooth[(2 * i) + 1]), dK = k - fit.K, dS = s - fit.S;
            double chi = fit.ChiSquare + (fit.NormalKK * dK * dK) + (fit.NormalSS * dS * dS)
                + (2 * fit.NormalKS * dK * dS);
            double vK = covariance[2 * i, 2 * i], vS = covariance[(2 * i) + 1, (2 * i) + 1];
            double c = covariance[2 * i, (2 * i) + 1], determinant = (vK * vS) - (c * c);
            result[i] = new WavelengthFit(
                k, s, chi, vS / determinant, vK / determinant, -c / determinant, fit.CommonK, fit.CommonS);
        }

        return result;
    }

    // Null where rounding leaves the matrix without a factor, because readings determine too little.
    private static Cholesky<double>? TryFactor(Matrix<double> normal)
    {
        try
        {
            return normal.Cholesky();
        }
        catch (ArgumentException)
        {
            return null;
        }
    }

    // Stands for a fit that is missing.
    private static WavelengthFit Nearest(WavelengthFit?[] found, int at)
    {
        const double Weight = 1e-9;
        WavelengthFit near = found.Select((fit, i) => (fit, i)).Where(item => item.fit is not null)
            .OrderBy(item => Math.Abs(item.i - at)).First().fit!;
        return near with
        {
            NormalKK = Weight * near.NormalKK, NormalSS = Weight * near.NormalSS, NormalKS = Weight * near.NormalKS,
        };
    }

    private static void AddBends(
        Matrix<double> normal, Vector<double> right, int offset, double weight, double[] fitted)
    {
        // A coefficient at zero has no logarithm; a thousandth of the mean stands in for it.
        double floor = Math.Max(1e-3 * fitted.Average(), 1e-9);
        double[] at = Array.ConvertAll(fitted, value => Math.Max(value, floor));
        double[] bend = [1, -2, 1];
        double scale = weight / (UnitBend * UnitBend);
        for (int i = 0; i + 2 < at.Length; i++)
        {
            double constant = 0;
            for (int a = 0; a < 3; a++)
            {
                constant += bend[a] * (Math.Log(at[i + a]) - 1);
            }

            for (int a = 0; a < 3; a++)
            {
                int row = (2 * (i + a)) + offset;
                right[row] -= scale * constant * bend[a] / at[i + a];
                for (int b = 0; b < 3; b++)
                {
                    normal[row, (2 * (i + b)) + offset] += scale * bend[a] * bend[b] / (at[i + a] * at[i + b]);
                }
            }
        }
    }
}
