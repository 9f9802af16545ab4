using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;

namespace CeramicOptics.Characterization;

/// <summary>K and S from any mix of readings, by weighted least squares.</summary>
/// <remarks>
/// At each wavelength: Levenberg-Marquardt on both coefficients, held at zero or above; covariance from the normal matrix, enlarged by
/// chi-square per degree of freedom where that is above 1. For exact transfer, absorption is K/2 and reduced scattering (4 S + K/2)/3
/// (<see cref="TransportLayer.FromTwoFlux"/>), so one pair of numbers serves both models, but the pair found differs with the model: use a
/// material with the model it was fitted by.
/// </remarks>
public static class CoefficientFit
{
    // A chi-square beyond this multiple of its expectation is called a poor fit; a studentized residual beyond 4, an outlier.
    private const double PoorFitRatio = 4, OutlierLimit = 4;

    private static readonly double[] AdviceThicknessesMm = [0.1, 0.15, 0.2, 0.3, 0.4, 0.5, 0.6, 0.8, 1.0, 1.25, 1.5, 2.0, 2.5, 3.0];

    /// <summary>Fits K and S at every wavelength.</summary>
    /// <param name="discs">The readings.</param>
    /// <param name="model">Theory of the readings; two-flux when null. Two-flux and <see cref="TransportModel"/> are known.</param>
    /// <param name="smoothness">
    /// Strength of a prior that ln K and ln S are smooth over wavelength, 0 (none) to 1e6: weight of their squared second differences in units
    /// of 1/0.01². 1 means that a bend of 1 % from neighbour to neighbour counts as one standard uncertainty.
    /// </param>
    /// <exception cref="ArgumentException">An unknown model.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Smoothness outside its range or NaN.</exception>
    public static CharacterizationResult Solve(DiscSet discs, IReflectanceModel? model = null, double smoothness = 0)
    {
        Guard.NotNull(discs);
        Guard.InRange(smoothness, 0, 1e6, "");
        TwoFluxDiscModel twoFlux = new(discs);
        IDiscForwardModel forward = model switch
        {
            null or TwoFluxModel => twoFlux,
            TransportModel transport => new TransportDiscModel(discs, transport),
            _ => throw new ArgumentException($"Fits know two-flux theory and radiative transfer, not {model.GetType().Name}.", nameof(model)),
        };

        int n = discs.Grid.Count, freedom = discs.Readings.Count - 2;
        WavelengthFit[] fits = new WavelengthFit[n];
        for (int i = 0; i < n; i++)
        {
            fits[i] = WavelengthFit.Solve(discs, forward, i, Start(discs, twoFlux, i));
        }

        if (smoothness > 0)
        {
            fits = SmoothnessPrior.Apply(fits, smoothness);
        }

        List<Finding> findings = [];
        List<ReadingOutlier> outliers = [];
        var solutions = new CharacterizationResult.Solution?[n];
        for (int i = 0; i < n; i++)
        {
            solutions[i] = Judge(fits[i], discs.Grid[i], freedom, findings);
            foreach ((int reading, double residual) in fits[i].StudentizedResiduals(discs, forward, i).Where(item => Math.Abs(item.Residual) > OutlierLimit))
            {
                outliers.Add(new ReadingOutlier(discs.Readings[reading].Name, discs.Grid[i], residual));
            }
        }

        FitStatistics statistics = new([.. fits.Select(fit => fit.ChiSquare)], freedom, outliers, Advise(discs, fits));
        return new CharacterizationResult(discs.Name, discs.Grid, discs.RefractiveIndex, RelativeScale(discs), solutions, findings, statistics);
    }

