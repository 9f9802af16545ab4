using System.Globalization;
using System.Numerics;
using CeramicOptics.Mapping;
using SkiaSharp;

namespace CeramicOptics.Examples.WallThickness;

/// <summary>The mesh with everything that is known of its points; what the numbers and colours mean stands in the
/// header.</summary>
internal static class PlyFile
{
    public static void Save(string path, Mesh mesh, WallAnswers answers)
    {
        ColorScale scale = ColorScale.FromZero(answers.MissingMm);
        using StreamWriter writer = new(path) { NewLine = "\n" };
        writer.WriteLine("ply\nformat ascii 1.0");
        foreach (string line in Legend(answers, scale))
        {
            writer.WriteLine($"comment {line}");
        }

        writer.WriteLine($"element vertex {mesh.Vertices.Length}");
        foreach (string property in new[]
        {
            "float x", "float y", "float z", "uchar red", "uchar green", "uchar blue", "float thickness_mm",
            "float missing_mm", "uchar status", "uchar zone", "float suggested_mm", "float room_mm",
            "uchar wall_status",
        })
        {
            writer.WriteLine($"property {property}");
        }

        writer.WriteLine($"element face {mesh.Triangles.Length}\nproperty list uchar int vertex_indices\nend_header");
        for (int i = 0; i < mesh.Vertices.Length; i++)
        {
            SKColor color = scale.ColorOf(answers.MissingMm[i]);
            Vector3 v = mesh.Vertices[i];
            writer.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{v.X:0.####} {v.Y:0.####} {v.Z:0.####} {color.Red} {color.Green} {color.Blue} "
                        + $"{Known(answers.ThicknessesMm[i])} {Known(answers.MissingMm[i])} {answers.Statuses[i]} "
                        + $"{answers.Zones[i]} {Known(answers.SuggestedMm[i])} {Known(answers.RoomMm[i])} "
                        + $"{(byte)answers.Suggestion.Statuses[i]}"));
        }

        foreach ((int a, int b, int c) in mesh.Triangles)
        {
            writer.WriteLine($"3 {a} {b} {c}");
        }
    }

    private static IEnumerable<string> Legend(WallAnswers answers, ColorScale scale)
    {
        yield return "invented crown, invented materials; coordinates and thicknesses in mm; -1 where nothing is known";
        yield return "colour: thickness missing to the recommended wall (missing_mm); red green blue of some values:";
        foreach (double tick in scale.Ticks)
        {
            SKColor color = scale.ColorOf(tick);
            yield return $"  {Sheet.Number(tick)} mm: {color.Red} {color.Green} {color.Blue}";
        }

        yield return $"  nothing known: {ColorScale.NoValue.Red} {ColorScale.NoValue.Green} {ColorScale.NoValue.Blue}";
        yield return "suggested_mm: wall suggested for review; room_mm: room that it needs beyond the available "
            + "thickness";
        foreach ((byte status, string name) in answers.StatusNames)
        {
            yield return $"status {status} of the present wall: {name}";
        }

        foreach (WallStatus status in Enum.GetValues<WallStatus>().Where(one => answers.Suggestion.Count(one) > 0))
        {
            yield return $"wall_status {(byte)status} of the suggested wall: {status}";
        }

        for (int zone = 0; zone < answers.Requirements.Count; zone++)
        {
            yield return $"zone {zone}: {answers.Requirements[zone]}";
        }

        foreach (object caution in answers.Cautions)
        {
            yield return $"! {caution}";
        }
    }

    private static string Known(double mm) =>
        double.IsNaN(mm) ? "-1" : mm.ToString("0.####", CultureInfo.InvariantCulture);
}
