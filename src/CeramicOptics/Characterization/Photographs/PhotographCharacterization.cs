using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;

namespace CeramicOptics.Characterization.Photographs;

/// <summary>Colours of a tooth from a photograph that shows a reference chart with known colours beside it.</summary>
/// <remarks>
/// Terms of the linear channels (<see cref="CorrectionMethod"/>) are fitted to the chart's tristimulus values by least
/// squares. Every patch of the chart is predicted from all others. Unless a method is asked for, the simplest one is
/// used that the chart supports: the one with the fewest terms whose mean CIEDE2000 of these predictions is within one
/// standard error of the smallest mean (Breiman et al. 1984, Classification and Regression Trees).
/// </remarks>
public static class PhotographCharacterization
{
    // The errors of the nearest half of the chart, but of so many at least, give the uncertainty of a colour. Fewer
    // give too little: patches of paint are more like one another than a tooth of the same colour is like them.
    private const int FewestNeighbours = 8;

    // Modified z-score above which a value counts as an outlier (Iglewicz, Hoaglin 1993).
    private const double OutlierScore = 3.5, NormalQuartile = 0.6745;

    // Beyond any colour; a prediction outside says that the fit does not determine the patch.
    private const double LargestColor = 1e4;

    private static readonly CameraChannel[] Channels = [CameraChannel.Red, CameraChannel.Green, CameraChannel.Blue];

    /// <summary>Finds the colour of every patch of the tooth.</summary>
    /// <param name="photograph">Readings of chart and tooth.</param>
    /// <param name="options">How; the default options when null.</param>
    /// <returns>Colours with uncertainties, leave-one-out errors and findings.</returns>
    /// <exception cref="ArgumentException">
    /// Fewer than 6 patches of the chart are free of clipping, the method asked for has as many terms as there are
    /// patches, or the chart does not determine it.
    /// </exception>
    public static PhotographResult Find(Photograph photograph, PhotographOptions? options = null)
    {
        Guard.NotNull(photograph);
        options ??= new PhotographOptions();
        List<PhotographFinding> findings = [];
        if (!photograph.Curve.IsLinear)
        {
            findings.Add(new PhotographFinding(
                PhotographFindingKind.DisplayValues, photograph.Curve.Name, photograph.Curve.Exponent));
        }

        List<ChartPatch> chart = [];
        foreach (ChartPatch patch in photograph.Chart)
        {
            if (patch.Reading.ClippedChannel(options.ClippedBelow, options.ClippedAbove) is { } channel)
            {
                findings.Add(new PhotographFinding(
                    PhotographFindingKind.ClippedChartPatch, patch.Reading.Name, patch.Reading.Mean[channel], channel));
            }
            else
            {
                chart.Add(patch);
            }
        }

        if (chart.Count < Photograph.FewestChartPatches)
        {
            throw new ArgumentException(
                $"At least {Photograph.FewestChartPatches} patches of the chart must be free of clipping "
                + $"but {chart.Count} of {photograph.Chart.Count} are; change the exposure.",
                nameof(photograph));
        }

        Candidate[] candidates = [.. (options.Method is { } asked ? [asked] : CorrectionTerms.Methods)
            .Select(method => Evaluate(method, chart, photograph, options))];
        Candidate best = Simplest(candidates)
            ?? throw new ArgumentException(NotDetermined(options.Method, chart.Count), nameof(photograph));
        if (3 * best.Evaluation.Terms > 2 * chart.Count)
        {
            findings.Add(new PhotographFinding(
                PhotographFindingKind.FewPatchesForTerms, value: (double)chart.Count / best.Evaluation.Terms));
        }

        findings.AddRange(ChartFindings(best));
        PhotographedColor[] colors = [.. photograph.Patches.Select(patch => ColorOf(patch, photograph, options, best))];
        findings.AddRange(colors.SelectMany(color => color.Findings));
        return new PhotographResult(
            photograph.Under,
            best.Evaluation,
            candidates.Select(candidate => candidate.Evaluation),
            best.Chart,
            colors,
            findings);
    }

