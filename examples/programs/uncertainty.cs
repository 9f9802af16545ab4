#:package CeramicOptics@0.1.0
#:package ScottPlot@5.1.59

// How probable it is that a crown of planned thickness hides the stump, and what would help most. Invented materials.
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Selection;
using CeramicOptics.Spectra;

string output = args.Length > 0 ? args[0] : "uncertainty.png";
WavelengthGrid grid = WavelengthGrid.Range(380, 780, 10);
Material ceramic = new(
    "ceramic", AbsorptionSpectrum.Uniform(grid, 0.08), ScatteringSpectrum.Uniform(grid, 5), 1.53,
    CoefficientUncertainty.OfScale(grid, 0.05));
Layer cement = new(
    new Material("cement", AbsorptionSpectrum.Uniform(grid, 0.03), ScatteringSpectrum.Uniform(grid, 0.9), 1.52), 0.05);
Substrate stump = Substrate.FromMeasuredReflectance("dark stump", ReflectanceSpectrum.Uniform(grid, 0.15), 1.54);
LayerStack crown = new([new Layer(ceramic, 1), cement], stump);
InputUncertainty inputs = new([0.05, 0.02]) { StumpReflectance = 0.02 };
MaskingReference reference = MaskingReference.SelfBacked;
ColorCriterion criterion = ColorCriterion.AcceptableMatch;

double[] thicknesses = [.. Enumerable.Range(0, 41).Select(i => 0.6 + (0.025 * i))];
UncertaintyResult[] results = [.. thicknesses.Select(
    mm => PredictionUncertainty.Sample(crown.WithThickness(0, mm), 0, reference, criterion, inputs, samples: 4096,
    seed: 1))];
ToleranceResult tolerance = ToleranceThickness.Find(crown, 0, (0.3, 3), reference, criterion, inputs);
Console.WriteLine($"hides the stump acceptably: {tolerance}");
UncertaintyResult planned = results[Array.FindIndex(thicknesses, mm => mm >= 0.999)];
Console.WriteLine(
    $"at 1.0 mm: difference {planned.Difference:0.00}, 95 % between {planned.Interval95.Low:0.00} and "
        + $"{planned.Interval95.High:0.00}, acceptable with {100 * planned.Acceptable.Value:0} % probability");
foreach (
    Contribution part in planned.Contributions.Where(part => part.Share > 0.005).OrderByDescending(part => part.Share))
{
    Console.WriteLine($"  {100 * part.Share,3:0} %  {part.Input}");
}

foreach (Caution caution in tolerance.Cautions)
{
    Console.WriteLine($"! {caution.Text}");
}

ScottPlot.Plot plot = new();
plot.Add.FillY(
    thicknesses, [.. results.Select(result => result.Interval95.Low)],
    [.. results.Select(result => result.Interval95.High)]).FillColor = ScottPlot.Colors.SteelBlue.WithAlpha(.25);
plot.Add.ScatterLine(thicknesses, [.. results.Select(result => result.Difference)],
    ScottPlot.Colors.SteelBlue).LegendText = "predicted difference, 95 % of outcomes";
ScottPlot.Plottables.Scatter probability = plot.Add.ScatterLine(
    thicknesses, [.. results.Select(result => 100 * result.Acceptable.Value)], ScottPlot.Colors.DarkOrange);
(probability.LegendText, probability.LineWidth, probability.Axes.YAxis) = (
    "probability of an acceptable match (right)", 2, plot.Axes.Right);
plot.Add.HorizontalLine(criterion.Limit, 1, ScottPlot.Colors.Gray, ScottPlot.LinePattern.Dashed);
plot.Title("How sure a masking thickness is; invented materials");
plot.XLabel("thickness of the ceramic, mm");
plot.YLabel("CIEDE2000 to the infinitely thick");
plot.Axes.Right.Label.Text = "probability, %";
plot.Axes.SetLimitsX(0.6, 1.6);
plot.Axes.SetLimitsY(0, 8);
plot.Axes.SetLimitsY(0, 100, plot.Axes.Right);
plot.ShowLegend(ScottPlot.Alignment.MiddleRight);
plot.SavePng(output, 900, 480);
Console.WriteLine($"written: {output}");
