using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;
using CeramicOptics.Spectra;
using MathNet.Numerics.LinearAlgebra;

namespace CeramicOptics.Characterization;

/// <summary>K and S estimated from colours alone: a disc's L*a*b* over black and over white, as papers and chairside readings give it.</summary>
/// <remarks>
/// Six numbers cannot tell two spectra. Two estimates are made that both have the colours read: one from the smoothest reflectances over each
/// backing, one from a plain material (S a power of wavelength, K a power and an exponential rise into the blue, which is how scattering
/// ceramics with an absorption edge in the violet behave). The geometric mean of the two is given, and their distance, the
/// uncertainty of the readings and a tenth of the value make up the standard uncertainty.
/// </remarks>
public static class ColorCharacterization
{
    private const double EdgeNm = 60, FloorRelative = 0.1, DerivativeStep = 1e-4;
    private const double LargestMiss = 4;
    private const int Iterations = 40;

    /// <summary>Estimates K and S.</summary>
    /// <param name="name">Name of the material.</param>
    /// <param name="refractiveIndex">Index of the material.</param>
    /// <param name="thicknessMm">Thickness of the disc, 0.0001 to 20 mm.</param>
    /// <param name="overBlack">Colour over the black backing.</param>
    /// <param name="overWhite">Colour over the white backing.</param>
    /// <param name="under">Illuminant and observer of both colours.</param>
    /// <param name="blackBacking">The black backing.</param>
    /// <param name="whiteBacking">The white backing.</param>
    /// <param name="grid">Wavelengths wanted; data of the backings must be on it.</param>
    /// <param name="geometry">Geometry of both colours.</param>
    /// <param name="labStandardUncertainty">Standard uncertainty of each of L*, a*, b*, 0.01 to 5.</param>
    /// <exception cref="ArgumentException">Over white is not lighter than over black, or no plain material has these colours within 4 units or ten times the uncertainty.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range or NaN, or no reflectance has a colour.</exception>
    public static CharacterizationResult Estimate(
        string name,
        RefractiveIndex refractiveIndex,
        double thicknessMm,
        Lab overBlack,
        Lab overWhite,
        Colorimeter under,
        Backing blackBacking,
        Backing whiteBacking,
        WavelengthGrid grid,
        MeasurementGeometry geometry = MeasurementGeometry.DiffuseSpecularIncluded,
        double labStandardUncertainty = 0.3)
    {
        Guard.InRange(labStandardUncertainty, 0.01, 5, "");
        if (!(overWhite.L > overBlack.L))
        {
            throw new ArgumentException($"'{name}' has L* {Guard.Text(overWhite.L)} over white and {Guard.Text(overBlack.L)} over black; white must be lighter.");
        }

        CharacterizationResult smoothest = DiscCharacterization.Solve(new DiscMeasurement(
            name, refractiveIndex, thicknessMm, Guard.NotNull(under).SmoothestReflectance(overBlack, grid), under.SmoothestReflectance(overWhite, grid),
            blackBacking, whiteBacking, geometry, readingStandardUncertainty: 0.001 * labStandardUncertainty));
        PlainMaterial plain = new(
            name, refractiveIndex, thicknessMm, under, blackBacking, whiteBacking, grid, geometry);
        (double[] parameters, Matrix<double> covariance) = plain.Fit([overBlack.L, overBlack.A, overBlack.B, overWhite.L, overWhite.A, overWhite.B], labStandardUncertainty);

        Material fitted = plain.At(parameters);
        Material? direct = smoothest.IsComplete ? smoothest.ToMaterial() : null;
        var solutions = new CharacterizationResult.Solution?[grid.Count];
        for (int i = 0; i < grid.Count; i++)
        {
            (double uK, double uS) = plain.RelativeUncertainty(parameters, covariance, i);
            (double k, double spreadK) = Combine(fitted.Absorption[i], direct?.Absorption[i]);
            (double s, double spreadS) = Combine(fitted.Scattering[i], direct?.Scattering[i]);
            solutions[i] = CharacterizationResult.Solution.FromCovariance(
                k, s, k * k * (Square(uK) + Square(spreadK) + Square(FloorRelative)), s * s * (Square(uS) + Square(spreadS) + Square(FloorRelative)), 0);
        }

        return new CharacterizationResult(name, grid, refractiveIndex, 0.01 / thicknessMm, solutions, smoothest.Findings.Where(finding => finding.IsDetermined));
    }

    // Geometric mean and the log distance of each from the other; where one is missing or zero, a factor of two stands for it.
    private static (double Value, double RelativeSpread) Combine(double plain, double? direct) => direct is double other && other > 0 && plain > 0
        ? (Math.Sqrt(plain * other), Math.Min(2, Math.Abs(Math.Log(plain / other))))
        : (plain, Math.Log(2));

    private static double Square(double value) => value * value;

