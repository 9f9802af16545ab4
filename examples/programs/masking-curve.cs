#:package CeramicOptics@0.1.0
#:package ScottPlot@5.1.59

// Difference to the infinitely thick ceramic against thickness over two stumps, with the band of one standard
// uncertainty. Invented materials.
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Selection;
using CeramicOptics.Spectra;

string output = args.Length > 0 ? args[0] : "masking-curve.png";
WavelengthGrid grid = WavelengthGrid.Range(380, 780, 10);
Material ceramic = new(
    "ceramic",
    new AbsorptionSpectrum(grid, [.. Enumerable.Range(0, grid.Count).Select(i => 0.05 + (0.25 * Math.Exp(-i / 10.0)))]),
    ScatteringSpectrum.Uniform(grid, 6), 1.53, CoefficientUncertainty.OfScale(grid, 0.06));
Layer cement = new(
    new Material("cement", AbsorptionSpectrum.Uniform(grid, 0.03), ScatteringSpectrum.Uniform(grid, 0.9), 1.52), 0.05);
Substrate Stump(string name, double blue, double red) => Substrate.FromMeasuredReflectance(
    name,
    new ReflectanceSpectrum(grid,
    [.. Enumerable.Range(0, grid.Count).Select(i => blue + ((red - blue) * i / (grid.Count - 1)))]), 1.54);
Substrate[] stumps = [Stump("nearly black tooth", 0.08, 0.16), Stump("brown tooth", 0.14, 0.42)];
ViewingConditions conditions = new() { Colorimeters = [Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree],
    StructuralMinimumMm = 0.5 };
double[] thicknesses = [.. Enumerable.Range(0, 111).Select(i => 0.3 + (0.02 * i))];

ScottPlot.Plot plot = new();
ScottPlot.Color[] colors = [ScottPlot.Colors.Black, ScottPlot.Colors.SaddleBrown];
for (int s = 0; s < stumps.Length; s++)
{
    LayerStack crown = new([new Layer(ceramic, 1), cement], stumps[s]);
    MaskingResult masking = MaskingThickness.Find(
        crown, 0, (0.3, 2.5), MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch, conditions);
    Console.WriteLine(
        $"{stumps[s].Name}: masked from {masking.RecommendedMinimumMm:0.00} ± "
            + $"{masking.ThicknessStandardUncertaintyMm:0.00} mm on, limited under "
                + $"{masking.Limiting.Colorimeter.Name}");
    foreach (Caution caution in s == 0 ? masking.Cautions : [])
    {
        Console.WriteLine($"! {caution.Text}");
    }

    double[] differences = [.. MaskingThickness.WorstDifferences(
        crown, 0, thicknesses, MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch, [stumps[s]],
        conditions).Select(worst => worst.Difference)];
    ScottPlot.Plottables.Scatter curve = plot.Add.ScatterLine(thicknesses, differences, colors[s]);
    (curve.LegendText, curve.LineWidth) = (stumps[s].Name, 2);
    if (masking.OpticalMinimumMm is double mm && masking.ThicknessStandardUncertaintyMm is double u)
    {
        plot.Add.HorizontalSpan(mm - u, mm + u, colors[s].WithAlpha(.15));
    }
}

foreach (ColorCriterion criterion in new[] { ColorCriterion.AcceptableMatch, ColorCriterion.ImperceptibleMatch })
{
    plot.Add.HorizontalLine(criterion.Limit, 1, ScottPlot.Colors.SteelBlue,
        ScottPlot.LinePattern.Dashed).LegendText = criterion.ToString();
}

plot.Title("Invented ceramic over two invented stumps; bands: ± one standard uncertainty of the masking thickness");
plot.Axes.Title.Label.FontSize = 13;
plot.XLabel("thickness of the ceramic, mm");
plot.YLabel("largest CIEDE2000 under D65 and A");
plot.Axes.SetLimits(0.3, 2.5, 0, 10);
plot.ShowLegend(ScottPlot.Alignment.UpperRight);
plot.SavePng(output, 900, 520);
Console.WriteLine($"written: {output}");
