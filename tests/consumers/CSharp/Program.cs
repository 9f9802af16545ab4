using System;
using System.Collections.Generic;
using System.Globalization;
using System.IO;
using System.Linq;
using CeramicOptics;
using CeramicOptics.Characterization;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Exchange;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

/// <summary>Results of every part of the library, by name, for invented materials.</summary>
internal static class Program
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 10);

    private static readonly double[] Rising =
        [.. Enumerable.Range(0, Grid.Count).Select(i => i / (Grid.Count - 1.0))];

    private static readonly Substrate Stump = Substrate.FromMeasuredReflectance(
        "stump", new ReflectanceSpectrum(Grid, [.. Rising.Select(x => 0.12 + (0.15 * x))]), 1.54,
        MeasurementGeometry.DiffuseSpecularIncluded);

    private static void Main(string[] args)
    {
        CultureInfo.CurrentCulture = new CultureInfo(args.Length > 0 ? args[0] : "");
        ReflectanceSpectrum reflectance = Layers();
        Colors(reflectance);
        Restoration crown = Crown(TransportModel.Default);
        Decisions("", crown);
        Decisions("two-flux ", Crown(TwoFluxModel.Instance));
        MatchAndMaps(crown);
        Files(crown, reflectance);
        Print("error", ErrorOf(() => new Layer(Ceramic(TransportModel.Default).Material, -0.5)));
    }

    private static Ceramic Ceramic(IOpticalModel model) => new(
        "invented",
        1,
        new Material(
            "ceramic", model, new AbsorptionSpectrum(Grid, [.. Rising.Select(x => 0.05 + (0.2 * (1 - x)))]),
            new ScatteringSpectrum(Grid, [.. Rising.Select(x => 7 - x)]), 1.53,
            CoefficientUncertainty.OfScale(Grid, 0.03)))
    {
        Strength = StrengthLimit.Of(0.6),
    };

    private static Material Uniform(string name, IOpticalModel model, double k, double s, double index) => new(
        name, model, AbsorptionSpectrum.Uniform(Grid, k), ScatteringSpectrum.Uniform(Grid, s), index,
        CoefficientUncertainty.OfScale(Grid, 0.05));

    private static Layer Cement(IOpticalModel model) => new(Uniform("cement", model, 0.03, 0.9, 1.52), 0.05);

    private static Restoration Crown(IOpticalModel model) => new(
        [new Zone("body", Stump, availableMm: 1.4, MaskingReference.SelfBacked)], Ceramic(model), Cement(model),
        ColorCriterion.AcceptabilityThreshold)
    {
        WallRange = new ThicknessRange(0.3, 4),
    };

    // Both theories, compiled responses, the way back from readings.
    private static ReflectanceSpectrum Layers()
    {
        Print("two-flux", TwoFluxLayer.Reflectance(0.1, 3, 1, 0.2));
        LayerStack stack = Crown(TransportModel.Default).StackOver(Stump, 0.9);
        ReflectanceSpectrum reflectance = stack.Reflectance();
        Print("reflectance", [.. reflectance.Values.ToArray()]);
        Print("reflectance in two-flux theory",
            [.. Crown(TwoFluxModel.Instance).StackOver(Stump, 0.9).Reflectance().Values.ToArray()]);
        StackResponse response = stack.Compile(
            MeasurementGeometry.DiffuseSpecularIncluded, [new VariableThickness(0, new ThicknessRange(0.3, 4))]);
        Print("compiled reflectance", [.. response.Reflectance(Stump, 1.7).Values.ToArray()]);

        Material ceramic = Ceramic(TwoFluxModel.Instance).Material;
        LayerStack disc = new([new Layer(ceramic, 1)], Substrate.Black);
        DiscSet discs = DiscSet.OverBlackAndWhite(
            "disc", 1.53, 1, disc.Reflectance(), disc.WithSubstrate(Substrate.White).Reflectance(),
            new Backing(Substrate.Black, null), new Backing(Substrate.White, null),
            MeasurementGeometry.DiffuseSpecularIncluded, ReadingArea.Large);
        Material found = DiscCharacterization.Find(discs).ToMaterial();
        Print("scattering found", [.. found.Scattering.Values.ToArray()]);
        return reflectance;
    }

    private static void Colors(ReflectanceSpectrum reflectance)
    {
        Print("ciede2000", ColorDifference.Ciede2000(new Lab(50, 2.6772, -79.7751), new Lab(50, 0, -82.7485)));
        foreach (string light in new[] { "A", "D65", "F11" })
        {
            Lab color = new Colorimeter(Observer.Cie1964TenDegree, Illuminant.Named(light)).ToLab(reflectance);
            Print("color under " + light, color.L, color.A, color.B);
        }

        Colorimeter daylight = Colorimeter.D65TwoDegree;
        Print("display", Srgb.FromXyz(daylight.ToLab(reflectance).ToXyz(daylight.White)).ToHex());
        Print("smoothest", [.. daylight.SmoothestReflectance(new Lab(70, 2, 15), Grid).Values.ToArray()]);
    }

    private static void Decisions(string name, Restoration crown)
    {
        MaskingResult masking = MaskingThickness.Find(crown);
        MinimumThickness minimum = masking.Zones[0].Minimum;
        Print(
            name + "masking", minimum.ByColorMm!.Value, minimum.ReliableMm!.Value, minimum.RecommendedMm!.Value,
            minimum.StandardUncertaintyMm!.Value, masking.Zones[0].StandardUncertainty);
        Print(name + "masking in words", masking.ToString());
        Print(name + "masking in German", masking.ToString(new CultureInfo("de-DE")));
        Print(name + "masking in German without a culture", masking.ToString(Language.German));
        ZonePrediction body = PredictionUncertainty.Find(
            crown, new SamplingOptions { Samples = 4096, Seed = 5 }).Zones[0];
        Print(
            name + "uncertainty", body.Difference, body.MeanDifference, body.StandardUncertainty, body.Meets.Value,
            body.Interval95.Low, body.Interval95.High);
        Print(name + "cautions", string.Join(" ", masking.Cautions));
    }

    private static void MatchAndMaps(Restoration crown)
    {
        Target target = Target.FromColor(
            "neighbour", new Lab(78, 1, 9), Colorimeter.D65TwoDegree, MeasurementGeometry.DiffuseSpecularIncluded);
        Restoration wish = crown.WithZones([new Zone("body", Stump, 1.4, target) { ThinnestMm = 0.6 }]);
        Ceramic dense = new("invented", 2, Uniform("core", TransportModel.Default, 0.2, 10, 1.55))
        {
            Strength = StrengthLimit.Of(0.6),
        };
        MatchCandidate best = Match.Find(wish, new MatchOptions([crown.Core, dense])).Closest!;
        Print("match", best.WorstDifference, best.Zones[0].WallMm);
        Print("match in words", best.Explain());

        double[] mm = [0.5, 1.0, 1.5, 3.99], differences = new double[4];
        new ThicknessMap([ThicknessResponse.Compile(crown, crown.Zones[0])]).Differences(mm, differences);
        Print("map", differences);
        Restoration veneered = wish.WithCore(dense) with { Veneer = Veneer.OfShare(crown.Core.Material, 0.5) };
        TwoLayerResponse two = TwoLayerResponse.Compile(
            veneered, veneered.Zones[0], new ThicknessRange(0.2, 1), new ThicknessRange(0.3, 4));
        new TwoLayerMap([two]).Differences([0.2, 0.5, 0.7, 1], mm, differences);
        Print("map of two layers", differences);
    }

    private static void Files(Restoration crown, ReflectanceSpectrum reflectance)
    {
        double[] mm = [0.5, 1.0, 1.5, 3.99], differences = new double[4];
        using MemoryStream saved = new();
        ResponseJson.Write(ThicknessResponse.Compile(crown, crown.Zones[0]), saved);
        saved.Position = 0;
        new ThicknessMap([ResponseJson.Read(saved, "response")]).Differences(mm, differences);
        Print("map read back", differences);
        using StringWriter table = new();
        SpectralCsv.Write(
            SpectralTable.Create(
                "consumer", new Dictionary<string, ReflectanceSpectrum> { ["reflectance"] = reflectance }),
            table);
        Print(
            "row of the file",
            [.. table.ToString().Split('\n')[5].Trim().Split(',').Select(
                field => double.Parse(field, CultureInfo.InvariantCulture))]);
    }

    private static string ErrorOf(Action action)
    {
        try
        {
            action();
            return "no error";
        }
        catch (ArgumentException error)
        {
            // .NET Framework adds a line with the parameter's name, later frameworks put it in parentheses.
            return error.Message.Split(["\r", "\n", " (Parameter"], StringSplitOptions.None)[0];
        }
    }

    private static void Print(string name, params double[] values)
    {
        for (int i = 0; i < values.Length; i++)
        {
            Print(
                name + " " + i.ToString(CultureInfo.InvariantCulture),
                values[i].ToString("R", CultureInfo.InvariantCulture));
        }
    }

    private static void Print(string name, string text) => Console.WriteLine(name + "\t" + text.Replace("\n", " "));
}