    /// <summary>Material of five parameters: ln K at 550 nm without the rise, ln of K's rise at 400 nm, ln S at 550 nm, powers of S and of K.</summary>
    private sealed class PlainMaterial(
        string name, RefractiveIndex index, double thicknessMm, Colorimeter under, Backing black, Backing white, WavelengthGrid grid, MeasurementGeometry geometry)
    {
        // Weak knowledge of what ceramics are like, as standard uncertainties of the parameters, so that colours that do not tell leave them there.
        private static readonly double[] Typical = [Math.Log(0.05), Math.Log(0.3), Math.Log(3), 1, 0], Spread = [2, 2, 2, 0.7, 3];

        public Material At(double[] p)
        {
            double[] k = new double[grid.Count], s = new double[grid.Count];
            for (int i = 0; i < k.Length; i++)
            {
                (k[i], s[i]) = Coefficients(p, i);
            }

            return new Material(name, new AbsorptionSpectrum(grid, k), new ScatteringSpectrum(grid, s), index);
        }

        public (double[] Parameters, Matrix<double> Covariance) Fit(double[] colors, double uncertainty)
        {
            double[] p = (double[])Typical.Clone();
            double cost = Cost(p, colors, uncertainty), damping = 1e-2;
            Matrix<double> normal = Matrix<double>.Build.DenseIdentity(p.Length);
            for (int iteration = 0; iteration < Iterations && damping < 1e10; iteration++)
            {
                (normal, Vector<double> gradient) = Linearize(p, colors, uncertainty);
                Matrix<double> damped = normal + Matrix<double>.Build.DenseOfDiagonalVector(normal.Diagonal() * damping);
                double[] step = damped.Solve(gradient).ToArray();
                double[] next = [.. p.Select((value, i) => Math.Min(7, Math.Max(-12, value - step[i])))];
                double nextCost = Cost(next, colors, uncertainty);
                if (nextCost <= cost)
                {
                    (p, cost, damping) = (next, nextCost, Math.Max(1e-8, damping / 10));
                }
                else
                {
                    damping *= 10;
                }
            }

            double miss = Model(p).Zip(colors, (a, b) => Math.Abs(a - b)).Max();
            if (!(miss < Math.Max(LargestMiss, 10 * uncertainty)))
            {
                throw new ArgumentException($"No plain ceramic has the colours given for '{name}'; the nearest misses one of L*, a*, b* by {Guard.Text(Math.Round(miss, 1))}.");
            }

            // Colours that the plain material only nearly has say that its shape is wrong; the uncertainty grows with that.
            double[] at = Model(p);
            double chi = at.Zip(colors, (a, b) => Square((a - b) / uncertainty)).Sum();
            return (p, normal.Inverse() * Math.Max(1, chi));
        }

        public (double K, double S) RelativeUncertainty(double[] p, Matrix<double> covariance, int wavelength)
        {
            Vector<double> byK = Vector<double>.Build.Dense(p.Length), byS = Vector<double>.Build.Dense(p.Length);
            (double k, double s) = Coefficients(p, wavelength);
            for (int j = 0; j < p.Length; j++)
            {
                double[] moved = (double[])p.Clone();
                moved[j] += DerivativeStep;
                (double nextK, double nextS) = Coefficients(moved, wavelength);
                (byK[j], byS[j]) = (Math.Log(nextK / k) / DerivativeStep, Math.Log(nextS / s) / DerivativeStep);
            }

            return (Math.Sqrt(Math.Max(0, byK * covariance * byK)), Math.Sqrt(Math.Max(0, byS * covariance * byS)));
        }

        private (double K, double S) Coefficients(double[] p, int i) => (
            (Math.Exp(p[0]) * Math.Pow(grid[i] / 550, p[4])) + (Math.Exp(p[1]) * Math.Exp(-(grid[i] - 400) / EdgeNm)), Math.Exp(p[2]) * Math.Pow(grid[i] / 550, -p[3]));

        private double[] Model(double[] p)
        {
            Layer disc = new(At(p), thicknessMm);
            Lab overBlack = under.ToLab(new LayerStack([disc], black.Substrate, black.Coupling).Reflectance(geometry));
            Lab overWhite = under.ToLab(new LayerStack([disc], white.Substrate, white.Coupling).Reflectance(geometry));
            return [overBlack.L, overBlack.A, overBlack.B, overWhite.L, overWhite.A, overWhite.B];
        }

        private double Cost(double[] p, double[] colors, double uncertainty) =>
            Model(p).Zip(colors, (a, b) => Square((a - b) / uncertainty)).Sum() + p.Select((value, i) => Square((value - Typical[i]) / Spread[i])).Sum();

        private (Matrix<double> Normal, Vector<double> Gradient) Linearize(double[] p, double[] colors, double uncertainty)
        {
            double[] at = Model(p);
            Matrix<double> jacobian = Matrix<double>.Build.Dense(at.Length + p.Length, p.Length);
            Vector<double> residual = Vector<double>.Build.Dense(at.Length + p.Length);
            for (int j = 0; j < p.Length; j++)
            {
                double[] moved = (double[])p.Clone();
                moved[j] += DerivativeStep;
                double[] next = Model(moved);
                for (int i = 0; i < at.Length; i++)
                {
                    jacobian[i, j] = (next[i] - at[i]) / DerivativeStep / uncertainty;
                    residual[i] = (at[i] - colors[i]) / uncertainty;
                }

                jacobian[at.Length + j, j] = 1 / Spread[j];
                residual[at.Length + j] = (p[j] - Typical[j]) / Spread[j];
            }

            return (jacobian.TransposeThisAndMultiply(jacobian), jacobian.TransposeThisAndMultiply(residual));
        }
    }
}
