using CeramicOptics.Characterization;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Spectra;

namespace CeramicOptics.Examples.ValidationReport;

/// <summary>Invented ceramics read by a simulated instrument: exact radiative transfer, real backings, noise, errors of thickness.</summary>
internal static class SimulatedInstrument
{
    public const double Noise = 0.001, ThicknessError = 0.005, CharacterizedMm = 0.8, Anisotropy = 0.6;

    // White must shine through a disc: the more opaque the ceramic, the thinner the disc.
    private const double ThinDiscMm = 0.3, OpaqueFromS = 6;

    private static readonly double[] PredictedMm = [0.3, 0.5, 0.6, 1.0, 1.2, 1.5, 2.0];
    private static readonly double[] FitMm = [0.4, 1.2], ThinFitMm = [0.2, 0.4];

    private static readonly (string Kind, double Index, double S550)[] Ceramics =
    [
        ("glass-ceramic, translucent", 1.53, 1.5), ("glass-ceramic, medium", 1.53, 3.5), ("glass-ceramic, opaque", 1.53, 7),
        ("zirconia, translucent", 2.15, 3), ("zirconia, medium", 2.15, 7), ("zirconia, opaque", 2.15, 12),
    ];

    public static WavelengthGrid Grid { get; } = WavelengthGrid.Range(400, 700, 20);

    public static Backing Black { get; } = new(Substrate.FromInternalReflectance("black", ReflectanceSpectrum.Uniform(Grid, 0.012), 1.5), CouplingMedium.Glycerine);

    public static Backing White { get; } = new(Substrate.FromInternalReflectance("white", ReflectanceSpectrum.Uniform(Grid, 0.93), 1.5), CouplingMedium.Glycerine);

    public static Substrate DarkStump { get; } = Substrate.FromInternalReflectance("dark stump", ReflectanceSpectrum.Uniform(Grid, 0.1), 1.54);

    /// <summary>The instrument: exact transfer with forward scattering, which the theories under test do not know of.</summary>
    public static TransportModel Exact { get; } = new(16, Anisotropy);

    /// <summary>An invented ceramic: S falling with wavelength, K in fixed proportion with a rise into the blue.</summary>
    public static Material Ceramic(string name, double index, double s550)
    {
        double ratio = index > 2 ? 0.4 : 1;
        double[] s = [.. Enumerable.Range(0, Grid.Count).Select(i => s550 * Math.Pow(Grid[i] / 550, -1))];
        double[] k = [.. s.Select((value, i) => value * ratio * (0.025 + (0.10 * Math.Exp(-(Grid[i] - 400) / 60))))];
        return new Material(name, new AbsorptionSpectrum(Grid, k), new ScatteringSpectrum(Grid, s), index);
    }

    /// <summary>Thickness of the disc that a ceramic is characterized by.</summary>
    public static double DiscMmFor(double s550) => s550 > OpaqueFromS ? ThinDiscMm : CharacterizedMm;

    public static void Write(TextWriter report)
    {
        report.WriteLine("\n## Simulated instrument\n");
        report.WriteLine($"Invented ceramics, read by exact radiative transfer (anisotropy {Anisotropy}) with noise {Noise} and thickness errors of {ThicknessError} mm (standard deviations), over a");
        report.WriteLine($"black and a white tile in glycerine, 5 repeats. Constants are found from one disc of {CharacterizedMm} mm, or from two of {FitMm[0]} and {FitMm[1]} mm (opaque ceramics:");
        report.WriteLine($"{ThinDiscMm} mm, or {ThinFitMm[0]} and {ThinFitMm[1]} mm, because white must shine through), and predict the colour at {string.Join(", ", PredictedMm)} mm over both");
        report.WriteLine("tiles and in optical contact with a dark stump. Published two-flux predictions for composites over opaqued polymer differ from measured colours by");
        report.WriteLine("0.45 to 1.29 (Dent. Mater. 2022, 38:1452); perceptibility is 0.8, acceptability 1.8.");
        foreach (MeasurementGeometry geometry in (MeasurementGeometry[])[MeasurementGeometry.DiffuseSpecularIncluded, MeasurementGeometry.FortyFiveZero])
        {
            report.WriteLine($"\n### {(geometry == MeasurementGeometry.FortyFiveZero ? "45°:0°" : "di:8°")}\n");
            report.WriteLine("| ceramic and method | predictions | mean | 95th percentile | maximum |\n|---|---|---|---|---|");
            WriteGeometry(report, geometry);
        }

        report.WriteLine("\nReading the table: two-flux theory from one disc holds near the thickness it was characterized at and for scattering ceramics; for");
        report.WriteLine("translucent ones away from that thickness its own error exceeds the noise, and two thicknesses trade one error for the other. Exact");
        report.WriteLine("transfer fitted to the same readings stays within perceptibility on average although it knows nothing of the anisotropy.");
        report.WriteLine("\n![Departure of two-flux theory](images/two-flux-validity.png)\n");
        report.WriteLine("Where two-flux theory holds, over a nearly black stump: CIEDE2000 to exact transfer by thickness and by scattering, with the same constants in both");
        report.WriteLine($"(left), and with constants found by two-flux theory from a disc of {CharacterizedMm} mm ({ThinDiscMm} mm for S above {OpaqueFromS}), as a laboratory would (right). Contours at 0.8 and 1.8.");
    }