    private static Candidate Evaluate(
        CorrectionMethod method, List<ChartPatch> chart, Photograph photograph, PhotographOptions options)
    {
        int terms = CorrectionTerms.Of(method).Count;
        bool isAsked = options.Method is not null;
        if (isAsked ? terms >= chart.Count : 3 * terms > 2 * chart.Count)
        {
            return new Candidate(new CorrectionEvaluation(method, CorrectionStatus.TooFewPatches, null), null, []);
        }

        Xyz white = photograph.Under.White;
        ColorCorrection? correction = ColorCorrection.Fit(
            method,
            [.. chart.Select(patch => patch.Reading.Mean.Map(photograph.Curve.ToLinear))],
            [.. chart.Select(patch => patch.Known.ToXyz(white))],
            options.Regularization);
        Lab[] leftOut = [.. (correction?.LeftOut ?? []).Select(xyz => Lab.FromXyz(xyz, white))];
        if (correction is null || !Array.TrueForAll(leftOut, IsColor))
        {
            return new Candidate(new CorrectionEvaluation(method, CorrectionStatus.NotDetermined, null), null, []);
        }

        ChartError[] errors = [.. chart.Select((patch, i) => new ChartError(patch, leftOut[i]))];
        double[] differences = Array.ConvertAll(errors, error => error.Difference);
        return new Candidate(
            new CorrectionEvaluation(method, CorrectionStatus.Evaluated, differences), correction, errors);
    }

    // The fewest terms with a mean within one standard error of the smallest mean; among as many, the smaller mean.
    private static Candidate? Simplest(Candidate[] candidates)
    {
        Candidate[] judged = [.. candidates.Where(candidate => candidate.Correction is not null)
            .OrderBy(candidate => candidate.Evaluation.MeanDifference)];
        if (judged.Length == 0)
        {
            return null;
        }

        double mean = judged[0].Evaluation.MeanDifference!.Value, n = judged[0].Chart.Count;
        double error = Math.Sqrt(judged[0].Chart.Sum(patch => Squared(patch.Difference - mean)) / (n * (n - 1)));
        return judged.Where(candidate => candidate.Evaluation.MeanDifference <= mean + error)
            .OrderBy(candidate => candidate.Evaluation.Terms).First();
    }

    private static IEnumerable<PhotographFinding> ChartFindings(Candidate best)
    {
        if (best.Evaluation.MeanDifference > ColorCriterion.AcceptabilityThreshold.Limit)
        {
            yield return new PhotographFinding(
                PhotographFindingKind.LargeChartError, value: best.Evaluation.MeanDifference);
        }

        // A squared difference is a sum of three squares; its cube root is nearly normal (Wilson, Hilferty 1931).
        static double Normal(ChartError error) => Math.Pow(error.Difference, 2.0 / 3);
        double median = Median(best.Chart.Select(Normal));
        double spread = Median(best.Chart.Select(error => Math.Abs(Normal(error) - median)));
        foreach (ChartError error in best.Chart)
        {
            if (NormalQuartile * (Normal(error) - median) > OutlierScore * spread
                && error.Difference > ColorCriterion.AcceptabilityThreshold.Limit)
            {
                yield return new PhotographFinding(
                    PhotographFindingKind.OutlyingChartPatch, error.Patch.Reading.Name, error.Difference);
            }
        }
    }

