#:package CeramicOptics@0.2.0

// Why a crown looks lighter on the dry model than in the mouth: the same crown over the same stump with air, try-in
// water or cement between, and how far a try-in paste is from the cement it stands for. Invented materials.
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Decisions.Cementing;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

WavelengthGrid grid = WavelengthGrid.Range(380, 780, 10);
Material Body(string name, double absorption, double scattering, double index) => new(
    name, TransportModel.Default, AbsorptionSpectrum.Uniform(grid, absorption),
    ScatteringSpectrum.Uniform(grid, scattering), index, CoefficientUncertainty.OfScale(grid, 0.05));
Layer clear = new(Body("clear cement", 0.02, 0.7, 1.52), 0.06);
Layer opaque = new(Body("opaque cement", 0.02, 27, 1.52), 0.06);
Layer paste = new(Body("opaque paste", 0.02, 20, 1.45), 0.06);
Substrate stump = Substrate.FromMeasuredReflectance(
    "stump", new ReflectanceSpectrum(grid, [.. Enumerable.Range(0, grid.Count).Select(i => 0.15 + (0.006 * i))]), 1.54,
    MeasurementGeometry.DiffuseSpecularIncluded,
    area: ReadingArea.Large);
Restoration bonded = new(
    [new Zone("body", stump, availableMm: 0.8, MaskingReference.SelfBacked)],
    new Ceramic("invented ceramic", 1, Body("ceramic", 0.08, 4, 1.53)) { Strength = StrengthLimit.Of(0.6) },
    clear,
    ColorCriterion.AcceptabilityThreshold);

Lab ColorOf(Restoration crown) =>
    Colorimeter.D65TwoDegree.ToLab(crown.StackOver(stump, crown.Zones[0].AvailableMm).Reflectance());
(string Name, Restoration Crown)[] fits =
[
    ("air (dry model)", bonded.Unbonded(CouplingMedium.Air)),
    ("water", bonded.Unbonded(CouplingMedium.Water)),
    ("glycerine (try-in)", bonded.Unbonded(CouplingMedium.Glycerine)),
    ("clear cement", bonded),
    ("opaque cement", bonded.WithCement(opaque)),
];
foreach ((string name, Restoration crown) in fits)
{
    Lab color = ColorOf(crown);
    Console.WriteLine(
        $"{name,-20} L* {color.L:0.0}, a* {color.A,4:0.0}, b* {color.B,4:0.0}   "
            + $"{ColorDifference.Ciede2000(ColorOf(bonded), color):0.0} from bonded with clear cement");
}

CementComparisonResult comparison = CementComparison.Find(
    bonded, [new CementOption(clear), new CementOption(opaque, paste)]);
Console.WriteLine("differences from the infinitely thick ceramic:");
Console.WriteLine(comparison);
foreach (Caution caution in comparison.Cautions)
{
    Console.WriteLine($"! {caution}");
}
