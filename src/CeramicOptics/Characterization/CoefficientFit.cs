using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;

namespace CeramicOptics.Characterization;

/// <summary>K and S from any mix of readings, by weighted least squares.</summary>
/// <remarks>
/// At each wavelength: Levenberg-Marquardt on both coefficients, held at zero or above; covariance from the normal
/// matrix, enlarged by chi-square per degree of freedom where that is above 1. For radiative transfer, absorption is
/// K/2 and reduced scattering (4 S + K/2)/3 (<see cref="TransportLayer.FromTwoFlux"/>), so one pair of numbers serves
/// both theories, but the pair found differs with the theory.
/// </remarks>
internal static class CoefficientFit
{
    // A chi-square beyond this multiple of its expectation is called a poor fit; a studentized residual beyond 4, an
    // outlier.
    private const double PoorFitRatio = 4, OutlierLimit = 4;

    private static readonly double[] AdviceThicknessesMm =
        [0.1, 0.15, 0.2, 0.3, 0.4, 0.5, 0.6, 0.8, 1.0, 1.25, 1.5, 2.0, 2.5, 3.0];

    public static CharacterizationResult Solve(
        DiscSet discs, CharacterizationOptions options, IProgress<double>? progress, CancellationToken cancellation)
    {
        DiscFit each = new(discs, options, cancellation);
        WindowFit? windows = each.Windows;
        DiscPair? pair = DiscPair.Of(discs, options.Model);
        int n = discs.Grid.Count, freedom = discs.Readings.Count - 2;
        var fits = new WavelengthFit?[n];
        List<Finding> findings =
            [.. WindowReport.NotStated(discs, options, cancellation) is { } note ? [note] : (Finding[])[]];
        List<ReadingOutlier> outliers = [];
        for (int i = 0; i < n; i++)
        {
            cancellation.ThrowIfCancellationRequested();
            if (pair?.FaultOf(pair.At(i), i) is { } fault)
            {
                findings.Add(fault);
            }
            else if ((fits[i] = each.Solve(i)) is { } fit)
            {
                outliers.AddRange(fit.StudentizedResiduals(discs, each.Forward, i, windows?.CommonAt(i))
                    .Where(item => Math.Abs(item.Residual) > OutlierLimit).Select(item => new ReadingOutlier(
                        discs.Readings[item.Reading].Name, discs.Grid[i], item.Residual)));
            }
            else
            {
                findings.Add(new Finding(discs.Grid[i], FindingKind.Undetermined));
            }

            progress?.Report((i + 1) / (double)n);
        }

        if (options.Smoothness > 0)
        {
            fits = SmoothnessPrior.Apply(fits, options.Smoothness);
        }

        var solutions = new CharacterizationResult.Solution?[n];
        for (int i = 0; i < n; i++)
        {
            solutions[i] = fits[i] is { } fit ? Judge(fit, discs.Grid[i], freedom, findings) : null;
        }

        FitStatistics statistics = new(
            [.. fits.Select(fit => fit?.ChiSquare ?? 0)], freedom, outliers,
            Advise(discs, [.. fits.Select(fit => fit ?? WavelengthFit.None)]));
        IReadOnlyList<LargeAreaReading> large = [];
        CharacterizationResult? uncorrected = null;
        if (windows is not null)
        {
            uncorrected = DiscCharacterization.Find(discs.With(_ => ReadingArea.Large), options, null, cancellation);
            WavelengthFit?[] determined = [.. fits.Select((fit, i) => solutions[i] is null ? null : fit)];
            large = WindowReport.ReadingsOf(discs, windows, determined);
            findings.AddRange(WindowReport.FindingsOf(discs, large, determined, uncorrected));
        }

        return new CharacterizationResult(
            discs, options.Model, solutions, findings.OrderBy(finding => finding.WavelengthNm), statistics, large,
            uncorrected);
    }

