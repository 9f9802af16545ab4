#:package CeramicOptics@0.1.0

// The fewest pigments that bring a crown to its target. Invented pigments and ceramic.
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Selection;
using CeramicOptics.Spectra;

WavelengthGrid grid = WavelengthGrid.Range(380, 780, 10);
AbsorptionSpectrum Band(double centreNm, double widthNm, double height) => new(
    grid,
    [.. Enumerable.Range(0,
    grid.Count).Select(i => 0.01 + (height * Math.Exp(-Math.Pow((grid[i] - centreNm) / widthNm, 2))))]);
Pigment[] pigments =
[
    new("straw", Band(430, 60, 30), ScatteringSpectrum.Uniform(grid, 1)),
    new("brick", Band(500, 70, 30), ScatteringSpectrum.Uniform(grid, 1)),
    new("slate", Band(600, 120, 20), ScatteringSpectrum.Uniform(grid, 1)),
    new("umber", Band(440, 160, 25), ScatteringSpectrum.Uniform(grid, 2)),
];
StainLayer layer = new(
    new Material("stain base", AbsorptionSpectrum.Uniform(grid, 0.01), ScatteringSpectrum.Uniform(grid, 0.1), 1.5),
    appliedThicknessMm: 0.05, firingShrinkage: 0.3);
Material ceramic = new("ceramic", AbsorptionSpectrum.Uniform(grid, 0.05), ScatteringSpectrum.Uniform(grid, 8), 1.53);
Substrate stump = Substrate.FromMeasuredReflectance("stump", ReflectanceSpectrum.Uniform(grid, 0.3), 1.54);
MaskingReference neighbour = MaskingReference.Target("neighbour", new Lab(74, 3, 16), Colorimeter.D65TwoDegree);
ViewingConditions conditions = new() { Colorimeters = [Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree] };
LayerStack crown = new([new Layer(ceramic, 1.2)], stump);

StainRecipe recipe = Stain.Find(
    [new StainPlace("body", crown, 0, neighbour)], layer, pigments, ColorCriterion.AcceptableMatch, conditions);
Console.WriteLine($"without stain: difference {recipe.WorstWithout:0.0}; {recipe.Without[0].InWords}");
Console.WriteLine(
    $"with {string.Join(", ", recipe.Parts)}: difference {recipe.WorstWith:0.0}, "
        + $"{(recipe.Meets ? "acceptable" : "not acceptable")} under D65 and A");
Console.WriteLine($"{recipe.Mixtures} mixtures tried; {recipe.StartsAgreeing} of {recipe.Starts} other starts agree");
foreach (Caution caution in recipe.Cautions)
{
    Console.WriteLine($"! {caution.Text}");
}
