using CeramicOptics.Layers;
using CeramicOptics.Layers.TwoFlux;

namespace CeramicOptics.Characterization;

/// <summary>
/// The share of specular light that an instrument sees and the internal reflectance that its readings follow, fitted
/// together with K and S.
/// </summary>
/// <remarks>
/// By two-flux theory and for diffuse/8 geometries; both terms are the same at all wavelengths. Levenberg-Marquardt on
/// all readings at once; K and S of each wavelength are eliminated from every step. Errors of thicknesses are not
/// counted. Source: Duveiller et al. 2020, Color Imaging Conf. 28, refit of the surface terms of a d:8° instrument
/// (abstract only); the terms, Saunderson 1942.
/// </remarks>
public static class SurfaceFit
{
    private const double MostInside = 0.95, UsefulShare = 0.5, UsefulInside = 0.1, PoorFitRatio = 4, Largest = 1e4;
    private const int MaximumIterations = 300;

    /// <summary>Finds the terms.</summary>
    /// <param name="discs">
    /// Readings of discs of several thicknesses over several backings, all reflectances in one diffuse/8 geometry;
    /// transmittances are left out.
    /// </param>
    /// <param name="cancellation">Stops the work between two steps.</param>
    /// <returns>The terms with uncertainties, or a finding.</returns>
    /// <exception cref="ArgumentException">
    /// A reflectance in another geometry, two geometries, or a reading through a window.
    /// </exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static SurfaceFitResult Find(DiscSet discs, CancellationToken cancellation = default)
    {
        DiscReading[] readings = [.. Guard.NotNull(discs).Readings.Where(reading => !reading.IsTransmittance)];
        foreach (DiscReading reading in readings)
        {
            reading.RequireLargeArea("A fit of surface terms");
            if (reading.Geometry is not (MeasurementGeometry.DiffuseSpecularIncluded
                or MeasurementGeometry.DiffuseSpecularExcluded) || reading.Geometry != readings[0].Geometry)
            {
                throw new ArgumentException(
                    $"Surface terms are fitted to readings in one diffuse/8 geometry; '{reading.Name}' was read in "
                        + $"{reading.Geometry}.", nameof(discs));
            }
        }

        int n = discs.Grid.Count, freedom = (readings.Length * n) - (2 * n) - 2;
        if (readings.Length < 3)
        {
            return new SurfaceFitResult(
                discs, 0, 0, 0, 0, 0, freedom,
                [new Finding(null, FindingKind.TooFewReadings, readings.Length)]);
        }

        Problem problem = new(discs, readings);
        problem.Solve(cancellation);
        double enlargement = freedom > 0 ? Math.Max(1, problem.ChiSquare / freedom) : 1;
        double determinant = (problem.AA * problem.BB) - (problem.AB * problem.AB);
        double share = Math.Sqrt(enlargement * problem.BB / determinant);
        double inside = Math.Sqrt(enlargement * problem.AA / determinant);
        List<Finding> findings = [];
        if (!(determinant > 1e-12 * problem.AA * problem.BB) || !(share <= UsefulShare && inside <= UsefulInside))
        {
            findings.Add(new Finding(null, FindingKind.Undetermined) { Case = "Surface" });
        }
        else if (freedom > 0 && problem.ChiSquare > PoorFitRatio * freedom)
        {
            findings.Add(new Finding(null, FindingKind.PoorFit, problem.ChiSquare, freedom) { Case = "Surface" });
        }

        if (findings.All(finding => finding.IsDetermined)
            && (problem.Share is 0 or 1 || problem.Inside is 0 or MostInside))
        {
            findings.Add(new Finding(null, FindingKind.AtLimit, problem.Share, problem.Inside));
        }

        return new SurfaceFitResult(
            discs, problem.Share, problem.Inside, share, inside, problem.ChiSquare, freedom, findings);
    }

    /// <summary>Least squares in the terms and in K and S at every wavelength.</summary>
    private sealed class Problem
    {
        private readonly DiscSet _discs;
        private readonly DiscReading[] _readings;
        private readonly double[,] _backings;
        private double[] _k, _s;

        public Problem(DiscSet discs, DiscReading[] readings)
        {
            (_discs, _readings) = (discs, readings);
            int n = discs.Grid.Count;
            (_k, _s, _backings) = (new double[n], new double[n], new double[readings.Length, n]);
            BoundaryCache boundaries = new();
            TwoFluxDiscModel nominal = new(discs);
            double index = discs.RefractiveIndex.At(discs.Grid[n / 2]);
            Share = readings[0].Geometry == MeasurementGeometry.DiffuseSpecularIncluded ? 0.9 : 0.1;
            Inside = Math.Min(MostInside, boundaries.Diffuse(1, index).ReflectanceFromBelow);
            for (int i = 0; i < n; i++)
            {
                (_k[i], _s[i]) = CoefficientFit.Start(discs, nominal, i);
                for (int r = 0; r < readings.Length; r++)
                {
                    _backings[r, i] = readings[r].Backing!.SeenFrom(
                        discs.RefractiveIndex.At(discs.Grid[i]), discs.Grid[i], i, boundaries);
                }
            }
        }

        public double Share { get; private set; }

        public double Inside { get; private set; }

        public double ChiSquare { get; private set; }

        // What is left of the normal matrix for share and internal reflectance when K and S are eliminated.
        public double AA { get; private set; }