    private static PhotographedColor ColorOf(
        PatchReading patch, Photograph photograph, PhotographOptions options, Candidate best)
    {
        List<PhotographFinding> findings = [];
        if (patch.ClippedChannel(options.ClippedBelow, options.ClippedAbove) is { } clipped)
        {
            findings.Add(new PhotographFinding(
                PhotographFindingKind.ClippedChannel, patch.Name, patch.Mean[clipped], clipped));
            return new PhotographedColor(patch.Name, photograph.Under, default, default, findings);
        }

        CameraRgb linear = patch.Mean.Map(photograph.Curve.ToLinear);
        Xyz xyz = best.Correction!.Apply(linear);
        Lab color = Lab.FromXyz(xyz, photograph.Under.White);
        double outside = ChartGamut.DistanceOutside(color, [.. best.Chart.Select(error => error.Patch.Known)]);
        if (outside > 0)
        {
            findings.Add(new PhotographFinding(PhotographFindingKind.OutsideChartGamut, patch.Name, outside));
        }

        if (patch.PixelDeviation is null)
        {
            findings.Add(new PhotographFinding(PhotographFindingKind.NoiseNotGiven, patch.Name));
        }

        Lab variance = ChartVariance(color, linear, best);
        foreach (CameraChannel channel in Channels)
        {
            double light = photograph.Curve.Slope(patch.Mean[channel]) * patch.MeanUncertainty(channel);
            Lab step = LabStep(xyz, best.Correction.Slope(linear, channel), photograph.Under.White);
            variance = new Lab(
                variance.L + Squared(light * step.L),
                variance.A + Squared(light * step.A),
                variance.B + Squared(light * step.B));
        }

        ColorDeviation uncertainty = ColorDeviation.OfVariances(variance.L, variance.A, variance.B);
        return new PhotographedColor(patch.Name, photograph.Under, color, uncertainty, findings);
    }

    // Mean square of the leave-one-out errors of the nearest patches, each brought from its own leverage to the
    // colour's, as the variance of Student's t (JCGM 101:2008, 6.4.9.4).
    private static Lab ChartVariance(Lab color, CameraRgb linear, Candidate best)
    {
        int[] nearest = [.. Enumerable.Range(0, best.Chart.Count)
            .OrderBy(i => ColorDifference.Cie76(best.Chart[i].Patch.Known, color))
            .Take(Math.Max(FewestNeighbours, best.Chart.Count / 2))];
        double own = 1 + best.Correction!.LeverageOf(linear), n = nearest.Length, l = 0, a = 0, b = 0;
        foreach (int i in nearest)
        {
            (Lab known, Lab leftOut) = (best.Chart[i].Patch.Known, best.Chart[i].LeftOut);
            double share = own * (1 - best.Correction.Leverages[i]) / (n - 2);
            l += share * Squared(leftOut.L - known.L);
            a += share * Squared(leftOut.A - known.A);
            b += share * Squared(leftOut.B - known.B);
        }

        return new Lab(l, a, b);
    }

    private static Lab LabStep(Xyz xyz, Xyz step, Xyz white)
    {
        double x = Lab.FSlope(xyz.X / white.X) * step.X / white.X;
        double y = Lab.FSlope(xyz.Y / white.Y) * step.Y / white.Y;
        double z = Lab.FSlope(xyz.Z / white.Z) * step.Z / white.Z;
        return new Lab(116 * y, 500 * (x - y), 200 * (y - z));
    }

    private static string NotDetermined(CorrectionMethod? asked, int patches)
    {
        CorrectionMethod method = asked ?? CorrectionMethod.Linear;
        int terms = CorrectionTerms.Of(method).Count;
        return terms >= patches
            ? $"{method} has {terms} terms and needs at least {terms + 1} patches of the chart free of clipping, "
                + $"but there are {patches}."
            : $"The chart does not determine the {terms} terms of {method}: its colours repeat, or lie in a plane. "
                + "Use a chart of more varied colours.";
    }

    private static bool IsColor(Lab color) =>
        Math.Abs(color.L) <= LargestColor && Math.Abs(color.A) <= LargestColor && Math.Abs(color.B) <= LargestColor;

    private static double Median(IEnumerable<double> values)
    {
        double[] sorted = [.. values.OrderBy(value => value)];
        return (sorted[(sorted.Length - 1) / 2] + sorted[sorted.Length / 2]) / 2;
    }

    private static double Squared(double value) => value * value;

    private sealed record Candidate(
        CorrectionEvaluation Evaluation, ColorCorrection? Correction, IReadOnlyList<ChartError> Chart);
}
