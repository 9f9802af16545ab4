using CeramicOptics.Characterization;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Layers;
using CeramicOptics.Layers.TwoFlux;

namespace CeramicOptics.Examples.ValidationReport;

/// <summary>
/// Measured oil paints: K and S from readings over black and white, and whether they add in mixtures.
/// </summary>
internal static class PaintMixtures
{
    private const string White = "ZincWhite", Black = "BoneBlack";
    private const double Translucent = 0.01;

    private static readonly CharacterizationOptions TwoFlux = new() { Model = TwoFluxModel.Instance };

    public static void Write(TextWriter report, string path)
    {
        IReadOnlyList<Paint> paints = Paint.Read(path);
        report.WriteLine("\n## Pigments in measured paints\n");
        report.WriteLine(
            "84 oil paints drawn down on cards, read over black and over white (Geldof et al. 2018, Heritage Science "
                + "6:17; data CC0, `tests/reference/paints.csv`).");
        report.WriteLine(
            "They are not dental; they test whether K and S add. The source states neither geometry nor thickness. "
                + "Thickness: every layer counts as one, so K and S are per layer.");
        report.WriteLine(
            "Geometry: de:8°, with which all readings are possible; with di:8° some readings lie below what the "
                + "surface alone returns. Index 1.5, noise 0.003, two-flux theory.");
        WriteInversions(report, paints);
        IReadOnlyList<Mixture> mixtures = [.. MixturesOf(paints, MeasurementGeometry.DiffuseSpecularExcluded)];
        WriteMixtures(report, mixtures);
        IReadOnlyList<Mixture> included = [.. MixturesOf(paints, MeasurementGeometry.DiffuseSpecularIncluded)];
        double[] others = [.. included.SelectMany(one => one.Equal)];
        report.WriteLine(
            "\nReading the table: opaque mineral colours in white are predicted within 1 to 4. Dyes (eosin), the "
                + "strongest "
                + "colour (Prussian blue) and black, carried over to a load several times");
        report.WriteLine(
            "that of the mixture from which it was found, are not: there the coefficients do not add by mass, or the "
                + "films differ. "
                + "Find a stain from layers with loads on both sides of those used, and look");
        report.WriteLine("at chi-square.");
        report.WriteLine(
            $"\nAll of them with di:8° and equal films: mean {others.Average():0.00}, worst {others.Max():0.00}.");
    }

    private static void WriteInversions(TextWriter report, IReadOnlyList<Paint> paints)
    {
        report.WriteLine(
            "\nK and S of each paint that lets more than 1 % of the card through (mean over wavelength of the reading "
                + "over white less that over black), at 31 wavelengths:\n");
        report.WriteLine("| paint | components, % | contrast | determined | findings |\n|---|---|---|---|---|");
        foreach (Paint paint in paints.Where(paint => paint.Contrast > Translucent))
        {
            CharacterizationResult result = DiscCharacterization.Find(
                paint.Discs(MeasurementGeometry.DiffuseSpecularExcluded), TwoFlux);
            int open = result.Findings.Count(finding => !finding.IsDetermined);
            string findings = string.Join(", ", result.Findings.GroupBy(finding => finding.Kind)
                .Select(group => $"{group.Key} {group.Count()}"));
            report.WriteLine(
                $"| {paint.Name} | {Recipe(paint)} | {paint.Contrast:0.000} | {paint.OverBlack.Grid.Count - open} | "
                    + $"{(findings.Length > 0 ? findings : "none")} |");
        }
    }

