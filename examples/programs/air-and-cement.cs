#:package CeramicOptics@0.1.0

// Why a crown looks lighter on the dry model than in the mouth: the same crown over the same stump with air, try-in
// water or cement between. Invented materials.
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Spectra;

WavelengthGrid grid = WavelengthGrid.Range(380, 780, 10);
Layer ceramic = new(
    new Material("ceramic", AbsorptionSpectrum.Uniform(grid, 0.08), ScatteringSpectrum.Uniform(grid, 3), 1.53), 0.8);
Layer clear = new(
    new Material("clear cement", AbsorptionSpectrum.Uniform(grid, 0.02), ScatteringSpectrum.Uniform(grid, 0.5), 1.52),
    0.06);
Layer opaque = new(
    new Material("opaque cement", AbsorptionSpectrum.Uniform(grid, 0.02), ScatteringSpectrum.Uniform(grid, 20), 1.52),
    0.06);
Substrate stump = Substrate.FromMeasuredReflectance(
    "stump", new ReflectanceSpectrum(grid, [.. Enumerable.Range(0, grid.Count).Select(i => 0.15 + (0.006 * i))]), 1.54);

(string Name, LayerStack Stack)[] fits =
[
    ("air (dry model)", new LayerStack([ceramic], stump, CouplingMedium.Air)),
    ("water", new LayerStack([ceramic], stump, CouplingMedium.Water)),
    ("glycerine (try-in)", new LayerStack([ceramic], stump, CouplingMedium.Glycerine)),
    ("clear cement", new LayerStack([ceramic, clear], stump)),
    ("opaque cement", new LayerStack([ceramic, opaque], stump)),
];
Lab bonded = Colorimeter.D65TwoDegree.ToLab(fits[3].Stack.Reflectance());
foreach ((string name, LayerStack stack) in fits)
{
    Lab color = Colorimeter.D65TwoDegree.ToLab(stack.Reflectance());
    Console.WriteLine(
        $"{name,-20} L* {color.L:0.0}, a* {color.A,4:0.0}, b* {color.B,4:0.0}   "
            + $"{ColorDifference.Ciede2000(bonded, color):0.0} from bonded with clear cement");
}
