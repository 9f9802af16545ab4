using System;
using System.Collections.Generic;
using System.Globalization;
using System.IO;
using System.Linq;
using CeramicOptics.Characterization;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Exchange;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Mapping;
using CeramicOptics.Selection;
using CeramicOptics.Spectra;

/// <summary>Results of every part of the library, by name, for invented materials.</summary>
internal static class Program
{
    private static void Main(string[] args)
    {
        CultureInfo.CurrentCulture = new CultureInfo(args.Length > 0 ? args[0] : "");
        WavelengthGrid grid = WavelengthGrid.Range(400, 700, 10);
        double[] rising = [.. Enumerable.Range(0, grid.Count).Select(i => i / (grid.Count - 1.0))];
        Material ceramic = new(
            "ceramic", new AbsorptionSpectrum(grid, [.. rising.Select(x => 0.05 + (0.2 * (1 - x)))]),
            new ScatteringSpectrum(grid, [.. rising.Select(x => 5 - x)]), 1.53,
            CoefficientUncertainty.OfScale(grid, 0.05));
        Material core = new("core", AbsorptionSpectrum.Uniform(grid, 0.2), ScatteringSpectrum.Uniform(grid, 10), 1.55);
        Material cement = new(
            "cement", AbsorptionSpectrum.Uniform(grid, 0.03), ScatteringSpectrum.Uniform(grid, 0.9), 1.52);
        Substrate stump = Substrate.FromMeasuredReflectance(
            "stump", new ReflectanceSpectrum(grid, [.. rising.Select(x => 0.12 + (0.15 * x))]), 1.54);
        LayerStack stack = new([new Layer(ceramic, 0.9), new Layer(cement, 0.05)], stump);
        ColorCriterion criterion = ColorCriterion.AcceptableMatch;

        // Colorimetry.
        Print("two-flux", TwoFlux.Reflectance(0.1, 3, 1, 0.2));
        Print("ciede2000", ColorDifference.Ciede2000(new Lab(50, 2.6772, -79.7751), new Lab(50, 0, -82.7485)));
        ReflectanceSpectrum reflectance = stack.Reflectance();
        Print("reflectance", [.. reflectance.Values.ToArray()]);
        foreach (string light in new[] { "A", "D65", "F11" })
        {
            Lab color = new Colorimeter(Observer.Cie1964TenDegree, Illuminant.Named(light)).ToLab(reflectance);
            Print("color under " + light, color.L, color.A, color.B);
        }

        Lab shown = Colorimeter.D65TwoDegree.ToLab(reflectance);
        Print("display", Srgb.FromXyz(shown.ToXyz(Colorimeter.D65TwoDegree.White)).ToHex());
        Print(
            "smoothest", [.. Colorimeter.D65TwoDegree.SmoothestReflectance(new Lab(70, 2, 15), grid).Values.ToArray()]);

        // Layers, exact transfer, the way back from readings.
        Print(
            "transfer",
            [.. new TransportModel(12).Reflectance(stack,
            MeasurementGeometry.DiffuseSpecularIncluded).Values.ToArray()]);
        LayerStack disc = new([new Layer(ceramic, 1)], Substrate.Black);
        DiscMeasurement measurement = new(
            "disc", 1.53, 1, disc.Reflectance(), disc.WithSubstrate(Substrate.White).Reflectance(),
            new Backing(Substrate.Black, null), new Backing(Substrate.White, null));
        Material found = DiscCharacterization.Solve(measurement).ToMaterial();
        Print("scattering found", [.. found.Scattering.Values.ToArray()]);

        // Decisions.
        MaskingResult masking = MaskingThickness.Find(stack, 0, (0.3, 4), MaskingReference.SelfBacked, criterion);
        Print(
            "masking", masking.RecommendedMinimumMm!.Value, masking.ThicknessStandardUncertaintyMm!.Value,
            masking.DifferenceStandardUncertainty, masking.ModelDeparture!.Value);
        UncertaintyResult uncertainty = PredictionUncertainty.Sample(
            stack, 0, MaskingReference.SelfBacked, criterion, new InputUncertainty([0.05, 0.02]), samples: 4096,
            seed: 5);
        Print(
            "uncertainty", uncertainty.MeanDifference, uncertainty.StandardUncertainty, uncertainty.Meets.Value,
            uncertainty.Interval95.Low, uncertainty.Interval95.High);
        MaskingReference target = MaskingReference.Target("neighbour", new Lab(78, 1, 9), Colorimeter.D65TwoDegree);
        RestorationCase wish = new([new Zone("body", stump, 1.4, target) { ThinnestMm = 0.6 }], criterion);
        MatchRanking ranking = Match.Rank(
            wish,
            new MatchOptions([new Ceramic("invented", 1, ceramic), new Ceramic("invented", 2, core)],
            [new Layer(cement, 0.05)]));
        MatchCandidate best = ranking.Best!;
        Print("match", best.WorstDifference, best.Zones[0].WallMm);
        Print("match in words", best.Explanation);

        // Maps.
        ThicknessResponse response = ThicknessResponse.Compile(
            stack, 0, (0.3, 4), MaskingReference.SelfBacked, criterion);
        double[] mm = [0.5, 1.0, 1.5, 3.99], differences = new double[4];
        new ThicknessMap([response]).Differences(mm, differences);
        Print("map", differences);
        LayerStack veneered = new([new Layer(ceramic, 0.5), new Layer(core, 0.5), new Layer(cement, 0.05)], stump);
        TwoLayerResponse two = TwoLayerResponse.Compile(veneered, 0, (0.2, 1), 1, (0.3, 4), target, criterion);
        new TwoLayerMap([two]).Differences([0.2, 0.5, 0.7, 1], mm, differences);
        Print("map of two layers", differences);

        // Files.
        using MemoryStream saved = new();
        ResponseJson.Write(response, saved);
        saved.Position = 0;
        new ThicknessMap([ResponseJson.Read(saved, "response")]).Differences(mm, differences);
        Print("map read back", differences);
        using StringWriter table = new();
        SpectralCsv.Write(
            SpectralTable.Create("consumer", new Dictionary<string,
            ReflectanceSpectrum> { ["reflectance"] = reflectance }), table);
        Print(
            "row of the file",
            [.. table.ToString().Split('\n')[5].Trim().Split(',').Select(
                field => double.Parse(field, CultureInfo.InvariantCulture))]);
        Print("error", Assert(() => new Layer(ceramic, -0.5)));
    }

    private static string Assert(Action action)
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

    private static void Print(string name, string text) => Console.WriteLine(name + "\t" + text);
}
