#:package CeramicOptics@0.2.0
#:package ScottPlot@5.1.59

// Forty crowns of an invented laboratory whose walls come out thick and whose batch scatters more than its disc: what
// the first twenty teach, the next twenty predicted as given and corrected, and a drift that is noticed.
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Decisions.Delivered;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;
using ScottPlot;

const int Learned = 20;
string output = args.Length > 0 ? args[0] : "delivered-work.png";
WavelengthGrid grid = WavelengthGrid.Range(400, 700, 20);
Random random = new(4);
Material Body(string name, double absorption, double scattering, double relative) => new(
    name, TransportModel.Default,
    new AbsorptionSpectrum(
        grid, [.. Enumerable.Range(0, grid.Count).Select(i => absorption * (1 + (6 * Math.Exp(-i / 4.0))))]),
    ScatteringSpectrum.Uniform(grid, scattering), 1.53, CoefficientUncertainty.OfScale(grid, relative));
Substrate Stump(string name, double blue, double red) => Substrate.FromMeasuredReflectance(
    name,
    new ReflectanceSpectrum(
        grid, [.. Enumerable.Range(0, grid.Count).Select(i => blue + ((red - blue) * i / (grid.Count - 1)))]),
    1.54, MeasurementGeometry.DiffuseSpecularIncluded, area: ReadingArea.Large);
Substrate[] stumps = [Stump("light", 0.3, 0.55), Stump("brown", 0.14, 0.4), Stump("dark", 0.08, 0.16)];
Material ceramic = Body("ceramic", 0.03, 5, 0.04), cement = Body("cement", 0.02, 1, 0.1);
Material batch = Body("as fired", 0.034, 5.4, 0);
Restoration PlanOf(string stump, double wallMm) => new(
    [new Zone("body", stumps.Single(one => one.Name == stump), wallMm, MaskingReference.SelfBacked)],
    new Ceramic("invented ceramic", 1, ceramic), new Layer(cement, 0.05), ColorCriterion.AcceptabilityThreshold);
Lab Under(LayerStack stack) => Colorimeter.D65TwoDegree.ToLab(stack.Reflectance());
ColorReading Reading(Lab color) =>
    ColorReading.FromColor(color, Colorimeter.D65TwoDegree, MeasurementGeometry.DiffuseSpecularIncluded);
double Normal(double deviation) => deviation * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble()))
    * Math.Cos(2 * Math.PI * random.NextDouble());

DeliveredRecord record = DeliveredRecord.Start("invented laboratory");
for (int i = 1; i <= 2 * Learned; i++)
{
    double wallMm = Math.Round(0.6 + (0.8 * random.NextDouble()), 2);
    Substrate stump = stumps[random.Next(stumps.Length)];
    Layer[] made = [new Layer(batch, wallMm + 0.05 + Normal(0.02)), new Layer(cement, 0.06 + Normal(0.01))];
    Lab color = Under(new LayerStack(made, stump));

    // From crown 31 on the furnace runs hot.
    double hot = i > 30 ? -1.5 : 0;
    record = record.Append(new DeliveredPiece(
        $"crown {i}", new DateTime(2026, 1, 5).AddDays(i), ceramic.Name, "A", wallMm, stump.Name,
        Reading(Under(PlanOf(stump.Name, wallMm).StackOver(stump, wallMm))),
        Reading(new Lab(color.L + hot + Normal(0.2), color.A + Normal(0.2), color.B + Normal(0.2))))
    {
        Cement = cement.Name,
        Furnace = "furnace 1",
    });
}

DeliveredRecord first = DeliveredRecord.Start(record.Name).Append(record.Pieces.Take(Learned));
CorrectionResult result = Correction.Find(first, piece => PlanOf(piece.Stump, piece.WallMm));
Console.WriteLine(result);
foreach (CorrectedQuantity quantity in result.Quantities)
{
    Console.WriteLine($"  {quantity}");
}

foreach (CorrectionFinding finding in result.Findings)
{
    Console.WriteLine($"! {finding}");
}

DriftResult drift = Drift.Find(record, piece => PlanOf(piece.Stump, piece.WallMm));
Console.WriteLine(drift);
foreach (DriftPoint alarm in drift.Alarms)
{
    Console.WriteLine($"  {alarm}");
}

CorrectedPrediction[] predictions = [.. record.Pieces.Select(
    piece => result.PredictionFor(PlanOf(piece.Stump, piece.WallMm), piece.Batch, piece.Furnace))];
Multiplot picture = new();
picture.AddPlots(2);
picture.Layout = new ScottPlot.MultiplotLayouts.Columns();
Plot agreement = picture.GetPlot(0), chart = picture.GetPlot(1);
int[] next = [.. Enumerable.Range(Learned, 30 - Learned)], known = [.. Enumerable.Range(0, Learned)];
void Points(string name, IEnumerable<int> pieces, Func<int, Lab> predicted, MarkerShape shape,
    Color color)
{
    ScottPlot.Plottables.Scatter points = agreement.Add.ScatterPoints(
        pieces.Select(i => predicted(i).L).ToArray(), pieces.Select(i => record.Pieces[i].ReadColor.L).ToArray(),
        color);
    (points.LegendText, points.MarkerShape, points.MarkerSize) = (name, shape, 8);
}

Points("learned from, as given", known, i => predictions[i].AsGiven, MarkerShape.OpenCircle,
    Colors.Gray);
Points("next ten, as given", next, i => predictions[i].AsGiven, MarkerShape.FilledDiamond,
    Colors.DarkOrange);
Points("next ten, corrected", next, i => predictions[i].Color, MarkerShape.FilledCircle,
    Colors.SteelBlue);
double low = record.Pieces.Min(piece => piece.ReadColor.L) - 1;
double high = record.Pieces.Max(piece => piece.ReadColor.L) + 1;
agreement.Add.Line(low, low, high, high).LineColor = Colors.Black;
agreement.Axes.SetLimits(low, high, low, high);
agreement.Title("Predicted against delivered; invented crowns");
agreement.XLabel("L* predicted");
agreement.YLabel("L* read");
agreement.ShowLegend(Alignment.UpperLeft);

double[] numbers = [.. Enumerable.Range(1, record.Pieces.Count).Select(i => (double)i)];
ScottPlot.Plottables.Scatter statistic = chart.Add.Scatter(
    numbers, drift.Points.Select(point => point.Statistic).ToArray(), Colors.SteelBlue);
(statistic.LegendText, statistic.LineWidth) = ("moving average of unexpected deviations", 2);
chart.Add.HorizontalLine(drift.Limit, 1.5f, Colors.DarkOrange, LinePattern.Dashed).LegendText =
    $"alarm; false once in {drift.AverageRunLength:0} pieces";
chart.Add.VerticalLine(30.5, 1.5f, Colors.Gray, LinePattern.Dotted).LegendText =
    "from here on 1.5 darker";
chart.Title("Drift");
chart.XLabel("crown");
chart.YLabel("squared length, in units of its variance");
chart.Axes.SetLimitsY(0, 1.15 * Math.Max(drift.Limit, drift.Points.Max(point => point.Statistic)));
chart.ShowLegend(Alignment.UpperLeft);
picture.SavePng(output, 1100, 520);
Console.WriteLine($"written: {output}");
