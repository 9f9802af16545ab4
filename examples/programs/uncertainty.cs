#:package CeramicOptics@0.2.0
#:package ScottPlot@5.1.59

// How probable it is that a crown of planned thickness hides the stump, and what would help most. Invented materials.
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

string output = args.Length > 0 ? args[0] : "uncertainty.png";
WavelengthGrid grid = WavelengthGrid.Range(380, 780, 10);
Material Body(string name, double absorption, double scattering, double index, double relative) => new(
    name, TransportModel.Default, AbsorptionSpectrum.Uniform(grid, absorption),
    ScatteringSpectrum.Uniform(grid, scattering), index, CoefficientUncertainty.OfScale(grid, relative));
Substrate stump = Substrate.FromMeasuredReflectance(
    "dark stump", ReflectanceSpectrum.Uniform(grid, 0.15), 1.54,
    MeasurementGeometry.DiffuseSpecularIncluded, area: ReadingArea.Large);
Restoration crown = new(
    [new Zone("body", stump, availableMm: 1, MaskingReference.SelfBacked)],
    new Ceramic("invented ceramic", 1, Body("ceramic", 0.08, 8, 1.53, 0.05)) { Strength = StrengthLimit.Of(0.6) },
    new Layer(Body("cement", 0.03, 1.2, 1.52, 0.1), 0.05),
    ColorCriterion.AcceptabilityThreshold)
{
    Uncertainty = new InputUncertainty { CoreMm = 0.05, StumpReflectance = 0.02 },
};

MaskingResult masking = MaskingThickness.Find(crown);
MinimumThickness minimum = masking.Limiting.Minimum;
Console.WriteLine(masking);
UncertaintyResult planned = PredictionUncertainty.Find(crown);
ZonePrediction body = planned.Zones[0];
Console.WriteLine(
    $"at {body.Zone.AvailableMm:0.0} mm: difference {body.Difference:0.00}, 95 % of pieces {body.Interval95}, masked "
        + $"with probability {body.Meets}");
foreach (Contribution part in body.Contributions.Where(part => part.Share > 0.005))
{
    Console.WriteLine($"  {100 * part.Share,3:0} %  {part}");
}

foreach (Caution caution in masking.Cautions.Union(planned.Cautions))
{
    Console.WriteLine($"! {caution}");
}

// One zone for each thickness of the chart; all are answered by one compiled wall.
double[] walls = [.. Enumerable.Range(0, 51).Select(i => 0.6 + (0.02 * i))];
Restoration chart = crown.WithZones(
    walls.Select(mm => new Zone($"{mm:0.00} mm", stump, mm, MaskingReference.SelfBacked)));
IReadOnlyList<ZonePrediction> results =
    PredictionUncertainty.Find(chart, new SamplingOptions { Samples = 4096 }).Zones;

ScottPlot.Plot plot = new();
ScottPlot.Plottables.FillY interval = plot.Add.FillY(
    walls, [.. results.Select(result => result.Interval95.Low)], [.. results.Select(result => result.Interval95.High)]);
(interval.FillColor, interval.LineWidth) = (ScottPlot.Colors.SteelBlue.WithAlpha(.25), 0);
ScottPlot.Plottables.Scatter difference = plot.Add.ScatterLine(
    walls, [.. results.Select(result => result.Difference)], ScottPlot.Colors.SteelBlue);
(difference.LegendText, difference.LineWidth) = ("predicted difference, with 95 % of pieces", 2);
ScottPlot.Plottables.Scatter probability = plot.Add.ScatterLine(
    walls, [.. results.Select(result => 100 * result.Meets.Value)], ScottPlot.Colors.DarkOrange);
(probability.LegendText, probability.LineWidth, probability.Axes.YAxis) = (
    "pieces that hide the stump (right)", 2, plot.Axes.Right);
plot.Add.HorizontalLine(crown.Criterion.Limit, 1.5f, ScottPlot.Colors.Gray, ScottPlot.LinePattern.Dashed).LegendText =
    crown.Criterion.ToString();
if (minimum.ReliableMm is double reliable)
{
    plot.Add.VerticalLine(reliable, 1.5f, ScottPlot.Colors.DarkOrange, ScottPlot.LinePattern.Dotted).LegendText =
        $"reliable: {100 * minimum.Share:0} % of pieces";
}

plot.Title("How certain a masking thickness is; invented materials");
plot.XLabel("thickness of the ceramic, mm");
plot.YLabel("CIEDE2000 from the infinitely thick");
plot.Axes.Right.Label.Text = "pieces that hide the stump, %";
plot.Axes.SetLimitsX(walls[0], walls[^1]);
plot.Axes.SetLimitsY(0, 5);
plot.Axes.SetLimitsY(0, 100, plot.Axes.Right);
plot.ShowLegend(ScottPlot.Alignment.MiddleRight);
plot.SavePng(output, 900, 480);
Console.WriteLine($"written: {output}");
