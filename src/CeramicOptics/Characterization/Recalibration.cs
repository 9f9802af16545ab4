using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Characterization;

/// <summary>Converts constants of one theory into those of another.</summary>
/// <remarks>
/// K and S differ with the theory. The material's own disc is simulated, over ideal black and white in optical contact
/// and by its own theory, and these readings are fitted by the other theory. Predictions of the two agree at the
/// thickness of the disc and drift apart away from it, so measured readings, characterized again, are better wherever
/// there are any.
/// </remarks>
public static class Recalibration
{
    // Weights of the simulated readings; a coefficient known to less than itself by readings of usual noise is not
    // known.
    private const double ReadingUncertainty = 1e-6, UsualNoise = 1e-4;

    /// <summary>Finds the constants of a material for another theory.</summary>
    /// <param name="material">The material.</param>
    /// <param name="to">The theory for which constants are wanted.</param>
    /// <param name="options">The disc; the default when null.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1.</param>
    /// <param name="cancellation">Stops the work between two wavelengths.</param>
    /// <exception cref="ArgumentException">
    /// The thickness of the disc is neither given nor carried by the material, or such a disc is too opaque to tell K
    /// from S (names the wavelength).
    /// </exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static RecalibrationResult Find(
        Material material,
        IOpticalModel to,
        RecalibrationOptions? options = null,
        IProgress<double>? progress = null,
        CancellationToken cancellation = default)
    {
        options ??= new RecalibrationOptions();
        if (Guard.NotNull(material).Model.IsSameTheoryAs(Guard.NotNull(to)))
        {
            return new RecalibrationResult(material, material.Model, 0, 0);
        }

        DiscSet discs = ReadingsOf(material, DiscsOf(material, options), options.Geometry);
        IDiscForwardModel before = CoefficientFit.ForwardModel(discs, material.Model),
            after = CoefficientFit.ForwardModel(discs, to);
        TwoFluxDiscModel start = new(discs);
        int n = discs.Grid.Count;
        double[] k = new double[n], s = new double[n], uK = new double[n], uS = new double[n],
            correlation = new double[n], commonK = new double[n], commonS = new double[n];
        double residual = 0;
        for (int i = 0; i < n; i++)
        {
            cancellation.ThrowIfCancellationRequested();
            WavelengthFit fit = WavelengthFit.Solve(discs, after, i, CoefficientFit.Start(discs, start, i));
            RequireDetermined(fit, material, i);
            (k[i], s[i]) = (fit.K, fit.S);
            for (int r = 0; r < discs.Readings.Count; r++)
            {
                residual = Math.Max(residual, Math.Abs(after.Value(r, i, fit.K, fit.S) - discs.Readings[r].Values[i]));
            }

            if (material.Uncertainty is { } uncertainty)
            {
                (_, _, uK[i], uS[i], correlation[i], commonK[i], commonS[i]) = Carried(
                    discs.Readings.Count, before, after, fit, material, uncertainty, i);
            }

            progress?.Report((i + 1) / (double)n);
        }

        Material found = new(
            material.Name,
            to,
            new AbsorptionSpectrum(discs.Grid, k),
            new ScatteringSpectrum(discs.Grid, s),
            material.RefractiveIndex,
            material.Uncertainty is null ? null : new CoefficientUncertainty(
                uK, uS, correlation, material.Uncertainty.RelativeScale, commonK, commonS),
            discs.ThicknessesMm);
        return new RecalibrationResult(found, material.Model, residual, LargestColorDifference(found, discs));
    }

    private static IReadOnlyList<double> DiscsOf(Material material, RecalibrationOptions options) =>
        options.DiscThicknessMm is double mm ? [mm]
        : material.DiscThicknessesMm.Count > 0 ? material.DiscThicknessesMm
        : throw new ArgumentException(
            $"'{material.Name}' does not carry the thickness of its disc, at which the two theories shall agree; "
                + "give DiscThicknessMm of the options.");

    private static DiscSet ReadingsOf(
        Material material, IReadOnlyList<double> thicknessesMm, MeasurementGeometry geometry)
    {
        List<DiscReading> readings = [];
        foreach (double mm in thicknessesMm)
        {
            foreach (Substrate ideal in (Substrate[])[Substrate.Black, Substrate.White])
            {
                ReflectanceSpectrum read = new LayerStack([new Layer(material, mm)], ideal).Reflectance(geometry);
                readings.Add(DiscReading.Reflectance(
                    $"{Guard.Text(mm)} mm over {ideal}", mm, read, new Backing(ideal, null), geometry,
                    ReadingArea.Large, ReadingUncertainty));
            }
        }

        return new DiscSet(material.Name, material.RefractiveIndex, readings);
    }

    private static void RequireDetermined(WavelengthFit fit, Material material, int i)
    {
        const double Noise = UsualNoise / ReadingUncertainty;
        if (CoefficientFit.IsOpen(
            fit.K, fit.S, Noise * Math.Sqrt(fit.VarianceK), Noise * Math.Sqrt(fit.VarianceS)))
        {
            throw new ArgumentException(
                $"A disc of '{material.Name}' hides what is below it at {Guard.Text(material.Grid[i])} nm, so that "
                    + "its readings do not tell K from S; give a thinner disc.");
        }
    }

    // First order (JCGM 100, 5.1): the old covariance goes through the readings, C' = M C M' with M = (J2' J2)^-1 J2'
    // J1.
    private static CharacterizationResult.Solution Carried(
        int readings, IDiscForwardModel before, IDiscForwardModel after, WavelengthFit fit, Material material,
        CoefficientUncertainty uncertainty, int i)
    {
        double kk = 0, ks = 0, sk = 0, ss = 0;
        for (int r = 0; r < readings; r++)
        {
            (_, double oldK, double oldS) = before.Evaluate(r, i, material.Absorption[i], material.Scattering[i]);
            (_, double newK, double newS) = after.Evaluate(r, i, fit.K, fit.S);
            (kk, ks, sk, ss) = (kk + (newK * oldK), ks + (newK * oldS), sk + (newS * oldK), ss + (newS * oldS));
        }

        // The normal matrix of the fit is weighted by the uncertainty of the simulated readings.
        const double Weight = 1 / (ReadingUncertainty * ReadingUncertainty);
        double mKK = Weight * ((fit.VarianceK * kk) + (fit.Covariance * sk));
        double mKS = Weight * ((fit.VarianceK * ks) + (fit.Covariance * ss));
        double mSK = Weight * ((fit.Covariance * kk) + (fit.VarianceS * sk));
        double mSS = Weight * ((fit.Covariance * ks) + (fit.VarianceS * ss));
        double uK = uncertainty.AbsorptionPerMm[i], uS = uncertainty.ScatteringPerMm[i];
        double vK = uK * uK, vS = uS * uS, c = uncertainty.Correlation[i] * uK * uS;
        return CharacterizationResult.Solution.FromCovariance(
            fit.K,
            fit.S,
            (mKK * mKK * vK) + (2 * mKK * mKS * c) + (mKS * mKS * vS),
            (mSK * mSK * vK) + (2 * mSK * mSS * c) + (mSS * mSS * vS),
            (mKK * mSK * vK) + (((mKK * mSS) + (mKS * mSK)) * c) + (mKS * mSS * vS)) with
        {
            CommonAbsorption = (mKK * uncertainty.CommonAbsorptionPerMm[i])
                + (mKS * uncertainty.CommonScatteringPerMm[i]),
            CommonScattering = (mSK * uncertainty.CommonAbsorptionPerMm[i])
                + (mSS * uncertainty.CommonScatteringPerMm[i]),
        };
    }

    private static double? LargestColorDifference(Material found, DiscSet discs)
    {
        if (discs.Grid.StartNm > 400 || discs.Grid.EndNm < 700)
        {
            return null;
        }

        return discs.Readings.Max(reading =>
        {
            LayerStack disc = new([new Layer(found, reading.ThicknessMm)], reading.Backing!.Substrate);
            return ColorDifference.Ciede2000(
                Colorimeter.D65TwoDegree.ToLab((ReflectanceSpectrum)reading.Values),
                Colorimeter.D65TwoDegree.ToLab(disc.Reflectance(reading.Geometry)));
        });
    }
}
