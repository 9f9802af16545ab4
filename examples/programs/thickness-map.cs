#:package CeramicOptics@0.1.0
#:package ScottPlot@5.1.59

// A veneer on a core, both of varying thickness: difference at every pair, and the smallest core that masks under each veneer. Invented materials.
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Mapping;
using CeramicOptics.Selection;
using CeramicOptics.Spectra;

string output = args.Length > 0 ? args[0] : "thickness-map.png";
WavelengthGrid grid = WavelengthGrid.Range(380, 780, 10);
Material veneer = new("veneer", AbsorptionSpectrum.Uniform(grid, 0.05), ScatteringSpectrum.Uniform(grid, 2.5), 1.53, CoefficientUncertainty.OfScale(grid, 0.05));
Material core = new("core", AbsorptionSpectrum.Uniform(grid, 0.12), ScatteringSpectrum.Uniform(grid, 9), 1.55, CoefficientUncertainty.OfScale(grid, 0.05));
Layer cement = new(new Material("cement", AbsorptionSpectrum.Uniform(grid, 0.03), ScatteringSpectrum.Uniform(grid, 0.9), 1.52), 0.05);
Substrate stump = Substrate.FromMeasuredReflectance("dark stump", ReflectanceSpectrum.Uniform(grid, 0.12), 1.54);
LayerStack crown = new([new Layer(veneer, 0.5), new Layer(core, 0.5), cement], stump);
(double Min, double Max) veneerMm = (0.2, 1.2), coreMm = (0.2, 1.2);
TwoLayerResponse response = TwoLayerResponse.Compile(
    crown, 0, veneerMm, 1, coreMm, MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch, new ViewingConditions { StructuralMinimumMm = 0.8 });

const int Columns = 1000, Rows = 600;
double[] upper = new double[Columns * Rows], lower = new double[upper.Length], differences = new double[upper.Length];
for (int i = 0; i < upper.Length; i++)
{
    upper[i] = veneerMm.Min + ((veneerMm.Max - veneerMm.Min) * (i % Columns) / (Columns - 1));
    lower[i] = coreMm.Max - ((coreMm.Max - coreMm.Min) * (i / Columns) / (Rows - 1));
}

TwoLayerMap map = new([response]);
map.Differences(upper, lower, differences);
Console.WriteLine($"{upper.Length} points, each within {response.ErrorBound:0.000}");
foreach (double mm in new[] { 0.2, 0.6, 1.0 })
{
    WallRequirement needs = response.LowerRequirementAt(mm);
    Console.WriteLine($"under {mm:0.0} mm of veneer the core needs {needs.RecommendedMinimumMm:0.00} mm (by colour {needs.OpticalMinimumMm:0.00} ± {needs.ThicknessStandardUncertaintyMm:0.00})");
}

foreach (Caution caution in response.LowerRequirementAt(0.6).Cautions)
{
    Console.WriteLine($"! {caution.Text}");
}

double[,] picture = new double[Rows, Columns];
for (int i = 0; i < differences.Length; i++)
{
    picture[i / Columns, i % Columns] = differences[i];
}

ScottPlot.Plot plot = new();
ScottPlot.Plottables.Heatmap heat = plot.Add.Heatmap(picture);
(heat.Position, heat.Colormap) = (new ScottPlot.CoordinateRect(veneerMm.Min, veneerMm.Max, coreMm.Min, coreMm.Max), new ScottPlot.Colormaps.Deep());
plot.Add.ColorBar(heat).Label = "difference, CIEDE2000";
double[] veneers = [.. Enumerable.Range(0, 101).Select(i => veneerMm.Min + ((veneerMm.Max - veneerMm.Min) * i / 100))];
double[] cores = [.. veneers.Select(mm => response.LowerRequirementAt(mm).OpticalMinimumMm ?? double.NaN)];
ScottPlot.Plottables.Scatter limit = plot.Add.ScatterLine(veneers, cores, ScottPlot.Colors.DarkOrange);
(limit.LineWidth, limit.LegendText) = (3, "masked above this line");
plot.Title("Veneer on core over an invented dark stump");
plot.XLabel("veneer, mm");
plot.YLabel("core, mm");
plot.Axes.SetLimits(veneerMm.Min, veneerMm.Max, coreMm.Min, coreMm.Max);
plot.ShowLegend(ScottPlot.Alignment.UpperRight);
plot.SavePng(output, 900, 620);
Console.WriteLine($"written: {output}");
