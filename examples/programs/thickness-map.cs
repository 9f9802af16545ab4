#:package CeramicOptics@0.2.0
#:package ScottPlot@5.1.59

// A veneer on a core, both of varying thickness: difference at every pair, and the recommended core under each veneer.
// Invented materials.
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

string output = args.Length > 0 ? args[0] : "thickness-map.png";
WavelengthGrid grid = WavelengthGrid.Range(380, 780, 10);
Material Uniform(string name, double k, double s, double index) => new(
    name, TransportModel.Default, AbsorptionSpectrum.Uniform(grid, k), ScatteringSpectrum.Uniform(grid, s), index,
    CoefficientUncertainty.OfScale(grid, 0.05));
Substrate stump = Substrate.FromMeasuredReflectance(
    "dark stump", ReflectanceSpectrum.Uniform(grid, 0.12), 1.54,
    MeasurementGeometry.DiffuseSpecularIncluded, area: ReadingArea.Large);
Restoration crown = new(
    [new Zone("body", stump, availableMm: 1, MaskingReference.SelfBacked)],
    new Ceramic("invented core", 1,
    Uniform("core", 0.12, 12, 1.55)) { Strength = StrengthLimit.Of(0.8, StrengthScope.CoreAndVeneer) },
    new Layer(Uniform("cement", 0.03, 1.2, 1.52), 0.05),
    ColorCriterion.AcceptabilityThreshold)
{
    Veneer = Veneer.OfShare(Uniform("veneer", 0.05, 3.5, 1.53), 0.5),
};
ThicknessRange veneerMm = new(0.2, 1.2), coreMm = new(0.2, 2.0);
TwoLayerResponse response = TwoLayerResponse.Compile(crown, crown.Zones[0], veneerMm, coreMm);

const int Columns = 1000, Rows = 600;
double[] upper = new double[Columns * Rows], lower = new double[upper.Length], differences = new double[upper.Length];
for (int i = 0; i < upper.Length; i++)
{
    upper[i] = veneerMm.MinMm + ((veneerMm.MaxMm - veneerMm.MinMm) * (i % Columns) / (Columns - 1));
    lower[i] = coreMm.MaxMm - ((coreMm.MaxMm - coreMm.MinMm) * (i / Columns) / (Rows - 1));
}

TwoLayerMap map = new([response]);
map.Differences(upper, lower, differences);
Console.WriteLine($"{upper.Length} points, each within {response.ErrorBound:0.000}");
double[] shown = [0.2, 0.6, 1.0];
foreach (double mm in shown)
{
    Console.WriteLine($"core under {mm:0.0} mm of veneer: {response.CoreRequirementAt(mm).Minimum}");
}

foreach (Caution caution in shown.SelectMany(mm => response.CoreRequirementAt(mm).Cautions).Distinct())
{
    Console.WriteLine($"! {caution}");
}

double[,] picture = new double[Rows, Columns];
for (int i = 0; i < differences.Length; i++)
{
    picture[i / Columns, i % Columns] = differences[i];
}

ScottPlot.Plot plot = new();
ScottPlot.Plottables.Heatmap heat = plot.Add.Heatmap(picture);
(heat.Position, heat.Colormap) = (
    new ScottPlot.CoordinateRect(veneerMm.MinMm, veneerMm.MaxMm, coreMm.MinMm, coreMm.MaxMm),
    new ScottPlot.Colormaps.Deep());
plot.Add.ColorBar(heat).Label = "difference, CIEDE2000";
double[] veneers = [.. Enumerable.Range(0, 101).Select(
    i => veneerMm.MinMm + ((veneerMm.MaxMm - veneerMm.MinMm) * i / 100))];
double[] cores = [.. veneers.Select(mm => response.CoreRequirementAt(mm).Minimum.RecommendedMm ?? double.NaN)];
ScottPlot.Plottables.Scatter limit = plot.Add.ScatterLine(veneers, cores, ScottPlot.Colors.DarkOrange);
(limit.LineWidth, limit.LegendText) = (3, "recommended above this line");
plot.Title("Veneer on core over an invented dark stump");
plot.XLabel("veneer, mm");
plot.YLabel("core, mm");
plot.Axes.SetLimits(veneerMm.MinMm, veneerMm.MaxMm, coreMm.MinMm, coreMm.MaxMm);
plot.ShowLegend(ScottPlot.Alignment.UpperRight);
plot.SavePng(output, 900, 620);
Console.WriteLine($"written: {output}");
