using CeramicOptics.Characterization;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Examples.ValidationReport;

/// <summary>
/// Invented ceramics read by a simulated instrument: radiative transfer with forward scattering, real backings, noise,
/// errors of thickness.
/// </summary>
internal static class SimulatedInstrument
{
    public const double Noise = 0.001, ThicknessError = 0.005, CharacterizedMm = 0.8, Anisotropy = 0.6;

    private const int Repeats = 5;

    // White must shine through a disc: the more opaque the ceramic, the thinner the disc.
    private const double ThinDiscMm = 0.3, OpaqueFromS = 6;

    private static readonly double[] PredictedMm = [0.3, 0.5, 0.6, 1.0, 1.2, 1.5, 2.0];

    private static readonly (string Kind, double Index, double S550)[] Ceramics =
    [
        ("glass-ceramic, translucent", 1.53, 1.5), ("glass-ceramic, medium", 1.53, 3.5),
        ("glass-ceramic, opaque", 1.53, 7),
        ("zirconia, translucent", 2.15, 3), ("zirconia, medium", 2.15, 7), ("zirconia, opaque", 2.15, 12),
    ];

    public static WavelengthGrid Grid { get; } = WavelengthGrid.Range(400, 700, 20);

    /// <summary>The instrument: forward scattering, which the theories under test do not know of.</summary>
    public static TransportModel Exact { get; } = new(anisotropy: Anisotropy);

    public static Backing Black { get; } = new(Body("black", 0.012, 1.5), CouplingMedium.Glycerine);

    public static Backing White { get; } = new(Body("white", 0.93, 1.5), CouplingMedium.Glycerine);

    private static Substrate DarkStump { get; } = Body("dark stump", 0.1, 1.54);

    /// <summary>
    /// An invented ceramic: S falling with wavelength, K in fixed proportion with a rise into the blue.
    /// </summary>
    public static Material Ceramic(string name, double index, double s550, IOpticalModel model)
    {
        double ratio = index > 2 ? 0.4 : 1;
        double[] s = [.. Enumerable.Range(0, Grid.Count).Select(i => s550 * Math.Pow(Grid[i] / 550, -1))];
        double[] k = [.. s.Select((value, i) => value * ratio * (0.025 + (0.10 * Math.Exp(-(Grid[i] - 400) / 60))))];
        return new Material(name, model, new AbsorptionSpectrum(Grid, k), new ScatteringSpectrum(Grid, s), index);
    }

    /// <summary>Thickness of the disc that a ceramic is characterized by.</summary>
    public static double DiscMmFor(double s550) => s550 > OpaqueFromS ? ThinDiscMm : CharacterizedMm;

    public static void Write(TextWriter report)
    {
        report.WriteLine("\n## Simulated instrument, judged by the decisions\n");
        report.WriteLine(
            $"Invented ceramics, read by radiative transfer with forward scattering (anisotropy {Anisotropy}), "
                + $"noise of {Noise} and thickness errors of {ThicknessError} mm");
        report.WriteLine(
            $"(standard deviations), over a black and a white tile in glycerine, {Repeats} repeats. Constants are "
                + $"found from one disc of {CharacterizedMm} mm (opaque ceramics:");
        report.WriteLine(
            $"{ThinDiscMm} mm, because white must shine through) with the defaults of the library. The true colour "
                + $"at {string.Join(", ", PredictedMm)} mm, over both tiles in glycerine and");
        report.WriteLine(
            "over a dark stump in clear resin, is given as target, so that the difference which the masking "
                + "decision reports is the error of its prediction.");
        report.WriteLine(
            "Masking thickness: on a film of clear resin over the dark stump, against the infinitely "
                + "thick ceramic, limit 1.8; the truth by the");
        report.WriteLine(
            "same decision with the true material. Published two-flux predictions for composites over opaqued "
                + "polymer differ from measured colours by 0.45 to 1.29");
        report.WriteLine("(Dent. Mater. 2022, 38:1452); perceptibility is 0.8, acceptability 1.8.");
        foreach (
            MeasurementGeometry geometry in (MeasurementGeometry[])[MeasurementGeometry.DiffuseSpecularIncluded,
            MeasurementGeometry.FortyFiveZero])
        {
            report.WriteLine($"\n### {(geometry == MeasurementGeometry.FortyFiveZero ? "45°:0°" : "di:8°")}\n");
            report.WriteLine(
                "| ceramic and theory | predictions | mean | 95th percentile | maximum |\n|---|---|---|---|---|");
            WriteGeometry(report, geometry);
        }

        report.WriteLine(
            "\nReading the table: constants found by two-flux theory are good near the thickness of their disc and "
                + "for ceramics that scatter strongly; away from it the");
        report.WriteLine(
            "theory's own error exceeds the noise. Radiative transfer fitted to the same readings stays within "
                + "perceptibility in 95 % of predictions at di:8°, although it does not know the anisotropy;");
        report.WriteLine("thin clear ceramics are its worst cases, especially at 45°:0°.");
        report.WriteLine("\n![Departure of two-flux theory](images/two-flux-validity.png)\n");
        report.WriteLine(
            "Where two-flux theory holds, over a nearly black stump: CIEDE2000 to radiative transfer by thickness "
                + "and by scattering, with the same constants in both (left), and");
        report.WriteLine(
            $"with constants found by two-flux theory from a disc of {CharacterizedMm} mm ({ThinDiscMm} mm for S "
                + $"above {OpaqueFromS}), as a laboratory would (right). Contours at 0.8 and 1.8.");
    }

