#:package CeramicOptics@0.2.0

// The fewest pigments that bring a crown to its target. Invented pigments and ceramic.
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Layers;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

// All K and S of this program belong to two-flux theory.
TwoFluxModel theory = TwoFluxModel.Instance;
WavelengthGrid grid = WavelengthGrid.Range(380, 780, 10);
Pigment Of(string name, double centreNm, double widthNm, double height, double scattering) => new(
    name, theory,
    new AbsorptionSpectrum(
        grid,
        [.. Enumerable.Range(0, grid.Count).Select(
            i => 0.01 + (height * Math.Exp(-Math.Pow((grid[i] - centreNm) / widthNm, 2))))]),
    ScatteringSpectrum.Uniform(grid, scattering));
Pigment[] pigments =
[
    Of("straw", 430, 60, 30, 1), Of("brick", 500, 70, 30, 1), Of("slate", 600, 120, 20, 1),
    Of("umber", 440, 160, 25, 2),
];
Material Body(string name, double k, double s, double index) => new(
    name, theory, AbsorptionSpectrum.Uniform(grid, k), ScatteringSpectrum.Uniform(grid, s), index,
    CoefficientUncertainty.OfScale(grid, 0.05));
StainLayer layer = new(Body("stain base", 0.01, 0.1, 1.5), appliedThicknessMm: 0.05, firingShrinkage: 0.3);
Target neighbour = Target.FromColor(
    "neighbour", new Lab(74, 3, 16), Colorimeter.D65TwoDegree, MeasurementGeometry.DiffuseSpecularIncluded,
    area: ReadingArea.Large);
Restoration crown = new(
    [
        new Zone(
            "body",
            Substrate.FromMeasuredReflectance(
                "stump", ReflectanceSpectrum.Uniform(grid, 0.3), 1.54,
                MeasurementGeometry.DiffuseSpecularIncluded, area: ReadingArea.Large),
            availableMm: 1.2, neighbour),
    ],
    new Ceramic("invented ceramic", 1, Body("ceramic", 0.05, 8, 1.53)) { Strength = StrengthLimit.Of(0.8) },
    new Layer(Body("cement", 0.03, 0.9, 1.52), 0.05),
    ColorCriterion.AcceptabilityThreshold)
{
    Viewing = new ViewingConditions { Colorimeters = [Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree] },
};

StainRecipe recipe = Stain.Find(crown, new StainOptions(layer, pigments));
Console.WriteLine($"as it stands: difference {recipe.WorstWithout:0.0}; {recipe.Zones[0].Without.Shift}");
Console.WriteLine($"with the stain base alone: {recipe.WorstWithCarrier:0.0}");
Console.WriteLine(
    $"with {string.Join(", ", recipe.Parts)}: {recipe.WorstWith:0.0}, "
        + $"{(recipe.Meets ? "acceptable" : "not acceptable")} under D65 and A");
Console.WriteLine($"{recipe.Mixtures} mixtures tried; {recipe.StartsAgreeing} of {recipe.Starts} other starts agree");
foreach (Caution caution in recipe.Cautions)
{
    Console.WriteLine($"! {caution}");
}