    private static CharacterizationResult.Solution? Judge(WavelengthFit fit, double nm, int freedom, List<Finding> findings)
    {
        double enlargement = freedom > 0 ? Math.Max(1, fit.ChiSquare / freedom) : 1;
        double uK = Math.Sqrt(fit.VarianceK * enlargement), uS = Math.Sqrt(fit.VarianceS * enlargement);

        bool isPoor = freedom > 0 && fit.ChiSquare > PoorFitRatio * freedom;
        if (isPoor)
        {
            findings.Add(new Finding(
                nm, FindingKind.PoorFit,
                FormattableString.Invariant($"chi-square is {fit.ChiSquare:0.0} for {freedom} degrees of freedom; uncertainties are enlarged {Math.Sqrt(enlargement):0.0} times.")));
        }

        // K may drown in noise and still be known to be small; S, or a K of unknown size, may not.
        if (!(uS < Math.Max(fit.S, 0.05)) || !(uK < Math.Max(fit.K, 0.5 * Math.Max(fit.S, 0.05))))
        {
            findings.Add(new Finding(
                nm, FindingKind.Undetermined,
                FormattableString.Invariant($"the readings give K {fit.K:0.####} ± {uK:0.####} and S {fit.S:0.####} ± {uS:0.####} 1/mm; they leave the layer open.")));
            return null;
        }

        if (!isPoor && (fit.K == 0 || fit.S == 0))
        {
            findings.Add(fit.K == 0
                ? new Finding(nm, FindingKind.AbsorptionBelowDetection, "absorption is zero within noise and set to zero.")
                : new Finding(nm, FindingKind.ScatteringBelowDetection, "scattering is zero within noise and set to zero."));
        }

        return CharacterizationResult.Solution.FromCovariance(
            fit.K, fit.S, fit.VarianceK * enlargement, fit.VarianceS * enlargement, fit.Covariance * enlargement);
    }

    // The closed form of two readings over different backings where there is such a pair, else the best of a coarse grid.
    private static (double K, double S) Start(DiscSet discs, TwoFluxDiscModel twoFlux, int i)
    {
        for (int a = 0; a < discs.Readings.Count; a++)
        {
            for (int b = 0; b < discs.Readings.Count; b++)
            {
                DiscReading dark = discs.Readings[a], light = discs.Readings[b];
                if (!dark.IsTransmittance && !light.IsTransmittance && dark.ThicknessMm == light.ThicknessMm
                    && twoFlux.BackingOf(b, i) > twoFlux.BackingOf(a, i) + 0.1)
                {
                    (double k, double s) = DiscCharacterization.ClosedForm(
                        twoFlux.InternalOf(a, i), twoFlux.InternalOf(b, i), twoFlux.BackingOf(a, i), twoFlux.BackingOf(b, i), dark.ThicknessMm);
                    if (Guard.IsFinite(k) && Guard.IsFinite(s) && k > 0 && s > 0)
                    {
                        return (k, s);
                    }
                }
            }
        }

        (double K, double S) best = (0.1, 1);
        double bestChi = double.PositiveInfinity;
        for (double k = 1e-3; k < 100; k *= 3)
        {
            for (double s = 1e-2; s < 200; s *= 2)
            {
                double chi = WavelengthFit.ChiSquareAt(discs, twoFlux, i, k, s);
                (best, bestChi) = chi < bestChi ? ((k, s), chi) : (best, bestChi);
            }
        }

        return best;
    }

    // Every disc has its own error of thickness; what is common to all coefficients is the error of their mean.
    private static double RelativeScale(DiscSet discs)
    {
        double[] relative = [.. discs.Readings
            .GroupBy(reading => reading.ThicknessMm)
            .Select(disc => disc.Max(reading => reading.ThicknessStandardUncertaintyMm) / disc.Key)];
        return Math.Sqrt(relative.Sum(u => u * u)) / relative.Length;
    }

    private static DiscAdvice Advise(DiscSet discs, WavelengthFit[] fits)
    {
        DiscReading[] over = [.. discs.Readings.Where(reading => !reading.IsTransmittance).GroupBy(reading => reading.Backing).Select(group => group.First())];
        over = over.Length > 0 ? over : [discs.Readings[0]];
        DiscAdvice best = new(AdviceThicknessesMm[0], 1);
        foreach (double thickness in AdviceThicknessesMm)
        {
            DiscSet candidate = DiscSet.Imagined(discs, over.Concat(over).Select(reading => AtThickness(reading, thickness)));
            TwoFluxDiscModel forward = new(candidate);
            double logRatio = 0;
            for (int i = 0; i < fits.Length; i++)
            {
                logRatio += fits[i].LogAreaRatioWith(candidate, forward, i, over.Length) / fits.Length;
            }

            best = Math.Exp(logRatio) < best.UncertaintyRatio ? new DiscAdvice(thickness, Math.Exp(logRatio)) : best;
        }

        return best;
    }

    private static DiscReading AtThickness(DiscReading reading, double thicknessMm) => reading.IsTransmittance
        ? DiscReading.Transmittance(reading.Name, thicknessMm, (Spectra.TransmittanceSpectrum)reading.Values, reading.StandardUncertainty)
        : DiscReading.Reflectance(reading.Name, thicknessMm, (Spectra.ReflectanceSpectrum)reading.Values, reading.Backing!, reading.Geometry, reading.StandardUncertainty);
}