    private static void WriteGeometry(TextWriter report, MeasurementGeometry geometry)
    {
        IOpticalModel[] models = [TransportModel.Default, TwoFluxModel.Instance];
        List<double>[] all = [[], []], thicknesses = [[], []];
        foreach ((string kind, double index, double s550) in Ceramics)
        {
            Material truth = Ceramic(kind, index, s550, Exact);
            double trueMm = MaskingMm(truth, geometry);
            Random random = new(1);
            List<double>[] each = [[], []];
            for (int repeat = 0; repeat < Repeats; repeat++)
            {
                DiscSet discs = new(kind, index, ReadDisc(truth, DiscMmFor(s550), geometry, random));
                for (int m = 0; m < models.Length; m++)
                {
                    Material found = DiscCharacterization.Find(discs, new CharacterizationOptions { Model = models[m] })
                        .ToMaterial();
                    each[m].AddRange(Errors(truth, found, geometry));
                    thicknesses[m].Add(Math.Abs(MaskingMm(found, geometry) - trueMm) / Math.Max(1, trueMm));
                }
            }

            for (int m = 0; m < models.Length; m++)
            {
                report.WriteLine(Differences.Row($"{kind} (S {s550}): {models[m].Name}", each[m]));
                all[m].AddRange(each[m]);
            }
        }

        for (int m = 0; m < models.Length; m++)
        {
            report.WriteLine(Differences.Row($"**all: {models[m].Name}**", all[m]));
        }

        report.WriteLine(
            "\n| masking thickness: error, mm (of 1 mm where thicker) | cases | mean | 95th percentile | maximum "
                + "|\n|---|---|---|---|---|");
        for (int m = 0; m < models.Length; m++)
        {
            report.WriteLine(Differences.Row(models[m].Name, thicknesses[m], "0.000"));
        }
    }

    private static IEnumerable<DiscReading> ReadDisc(
        Material truth, double mm, MeasurementGeometry geometry, Random random)
    {
        double real = mm + (ThicknessError * Gauss(random));
        foreach ((string name, Backing backing) in ((string, Backing)[])[("black", Black), ("white", White)])
        {
            ReflectanceSpectrum exact = new LayerStack([new Layer(truth, real)], backing.Substrate, backing.Coupling)
                .Reflectance(geometry);
            double[] values = [.. Enumerable.Range(0, Grid.Count).Select(
                i => Math.Max(0, exact[i] + (Noise * Gauss(random))))];
            yield return DiscReading.Reflectance(
                $"{name} {mm}", mm, new ReflectanceSpectrum(Grid, values), backing, geometry, ReadingArea.Large,
                Noise, ThicknessError);
        }
    }

    private static IEnumerable<double> Errors(Material truth, Material found, MeasurementGeometry geometry)
    {
        foreach (
            (Substrate substrate,
            CouplingMedium film) in ((Substrate, CouplingMedium)[])[(Black.Substrate, Black.Coupling!),
            (White.Substrate, White.Coupling!), (DarkStump, Resin)])
        {
            foreach (double mm in PredictedMm)
            {
                Lab real = Colorimeter.D65TwoDegree.ToLab(
                    new LayerStack([new Layer(truth, mm)], substrate, film).Reflectance(geometry));
                Zone zone = new(
                    "disc", substrate, mm, Target.FromColor("truth", real, Colorimeter.D65TwoDegree, geometry));
                yield return MaskingThickness.FindCurve(Question(found, zone, film, geometry), zone,
                    [mm])[0].Difference;
            }
        }
    }

    private static double MaskingMm(Material material, MeasurementGeometry geometry)
    {
        Zone zone = new("body", DarkStump, 1, MaskingReference.SelfBacked);
        return MaskingThickness.Find(Question(material, zone, Resin, geometry)).Zones[0].Minimum.ByColorMm
            ?? throw new InvalidOperationException($"{material} does not mask the dark stump up to {LargestMm} mm.");
    }

    private const double LargestMm = 6;

    private static CouplingMedium Resin { get; } = new("clear resin", 1.52);

    private static Restoration Question(
        Material material, Zone zone, CouplingMedium film, MeasurementGeometry geometry) =>
        new([zone], new Ceramic(material.Name, 1, material), film, ColorCriterion.AcceptabilityThreshold)
        {
            WallRange = new ThicknessRange(0.2, LargestMm),
            Viewing = new ViewingConditions { Geometry = geometry },
        };

    private static Substrate Body(string name, double reflectance, double index) =>
        Substrate.FromInternalReflectance(name, ReflectanceSpectrum.Uniform(Grid, reflectance), index);

    private static double Gauss(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