    private static void WriteMixtures(TextWriter report, IReadOnlyList<Mixture> mixtures)
    {
        report.WriteLine(
            "\nMixtures predicted. A colour in zinc white: K and S of both from the pure paints and one mixture, "
                + "together with one strength for the pair, by which a share of the");
        report.WriteLine(
            "mass becomes a share of the layer; another mixture is then predicted over black and over white. Black, of "
                + "which there is no pure paint: K and S from the pure base");
        report.WriteLine(
            "and the mixture with the least of it, without a strength. First with all films equally thick; then with "
                + "the thickness of the predicted film fitted too, since films drawn by");
        report.WriteLine(
            "hand differ. Open: number of wavelengths at which the layers do not determine K and S of the pigment, "
                + "mostly because they hide the card. The library refuses such a pigment; here the");
        report.WriteLine("best fit is used all the same. A film fitted where the paint hides the card has no meaning. "
            + "No case is left out.\n");
        report.WriteLine(
            "| pigment in base | fitted on | strength | open | predicted | over black | over white | film fitted | "
                + "over black "
                + "| over white |\n|---|---|---|---|---|---|---|---|---|---|");
        foreach (Mixture one in mixtures)
        {
            report.WriteLine(
                $"| {one.Pair} | {one.FittedOn} | {(one.Strength is double strength ? $"{strength:0.00}" : "")} | "
                    + $"{one.Open} | {one.Predicted} | {one.Equal[0]:0.00} | {one.Equal[1]:0.00} | {one.Film:0.00} | "
                    + $"{one.Fitted[0]:0.00} | {one.Fitted[1]:0.00} |");
        }

        report.WriteLine("\n| all of these | predictions | mean | 95th percentile | maximum |");
        report.WriteLine("|---|---|---|---|---|");
        foreach (bool isBlack in new[] { false, true })
        {
            Mixture[] some = [.. mixtures.Where(one => one.Strength is null == isBlack)];
            string what = isBlack ? "black" : "colours in white";
            report.WriteLine(Differences.Row($"{what}, equal films", [.. some.SelectMany(one => one.Equal)]));
            Mixture[] known = [.. some.Where(one => one.Open <= 2)];
            report.WriteLine(Differences.Row(
                $"{what}, equal films, at most two wavelengths open", [.. known.SelectMany(one => one.Equal)]));
            report.WriteLine(Differences.Row($"{what}, film fitted", [.. some.SelectMany(one => one.Fitted)]));
        }
    }

    private static IEnumerable<Mixture> MixturesOf(IReadOnlyList<Paint> paints, MeasurementGeometry geometry)
    {
        Paint white = paints.First(paint => paint.ShareOf(White) == 1);
        foreach (Paint pure in paints.Where(paint => paint.Shares.Count == 1))
        {
            string component = pure.Shares.Keys.Single();
            Paint[] In(string other) => [.. paints.Where(paint => paint.Shares.Count == 2
                && paint.ShareOf(component) > 0 && paint.ShareOf(other) > 0)];
            Paint[] inWhite = component == White ? [] : In(White);
            foreach (Paint fittedOn in inWhite.Where(_ => inWhite.Length > 1))
            {
                foreach (Mixture one in Predict(
                    white, pure, component, fittedOn, [.. inWhite.Where(paint => paint != fittedOn)], geometry))
                {
                    yield return one;
                }
            }

            Paint[] withBlack = [.. In(Black).OrderBy(paint => paint.ShareOf(Black))];
            if (withBlack.Length > 1)
            {
                foreach (Mixture one in Predict(pure, null, Black, withBlack[0], withBlack[1..], geometry))
                {
                    yield return one;
                }
            }
        }
    }

