using System.Globalization;
using System.Numerics;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Examples.WallThickness;

/// <summary>Where on an invented crown the wall is too thin to hide the stump, and how much is missing.</summary>
internal static class Program
{
    private const double StrengthLimitMm = 0.5, MaximumSlope = 0.5, MarginEdgeMm = 0.4, MarginSlope = 0.5;

    private const string Usage = """
        usage: WallThickness [FOLDER]
        Writes wall-thickness.png, wall-thickness.ply and sideways-light.png of an invented crown into FOLDER ("out").
          --help   this text
        """;

    private static int Main(string[] args)
    {
        if (args is ["--help"] or ["-h"])
        {
            Console.WriteLine(Usage);
            return 0;
        }

        string? unknown = args.FirstOrDefault(arg => arg.StartsWith('-'));
        if (unknown is not null || args.Length > 1 || args is [""])
        {
            Console.Error.WriteLine(
                unknown is not null ? $"No such option: {unknown}." : "One folder at most, with a name, is needed.");
            Console.Error.WriteLine(Usage);
            return 2;
        }

        Run(args.Length > 0 ? args[0] : "out");
        return 0;
    }

    private static void Run(string output)
    {
        Mesh outside = InventedCrown.Outside(), preparation = InventedCrown.Preparation();
        Vector3[] normals = outside.Normals();
        double[] thicknesses = new double[outside.Vertices.Length];

        // At the very bottom is the margin, where wall and tooth meet: the wall above runs out to it.
        int[] margin = [.. Enumerable.Range(0, thicknesses.Length).Where(i => outside.Vertices[i].Z == 0)];
        Parallel.For(
            0, thicknesses.Length,
            i =>
                thicknesses[i] = outside.Vertices[i].Z == 0
                    ? double.NaN
                    : preparation.Distance(outside.Vertices[i], -normals[i]));
        byte[] zones = [.. outside.Vertices.Select(InventedCrown.ZoneOf)];
        WallAnswers answers = new(
            Crown(WavelengthGrid.Range(400, 700, 10)), outside, thicknesses, zones, MaximumSlope,
            WallLimits.None.WithMargin(margin, MarginEdgeMm, MarginSlope));
        Print(answers);

        Directory.CreateDirectory(output);
        string picture = Path.Combine(output, "wall-thickness.png"), mesh = Path.Combine(output, "wall-thickness.ply"),
            sideways = Path.Combine(output, "sideways-light.png");
        Picture.Save(picture, outside, answers);
        PlyFile.Save(mesh, outside, answers);
        PostAndMargin.Save(sideways, preparation);
        Console.WriteLine($"written: {picture}, {mesh}, {sideways}");
    }

    private static void Print(WallAnswers answers)
    {
        Console.WriteLine("Invented crown, invented materials.");
        for (int zone = 0; zone < answers.Requirements.Count; zone++)
        {
            int[] points = [.. Enumerable.Range(0, answers.Zones.Length).Where(
                i => answers.Zones[i] == zone && !double.IsNaN(answers.ThicknessesMm[i]))];
            int byColor = points.Count(i => answers.Above(i, required => required.Minimum.ByColorMm) >= 0);
            double share = 100.0 * byColor / points.Length;
            Console.WriteLine($"{answers.Requirements[zone]}");
            Console.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"    wall {points.Min(i => answers.ThicknessesMm[i]):0.00} to "
                        + $"{points.Max(i => answers.ThicknessesMm[i]):0.00} mm; at {share:0} % "
                        + $"of points thick enough by colour, up to "
                        + $"{points.Max(i => Math.Max(0, answers.MissingMm[i])):0.00} mm missing to the recommended "
                            + $"wall"));
        }

        double room = answers.RoomMm.Where(mm => !double.IsNaN(mm)).DefaultIfEmpty(0).Max();
        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"Suggested wall, at most {MaximumSlope:0.0} mm thicker per mm of surface and {MarginEdgeMm:0.0} mm "
                    + $"at the margin: {answers.Suggestion}; up to {room:0.00} mm more room than available."));
        foreach (Caution caution in answers.Cautions)
        {
            Console.WriteLine($"! {caution}");
        }
    }

    private static Restoration Crown(WavelengthGrid grid)
    {
        Material ceramic = Body(grid, "invented ceramic", 0.5, 13, 1.55), cement = Body(
            grid, "invented cement", 0.1, 1.5, 1.52);
        (string Name, double Reflectance)[] stumps = [("cervical", 0.2), ("body", 0.12), ("incisal", 0.35)];
        return new Restoration(
            stumps.Select(stump => new Zone(
                stump.Name,
                Substrate.FromMeasuredReflectance($"{stump.Name} stump",
                ReflectanceSpectrum.Uniform(grid, stump.Reflectance), 1.54,
                MeasurementGeometry.DiffuseSpecularIncluded, area: ReadingArea.Large),
                1.2,
                MaskingReference.SelfBacked)),
            new Ceramic("invented ceramic", 1, ceramic) { Strength = StrengthLimit.Of(StrengthLimitMm) },
            new Layer(cement, 0.05),
            ColorCriterion.AcceptabilityThreshold)
        {
            Viewing = new ViewingConditions { Colorimeters = [Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree] },
            WallRange = new ThicknessRange(0.3, 5),
        };
    }

    private static Material Body(WavelengthGrid grid, string name, double absorption, double scattering,
        double index) => new(
        name,
        TwoFluxModel.Instance,
        new AbsorptionSpectrum(grid,
        [.. Enumerable.Range(0, grid.Count).Select(i => 0.03 + (absorption * Math.Exp(-i / 8.0)))]),
        new ScatteringSpectrum(grid,
        [.. Enumerable.Range(0, grid.Count).Select(i => scattering * (1.15 - (0.01 * i)))]),
        index,
        CoefficientUncertainty.OfScale(grid, 0.03));
}
