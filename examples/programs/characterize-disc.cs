#:package CeramicOptics@0.2.0

// From readings of one disc over black and white to K and S, and back to the colour of the same ceramic at other
// thicknesses. Invented readings.
using CeramicOptics.Characterization;
using CeramicOptics.Colorimetry;
using CeramicOptics.Exchange;
using CeramicOptics.Layers;
using CeramicOptics.Spectra;

const string Readings = """
    # material = Wren ceramic
    # refractive_index = 1.53
    # thickness_mm = 0.80
    # geometry = di:8
    # area = large
    # coupling = glycerine
    # black = trap
    # origin = invented
    wavelength_nm,over_black,over_white,white_backing
    400,0.342,0.470,0.820
    420,0.360,0.505,0.840
    440,0.373,0.532,0.850
    460,0.383,0.553,0.855
    480,0.391,0.571,0.858
    500,0.397,0.586,0.860
    520,0.402,0.598,0.861
    540,0.406,0.608,0.862
    560,0.409,0.616,0.863
    580,0.411,0.623,0.864
    600,0.413,0.629,0.865
    620,0.415,0.634,0.866
    640,0.416,0.638,0.867
    660,0.417,0.642,0.868
    680,0.418,0.645,0.869
    700,0.419,0.648,0.870
    """;

SpectralTable table = SpectralTable.Read(new StringReader(Readings), "readings");
DiscSet discs = MeasurementFile.ToDiscs(table).Discs;
CharacterizationResult result = DiscCharacterization.Find(discs);
foreach (string finding in result.ExplainFindings())
{
    Console.WriteLine($"! {finding}");
}

Material wren = result.ToMaterial();
Console.WriteLine("nm    K, 1/mm          S, 1/mm");
for (int i = 0; i < wren.Grid.Count; i += 5)
{
    Console.WriteLine(
        $"{wren.Grid[i]:0}   {wren.Absorption[i]:0.000} ± {wren.Uncertainty!.AbsorptionPerMm[i]:0.000}    "
            + $"{wren.Scattering[i]:0.00} ± {wren.Uncertainty.ScatteringPerMm[i]:0.00}");
}

// The disc itself must come back as it was read.
DiscReading black = discs.Readings[0];
ReflectanceSpectrum again = new LayerStack(
    [new Layer(wren, black.ThicknessMm)], black.Backing!.Substrate, black.Backing.Coupling)
    .Reflectance();
double worst = Enumerable.Range(0, wren.Grid.Count).Max(i => Math.Abs(again[i] - black.Values[i]));
Console.WriteLine($"over black the disc is reproduced within {worst:0.0e0}");
foreach (double mm in new[] { 0.5, 0.8, 1.5 })
{
    Lab color = Colorimeter.D65TwoDegree.ToLab(new LayerStack([new Layer(wren, mm)], Substrate.Black).Reflectance());
    Console.WriteLine($"{mm:0.0} mm over black: L* {color.L:0.0}, a* {color.A:0.0}, b* {color.B:0.0}");
}