    private static void WriteGeometry(TextWriter report, MeasurementGeometry geometry)
    {
        List<double> allOne = [], allTwo = [], allExact = [];
        foreach ((string kind, double index, double s550) in Ceramics)
        {
            Material truth = Ceramic(kind, index, s550);
            Random random = new(1);
            List<double> one = [], two = [], exact = [];
            for (int repeat = 0; repeat < 5; repeat++)
            {
                DiscReading[] single = [.. ReadDisc(truth, DiscMmFor(s550), geometry, random)];
                Material byDisc = CoefficientFit.Solve(new DiscSet(kind, index, single)).ToMaterial();
                Material byTransfer = CoefficientFit.Solve(new DiscSet(kind, index, single), new TransportModel(10)).ToMaterial();
                Material byTwo = CoefficientFit.Solve(new DiscSet(kind, index, (s550 > OpaqueFromS ? ThinFitMm : FitMm).SelectMany(mm => ReadDisc(truth, mm, geometry, random)))).ToMaterial();
                one.AddRange(Predict(truth, byDisc, TwoFluxModel.Instance, geometry));
                two.AddRange(Predict(truth, byTwo, TwoFluxModel.Instance, geometry));
                exact.AddRange(Predict(truth, byTransfer, new TransportModel(10), geometry));
            }

            report.WriteLine(Differences.Row($"{kind} (S {s550}): two-flux, one disc", one));
            report.WriteLine(Differences.Row($"{kind}: two-flux, two discs", two));
            report.WriteLine(Differences.Row($"{kind}: exact transfer, one disc", exact));
            allOne.AddRange(one);
            allTwo.AddRange(two);
            allExact.AddRange(exact);
        }

        report.WriteLine(Differences.Row("**all: two-flux, one disc**", allOne));
        report.WriteLine(Differences.Row("**all: two-flux, two discs**", allTwo));
        report.WriteLine(Differences.Row("**all: exact transfer, one disc**", allExact));
    }

    private static IEnumerable<DiscReading> ReadDisc(Material truth, double mm, MeasurementGeometry geometry, Random random)
    {
        double real = mm + (ThicknessError * Gauss(random));
        foreach ((string name, Backing backing) in ((string, Backing)[])[("black", Black), ("white", White)])
        {
            ReflectanceSpectrum exact = Exact.Reflectance(new LayerStack([new Layer(truth, real)], backing.Substrate, backing.Coupling), geometry);
            double[] values = [.. Enumerable.Range(0, Grid.Count).Select(i => Math.Max(0, exact[i] + (Noise * Gauss(random))))];
            yield return DiscReading.Reflectance($"{name} {mm}", mm, new ReflectanceSpectrum(Grid, values), backing, geometry, Noise, ThicknessError);
        }
    }

    private static IEnumerable<double> Predict(Material truth, Material found, IReflectanceModel model, MeasurementGeometry geometry)
    {
        foreach (double mm in PredictedMm)
        {
            foreach ((Substrate substrate, CouplingMedium? film) in ((Substrate, CouplingMedium?)[])[(Black.Substrate, Black.Coupling), (White.Substrate, White.Coupling), (DarkStump, null)])
            {
                Lab real = Colorimeter.D65TwoDegree.ToLab(Exact.Reflectance(new LayerStack([new Layer(truth, mm)], substrate, film), geometry));
                Lab predicted = Colorimeter.D65TwoDegree.ToLab(model.Reflectance(new LayerStack([new Layer(found, mm)], substrate, film), geometry));
                yield return ColorDifference.Ciede2000(real, predicted);
            }
        }
    }

    private static double Gauss(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