    /// <summary>
    /// True where uncertainties leave K or S open: K may drown in noise and still be known to be small; S, or a K of
    /// unknown size, may not.
    /// </summary>
    public static bool IsOpen(double k, double s, double uK, double uS) =>
        !(uS < Math.Max(s, 0.05)) || !(uK < Math.Max(k, 0.5 * Math.Max(s, 0.05)));

    /// <summary>Readings of a set as a theory predicts them.</summary>
    public static IDiscForwardModel ForwardModel(DiscSet discs, IOpticalModel model) =>
        model is TransportModel transport ? new TransportDiscModel(discs, transport) : new TwoFluxDiscModel(discs);

    private static CharacterizationResult.Solution? Judge(
        WavelengthFit fit, double nm, int freedom, List<Finding> findings)
    {
        double enlargement = freedom > 0 ? Math.Max(1, fit.ChiSquare / freedom) : 1;
        double uK = Math.Sqrt((fit.VarianceK * enlargement) + (fit.CommonK * fit.CommonK));
        double uS = Math.Sqrt((fit.VarianceS * enlargement) + (fit.CommonS * fit.CommonS));

        if (freedom == 0 && fit.ChiSquare > DiscPair.DetectionFactor * DiscPair.DetectionFactor)
        {
            findings.Add(new Finding(nm, FindingKind.Inconsistent, Math.Sqrt(fit.ChiSquare)));
            return null;
        }

        bool isPoor = freedom > 0 && fit.ChiSquare > PoorFitRatio * freedom;
        if (isPoor)
        {
            findings.Add(new Finding(nm, FindingKind.PoorFit, fit.ChiSquare, freedom, Math.Sqrt(enlargement)));
        }

        if (IsOpen(fit.K, fit.S, uK, uS))
        {
            findings.Add(new Finding(nm, FindingKind.Undetermined, fit.K, uK, fit.S, uS));
            return null;
        }

        if (!isPoor && (fit.K == 0 || fit.S == 0))
        {
            findings.Add(new Finding(
                nm, fit.K == 0 ? FindingKind.AbsorptionBelowDetection : FindingKind.ScatteringBelowDetection));
        }

        return CharacterizationResult.Solution.FromCovariance(
            fit.K, fit.S, fit.VarianceK * enlargement, fit.VarianceS * enlargement, fit.Covariance * enlargement) with
        {
            CommonAbsorption = fit.CommonK, CommonScattering = fit.CommonS,
        };
    }

    // The closed form of two readings over different backings where there is such a pair, else the best of a coarse
    // grid.
    public static (double K, double S) Start(DiscSet discs, TwoFluxDiscModel twoFlux, int i)
    {
        for (int a = 0; a < discs.Readings.Count; a++)
        {
            for (int b = 0; b < discs.Readings.Count; b++)
            {
                DiscReading dark = discs.Readings[a], light = discs.Readings[b];
                if (!dark.IsTransmittance && !light.IsTransmittance && dark.ThicknessMm == light.ThicknessMm
                    && twoFlux.BackingOf(b, i) > twoFlux.BackingOf(a, i) + 0.1)
                {
                    (double k, double s) = TwoFluxInversion.ClosedForm(
                        twoFlux.InternalOf(a, i), twoFlux.InternalOf(b, i), twoFlux.BackingOf(a, i),
                        twoFlux.BackingOf(b, i), dark.ThicknessMm);
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

    private static DiscAdvice Advise(DiscSet discs, WavelengthFit[] fits)
    {
        DiscReading[] over = [.. discs.Readings.Where(reading => !reading.IsTransmittance).GroupBy(
            reading => reading.Backing).Select(group => group.First())];
        over = over.Length > 0 ? over : [discs.Readings[0]];
        DiscAdvice best = new(AdviceThicknessesMm[0], 1);
        foreach (double thickness in AdviceThicknessesMm)
        {
            DiscSet candidate = DiscSet.Imagined(
                discs, over.Concat(over).Select(reading => reading.With(thickness)));
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
}
