#:package CeramicOptics@0.1.0

// Three invented ceramics of equal thickness side by side: translucency, colour over black, what they need to mask, and
// how far two-flux theory may be trusted for each.
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Selection;
using CeramicOptics.Spectra;

WavelengthGrid grid = WavelengthGrid.Range(380, 780, 10);
Material Body(string name, double scattering, double index) => new(
    name,
    new AbsorptionSpectrum(grid, [.. Enumerable.Range(0, grid.Count).Select(i => 0.03 + (0.2 * Math.Exp(-i / 10.0)))]),
    ScatteringSpectrum.Uniform(grid, scattering), index,
    CoefficientUncertainty.OfScale(grid, 0.05));
Material[] materials = [Body("clear glass-ceramic", 2, 1.53), Body("dense glass-ceramic", 6, 1.53), Body(
    "zirconia", 10, 2.15)];
Substrate stump = Substrate.FromMeasuredReflectance("dark stump", ReflectanceSpectrum.Uniform(grid, 0.15), 1.54);
Layer cement = new(
    new Material("cement", AbsorptionSpectrum.Uniform(grid, 0.03), ScatteringSpectrum.Uniform(grid, 0.9), 1.52), 0.05);

Console.WriteLine(
    $"{"1 mm of",-22}{"TP00",6}{"CR",7}{"L*",7}{"a*",6}{"b*",6}   {"masks from, mm",-17}{"two-flux off by",16}");
foreach (Material material in materials)
{
    LayerStack black = new([new Layer(material, 1)], Substrate.Black), white = black.WithSubstrate(Substrate.White),
        crown = new([new Layer(material, 1), cement], stump);
    Colorimeter daylight = Colorimeter.D65TwoDegree;
    Lab overBlack = daylight.ToLab(black.Reflectance()), overWhite = daylight.ToLab(white.Reflectance());
    double contrast = Translucency.ContrastRatio(
        daylight.ToXyz(black.Reflectance()), daylight.ToXyz(white.Reflectance()));
    MaskingResult masking = MaskingThickness.Find(
        crown, 0, (0.3, 4), MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch);
    string needs = masking.RecommendedMinimumMm is double mm
        ? $"{mm:0.00} ± {masking.ThicknessStandardUncertaintyMm:0.00}"
        : "not up to 4";
    Console.WriteLine(
        $"{material,-22}{Translucency.Parameter00(overBlack, overWhite),6:0.0}{contrast,7:0.00}{overBlack.L,7:0.0}{overBlack.A,6:0.0}{overBlack.B,6:0.0}   {needs,-17}{TwoFluxValidity.Assess(crown).ColorDifference,16:0.0}");
}

Console.WriteLine(
    "! Masking is not strength: minimum thickness and tooth reduction are decided by licensed practice and local "
        + "rules.");