    private static IEnumerable<Mixture> Predict(
        Paint basePaint, Paint? pure, string pigment, Paint fittedOn, Paint[] predicted, MeasurementGeometry geometry)
    {
        PigmentResult Find(double strength)
        {
            double Share(Paint paint) => ShareOf(paint.ShareOf(pigment), strength);
            List<Drawdown> layers = [.. new[] { basePaint, fittedOn, pure }.OfType<Paint>().Select(paint =>
                new Drawdown(Share(paint), paint.Discs(geometry)) { CarrierShare = 1 - Share(paint) })];
            return PigmentCharacterization.Find(pigment, layers, options: TwoFlux);
        }

        double Misfit(double log)
        {
            return Find(Math.Exp(log)).Points.Sum(point => point.ChiSquare);
        }

        double strength = pure is null ? 1 : Math.Exp(Smallest(Misfit, Math.Log(0.05), Math.Log(20)));
        PigmentResult result = Find(strength);
        string pair = $"{pigment} in {basePaint.Shares.Keys.Single()}";
        int open = result.Findings.Count(finding => !finding.IsDetermined);
        foreach (Paint paint in predicted)
        {
            string name = $"{paint.Name} ({100 * paint.ShareOf(pigment):0.#} %)";
            string from = $"{fittedOn.Name} ({100 * fittedOn.ShareOf(pigment):0.#} %)";
            double share = ShareOf(paint.ShareOf(pigment), strength);
            Material mixed = Mix(result, share);
            double film = Math.Exp(Smallest(log => Residual(paint, mixed, Math.Exp(log), geometry), -2, 2));
            yield return new Mixture(
                pair, from, pure is null ? null : strength, name, open, Differ(paint, mixed, 1, geometry), film,
                Differ(paint, mixed, film, geometry));
        }
    }

    // A strength of one leaves a share of the mass as it is.
    private static double ShareOf(double massShare, double strength) =>
        massShare / (massShare + ((1 - massShare) / strength));

    private static Material Mix(PigmentResult result, double share)
    {
        double[] k = [.. result.Points.Select(point =>
            ((1 - share) * point.CarrierAbsorption) + (share * point.Absorption))];
        double[] s = [.. result.Points.Select(point =>
            ((1 - share) * point.CarrierScattering) + (share * point.Scattering))];
        return new Material(
            "mixture", result.Model, new Spectra.AbsorptionSpectrum(result.Grid, k),
            new Spectra.ScatteringSpectrum(result.Grid, s), result.Drawdowns[0].Layer.RefractiveIndex);
    }

    private static double[] Differ(Paint paint, Material mixed, double film, MeasurementGeometry geometry) =>
    [
        ColorDifference.Ciede2000(
            Colorimeter.D65TwoDegree.ToLab(paint.OverBlack),
            Colorimeter.D65TwoDegree.ToLab(paint.On("bare_black", mixed, film, geometry).Reflectance(geometry))),
        ColorDifference.Ciede2000(
            Colorimeter.D65TwoDegree.ToLab(paint.OverWhite),
            Colorimeter.D65TwoDegree.ToLab(paint.On("bare_white", mixed, film, geometry).Reflectance(geometry))),
    ];

    private static double Residual(Paint paint, Material mixed, double film, MeasurementGeometry geometry)
    {
        Spectra.ReflectanceSpectrum black = paint.On("bare_black", mixed, film, geometry).Reflectance(geometry),
            white = paint.On("bare_white", mixed, film, geometry).Reflectance(geometry);
        return Enumerable.Range(0, black.Grid.Count).Sum(i =>
            Math.Pow(black[i] - paint.OverBlack[i], 2) + Math.Pow(white[i] - paint.OverWhite[i], 2));
    }

    // The best of a coarse scan, then golden sections about it.
    private static double Smallest(Func<double, double> of, double from, double to)
    {
        const int Steps = 12;
        double[] at = [.. Enumerable.Range(0, Steps + 1).Select(i => from + ((to - from) * i / Steps))];
        double[] values = [.. at.Select(of)];
        int best = Array.IndexOf(values, values.Min());
        (double low, double high) = (at[Math.Max(0, best - 1)], at[Math.Min(Steps, best + 1)]);
        double golden = (Math.Sqrt(5) - 1) / 2;
        while (high - low > 1e-3)
        {
            double a = high - (golden * (high - low)), b = low + (golden * (high - low));
            (low, high) = of(a) < of(b) ? (low, b) : (a, high);
        }

        return (low + high) / 2;
    }

    private static string Recipe(Paint paint) =>
        string.Join(", ", paint.Shares.Select(share => $"{share.Key} {100 * share.Value:0.##}"));

    private sealed record Mixture(
        string Pair, string FittedOn, double? Strength, string Predicted, int Open, double[] Equal, double Film,
        double[] Fitted);
}
