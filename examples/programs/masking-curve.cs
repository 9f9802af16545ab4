#:package CeramicOptics@0.2.0
#:package ScottPlot@5.1.59

// Difference to the infinitely thick ceramic against thickness over two stumps, with the thickness by colour and the
// thickness at which 95 % of all pieces hide the stump. Invented materials.
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

string output = args.Length > 0 ? args[0] : "masking-curve.png";
WavelengthGrid grid = WavelengthGrid.Range(380, 780, 10);
Material ceramic = new(
    "ceramic", TransportModel.Default,
    new AbsorptionSpectrum(grid, [.. Enumerable.Range(0, grid.Count).Select(i => 0.05 + (0.25 * Math.Exp(-i / 10.0)))]),
    ScatteringSpectrum.Uniform(grid, 10), 1.53, CoefficientUncertainty.OfScale(grid, 0.03));
Material cement = new(
    "cement", TransportModel.Default, AbsorptionSpectrum.Uniform(grid, 0.03), ScatteringSpectrum.Uniform(grid, 1.2),
    1.52, CoefficientUncertainty.OfScale(grid, 0.1));
Zone Over(string name, double blue, double red)
{
    ReflectanceSpectrum read = new(
        grid, [.. Enumerable.Range(0, grid.Count).Select(i => blue + ((red - blue) * i / (grid.Count - 1)))]);
    Substrate stump = Substrate.FromMeasuredReflectance(name, read, 1.54,
        MeasurementGeometry.DiffuseSpecularIncluded, area: ReadingArea.Large);
    return new Zone(name, stump, availableMm: 1.5, MaskingReference.SelfBacked);
}

Restoration crown = new(
    [Over("nearly black tooth", 0.08, 0.16), Over("brown tooth", 0.14, 0.42)],
    new Ceramic("invented ceramic", 1, ceramic) { Strength = StrengthLimit.Of(0.5) },
    new Layer(cement, 0.05),
    ColorCriterion.AcceptabilityThreshold)
{
    Viewing = new ViewingConditions { Colorimeters = [Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree] },
    WallRange = new ThicknessRange(0.3, 3),
};
MaskingResult masking = MaskingThickness.Find(crown);
double[] walls = [.. Enumerable.Range(0, 86).Select(i => 0.3 + (0.02 * i))];

ScottPlot.Plot plot = new();
ScottPlot.Color[] colors = [ScottPlot.Colors.Black, ScottPlot.Colors.SaddleBrown];
for (int z = 0; z < crown.Zones.Count; z++)
{
    ZoneMasking zone = masking.Zones[z];
    Console.WriteLine($"{zone}; limited under {zone.Limiting.Colorimeter}");
    double[] differences =
        [.. MaskingThickness.FindCurve(crown, zone.Zone, walls).Select(limiting => limiting.Difference)];
    ScottPlot.Plottables.Scatter curve = plot.Add.ScatterLine(walls, differences, colors[z]);
    (curve.LegendText, curve.LineWidth) = (zone.Zone.Name, 2);
    if (zone.Minimum is { ByColorMm: double byColor, ReliableMm: double reliable })
    {
        plot.Add.HorizontalSpan(byColor, reliable, colors[z].WithAlpha(.12));
    }
}

foreach (Caution caution in masking.Cautions)
{
    Console.WriteLine($"! {caution}");
}

(ColorCriterion Criterion, ScottPlot.LinePattern Pattern)[] thresholds =
[
    (ColorCriterion.AcceptabilityThreshold, ScottPlot.LinePattern.Dashed),
    (ColorCriterion.PerceptibilityThreshold, ScottPlot.LinePattern.Dotted),
];
foreach ((ColorCriterion criterion, ScottPlot.LinePattern pattern) in thresholds)
{
    plot.Add.HorizontalLine(criterion.Limit, 1.5f, ScottPlot.Colors.SteelBlue, pattern).LegendText =
        criterion.ToString();
}

plot.Title("Invented ceramic over two invented stumps; bands: from masked by colour to reliably masked");
plot.Axes.Title.Label.FontSize = 13;
plot.XLabel("thickness of the ceramic, mm");
plot.YLabel("largest CIEDE2000 under D65 and A");
plot.Axes.SetLimits(walls[0], walls[^1], 0, 9);
plot.ShowLegend(ScottPlot.Alignment.UpperRight);
plot.SavePng(output, 900, 520);
Console.WriteLine($"written: {output}");