        public double BB { get; private set; }

        public double AB { get; private set; }

        public void Solve(CancellationToken cancellation)
        {
            double damping = 1e-3;
            for (int iteration = 0; iteration < MaximumIterations && damping < 1e12; iteration++)
            {
                cancellation.ThrowIfCancellationRequested();
                (double[] k, double[] s, double share, double inside) = Step(damping);
                double next = ChiSquareAt(k, s, share, inside);
                if (!(next <= ChiSquare))
                {
                    damping *= 10;
                    continue;
                }

                bool isDone = ChiSquare - next <= 1e-13 * ChiSquare && damping < 1e-6;
                (_k, _s, Share, Inside) = (k, s, share, inside);
                damping = Math.Max(damping / 10, 1e-12);
                if (isDone)
                {
                    break;
                }
            }

            Step(0);
        }

        // Normal equations in blocks, one of K and S for each wavelength (Schur complement).
        private (double[] K, double[] S, double Share, double Inside) Step(double damping)
        {
            int n = _k.Length;
            var blocks = new Block[n];
            double aa = 0, bb = 0, ab = 0, gA = 0, gB = 0, chi = 0;
            for (int i = 0; i < n; i++)
            {
                blocks[i] = BlockAt(i, damping);
                Block b = blocks[i];
                chi += b.Chi;
                (double ka, double sa) = b.Solve(b.KA, b.SA);
                (double kb, double sb) = b.Solve(b.KB, b.SB);
                aa += (b.AA * (1 + damping)) - (b.KA * ka) - (b.SA * sa);
                bb += (b.BB * (1 + damping)) - (b.KB * kb) - (b.SB * sb);
                ab += b.AB - (b.KA * kb) - (b.SA * sb);
                gA += b.GA - (b.GK * ka) - (b.GS * sa);
                gB += b.GB - (b.GK * kb) - (b.GS * sb);
            }

            (AA, BB, AB, ChiSquare) = (aa, bb, ab, chi);
            double determinant = (aa * bb) - (ab * ab);
            double stepA = determinant > 0 ? ((bb * gA) - (ab * gB)) / determinant : 0;
            double stepB = determinant > 0 ? ((aa * gB) - (ab * gA)) / determinant : 0;
            double[] k = new double[n], s = new double[n];
            for (int i = 0; i < n; i++)
            {
                Block b = blocks[i];
                (double dK, double dS) = b.Solve(
                    b.GK - (b.KA * stepA) - (b.KB * stepB), b.GS - (b.SA * stepA) - (b.SB * stepB));
                (k[i], s[i]) = (Clamp(_k[i] - dK, Largest), Clamp(_s[i] - dS, Largest));
            }

            return (k, s, Clamp(Share - stepA, 1), Clamp(Inside - stepB, MostInside));
        }

        private Block BlockAt(int i, double damping)
        {
            Block b = default;
            SurfaceTerms surface = new(_discs.RefractiveIndex.At(_discs.Grid[i]), Share, Inside);
            for (int r = 0; r < _readings.Length; r++)
            {
                double weight = 1 / _readings[r].StandardUncertainty;
                LayerSensitivity layer = TwoFluxLayer.Sensitivity(
                    _k[i], _s[i], _readings[r].ThicknessMm, _backings[r, i]);
                (double value, double slope, double a, double inside) = surface.At(layer.Reflectance);
                b = b.With(
                    (value - _readings[r].Values[i]) * weight, slope * layer.ByAbsorptionMm * weight,
                    slope * layer.ByScatteringMm * weight, a * weight, inside * weight);
            }

            return b with { KK = b.KK * (1 + damping), SS = b.SS * (1 + damping) };
        }

        private double ChiSquareAt(double[] k, double[] s, double share, double inside)
        {
            double chi = 0;
            for (int i = 0; i < k.Length; i++)
            {
                SurfaceTerms surface = new(_discs.RefractiveIndex.At(_discs.Grid[i]), share, inside);
                for (int r = 0; r < _readings.Length; r++)
                {
                    double value = surface.At(TwoFluxLayer.Reflectance(
                        k[i], s[i], _readings[r].ThicknessMm, _backings[r, i])).Value;
                    double residual = (value - _readings[r].Values[i]) / _readings[r].StandardUncertainty;
                    chi += residual * residual;
                }
            }

            return chi;
        }

        private static double Clamp(double value, double most) => Math.Min(most, Math.Max(0, value));
    }

    // Sums of products of slopes by K, S, the share (A) and the internal reflectance (B), and of slopes with residuals.
    private readonly record struct Block(
        double KK, double SS, double KS, double KA, double SA, double KB, double SB, double AA, double BB, double AB,
        double GK, double GS, double GA, double GB, double Chi)
    {
        public Block With(double r, double k, double s, double a, double b) => new(
            KK + (k * k), SS + (s * s), KS + (k * s), KA + (k * a), SA + (s * a), KB + (k * b), SB + (s * b),
            AA + (a * a), BB + (b * b), AB + (a * b), GK + (k * r), GS + (s * r), GA + (a * r), GB + (b * r),
            Chi + (r * r));

        public (double K, double S) Solve(double k, double s)
        {
            double determinant = (KK * SS) - (KS * KS);
            return determinant > 0
                ? (((SS * k) - (KS * s)) / determinant, ((KK * s) - (KS * k)) / determinant)
                : (0, 0);
        }
    }
}
