#:package CeramicOptics@0.2.0

// Three invented ceramics side by side: translucency, colour over black, what each needs to mask a dark stump, and how
// far two-flux theory, with constants from a disc of 1 mm, is off for each at 0.5 mm.
using CeramicOptics.Characterization;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

WavelengthGrid grid = WavelengthGrid.Range(380, 780, 10);
Ceramic Body(string name, double scattering, double index, double strengthMm)
{
    AbsorptionSpectrum k = new(
        grid, [.. Enumerable.Range(0, grid.Count).Select(i => 0.03 + (0.2 * Math.Exp(-i / 10.0)))]);
    Material material = new(
        name, TransportModel.Default, k, ScatteringSpectrum.Uniform(grid, scattering), index,
        CoefficientUncertainty.OfScale(grid, 0.03));
    return new Ceramic(name, 1, material) { Strength = StrengthLimit.Of(strengthMm) };
}

Ceramic[] ceramics =
[
    Body("clear glass-ceramic", 3, 1.53, 1), Body("dense glass-ceramic", 9, 1.53, 1), Body("zirconia", 15, 2.15, 0.5),
];
Substrate stump = Substrate.FromMeasuredReflectance(
    "dark stump", ReflectanceSpectrum.Uniform(grid, 0.15), 1.54,
    MeasurementGeometry.DiffuseSpecularIncluded, area: ReadingArea.Large);
Layer cement = new(
    new Material(
        "cement", TransportModel.Default, AbsorptionSpectrum.Uniform(grid, 0.03), ScatteringSpectrum.Uniform(grid, 1.2),
        1.52, CoefficientUncertainty.OfScale(grid, 0.1)),
    0.05);
Restoration crown = new(
    [new Zone("body", stump, availableMm: 1, MaskingReference.SelfBacked)], ceramics[0], cement,
    ColorCriterion.AcceptabilityThreshold)
{
    WallRange = new ThicknessRange(0.3, 4),
};
Lab ThinOverStump(Material material) =>
    Colorimeter.D65TwoDegree.ToLab(new LayerStack([new Layer(material, 0.5)], stump).Reflectance());
GradeRanking ranking = GradeChoice.Find(crown, ceramics);

Console.WriteLine($"{"1 mm of",-22}{"TP00",6}{"CR",7}{"L*",7}{"a*",6}{"b*",6}{"two-flux at 0.5 mm",21}");
foreach (Ceramic ceramic in ceramics)
{
    Layer layer = new(ceramic.Material, 1);
    Colorimeter daylight = Colorimeter.D65TwoDegree;
    ReflectanceSpectrum black = new LayerStack([layer], Substrate.Black).Reflectance();
    ReflectanceSpectrum white = new LayerStack([layer], Substrate.White).Reflectance();
    (Lab overBlack, Lab overWhite) = (daylight.ToLab(black), daylight.ToLab(white));
    double contrast = Translucency.ContrastRatio(daylight.ToXyz(black), daylight.ToXyz(white));
    Material twoFlux = Recalibration.Find(
        ceramic.Material, TwoFluxModel.Instance, new RecalibrationOptions { DiscThicknessMm = 1 }).Material;
    double off = ColorDifference.Ciede2000(ThinOverStump(ceramic.Material), ThinOverStump(twoFlux));
    Console.WriteLine(
        $"{ceramic.Family,-22}{Translucency.Parameter00(overBlack, overWhite),6:0.0}{contrast,7:0.00}"
            + $"{overBlack.L,7:0.0}{overBlack.A,6:0.0}{overBlack.B,6:0.0}{$"off by {off:0.0}",21}");
}

Console.WriteLine("masking the dark stump in 1 mm, the first choice for review first:");
foreach (GradeAssessment assessment in ranking.Assessments)
{
    Console.WriteLine(
        $"  {assessment.Ceramic.Family}: {(assessment.Masking.IsReliable ? "reliable" : "not reliable")}; "
            + $"{assessment.Masking.Zones[0].Minimum}");
}

foreach (Caution caution in ranking.Cautions)
{
    Console.WriteLine($"! {caution}");
}
