using System.Globalization;
using System.Numerics;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;
using SkiaSharp;

namespace CeramicOptics.Examples.WallThickness;

/// <summary>Where on an invented crown the wall is too thin to hide the stump, and how much is missing.</summary>
internal static class Program
{
    private const double StrengthLimitMm = 0.5, MaximumSlope = 0.5, MarginMm = 0.7;

    private static void Main(string[] args)
    {
        string output = args.Length > 0 ? args[0] : "out";
        Mesh outside = InventedCrown.Outside(), preparation = InventedCrown.Preparation();
        Vector3[] normals = outside.Normals();
        double[] thicknesses = new double[outside.Vertices.Length], missing = new double[thicknesses.Length];
        PointStatus[] statuses = new PointStatus[thicknesses.Length];

        // The margin, where wall and tooth meet, is another question and left out.
        Parallel.For(
            0, thicknesses.Length,
            i =>
                thicknesses[i] = outside.Vertices[i].Z < MarginMm
                    ? double.NaN
                    : preparation.Distance(outside.Vertices[i], -normals[i]));
        byte[] zones = [.. outside.Vertices.Select(InventedCrown.ZoneOf)];

        WavelengthGrid grid = WavelengthGrid.Range(400, 700, 10);
        Restoration crown = Crown(grid);
        ThicknessMap map = new(crown.Zones.Select(zone => ThicknessResponse.Compile(crown, zone)));
        map.Statuses(thicknesses, statuses, zones);
        map.MissingThicknesses(thicknesses, missing, zones);
        WallSuggestion suggestion = WallSuggestion.Find(map, thicknesses, outside.Edges(), MaximumSlope, zones);

        Console.WriteLine("Invented crown, invented materials.");
        for (int zone = 0; zone < map.Zones.Count; zone++)
        {
            int[] points = [.. Enumerable.Range(0, zones.Length).Where(
                i => zones[i] == zone && !double.IsNaN(thicknesses[i]))];
            int masked = points.Count(i => statuses[i] == PointStatus.MaskedByColor);
            (double thinnest, double thickest) = (points.Min(i => thicknesses[i]), points.Max(i => thicknesses[i]));
            Console.WriteLine($"{map.Zones[zone].Requirement}");
            Console.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"    wall {thinnest:0.00} to {thickest:0.00} mm; {100.0 * masked / points.Length:0} % masked "
                        + $"by the prediction, recommended wall missing by up to "
                            + $"{points.Max(i => Math.Max(0, missing[i])):0.00} mm"));
        }

        double room = suggestion.ReductionsMm.Where(mm => !double.IsNaN(mm)).DefaultIfEmpty(0).Max();
        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"Suggested wall, at most {MaximumSlope:0.0} mm thicker for a mm of surface: up to {room:0.00} mm "
                    + $"more room than available."));
        foreach (Caution caution in suggestion.Cautions)
        {
            Console.WriteLine($"! {caution}");
        }

        Directory.CreateDirectory(output);
        double largest = Math.Max(0.1, missing.Where(mm => !double.IsNaN(mm)).DefaultIfEmpty(0).Max());
        Picture.Save(Path.Combine(output, "wall-thickness.png"), outside, missing, largest);
        SavePly(Path.Combine(output, "wall-thickness.ply"), outside, thicknesses, missing, largest);
        PostAndMargin.Save(Path.Combine(output, "sideways-light.png"), preparation);
        Console.WriteLine(
            $"written: {Path.Combine(output, "wall-thickness.png")}, {Path.Combine(output, "wall-thickness.ply")}, "
                + $"{Path.Combine(output, "sideways-light.png")}");
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
                ReflectanceSpectrum.Uniform(grid, stump.Reflectance), 1.54, area: ReadingArea.Large),
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

    private static void SavePly(string path, Mesh mesh, double[] thicknesses, double[] missing, double largest)
    {
        using StreamWriter writer = new(path) { NewLine = "\n" };
        writer.WriteLine("ply\nformat ascii 1.0\ncomment invented crown; red green blue: missing wall");
        writer.WriteLine(
            $"element vertex {mesh.Vertices.Length}\nproperty float x\nproperty float y\nproperty float z\nproperty "
                + $"uchar red\nproperty uchar green\nproperty uchar blue\nproperty float thickness_mm");
        writer.WriteLine($"element face {mesh.Triangles.Length}\nproperty list uchar int vertex_indices\nend_header");
        for (int i = 0; i < mesh.Vertices.Length; i++)
        {
            SKColor color = Picture.ColorOf(missing[i], largest);
            Vector3 v = mesh.Vertices[i];
            writer.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{v.X:0.####} {v.Y:0.####} {v.Z:0.####} {color.Red} {color.Green} {color.Blue} "
                        + $"{(double.IsNaN(thicknesses[i]) ? -1 : thicknesses[i]):0.####}"));
        }

        foreach ((int a, int b, int c) in mesh.Triangles)
        {
            writer.WriteLine($"3 {a} {b} {c}");
        }
    }
}
