using System.Numerics;
using SkiaSharp;

namespace CeramicOptics.Examples.WallThickness;

/// <summary>The crown from the labial and the palatal side, coloured by a value, with its scale.</summary>
internal static class Picture
{
    private const int Width = 1320, Height = 760;

    // From blue (thin or far from masked) over white to orange; told apart also with colour-deficient sight, by
    // lightness at both ends.
    private static readonly SKColor[] Scale = [SKColor.Parse("#0072B2"), SKColor.Parse("#8EC2E3"), SKColor.Parse(
        "#F5F5F5"), SKColor.Parse("#F0B27A"), SKColor.Parse("#B34700")];

    public static void Save(string path, Mesh mesh, IReadOnlyList<double> missingMm, double largestMm)
    {
        using SKBitmap bitmap = new(Width, Height);
        using SKCanvas canvas = new(bitmap);
        canvas.Clear(SKColors.White);
        using SKTypeface typeface = SKTypeface.FromFile(
            Path.Combine(AppContext.BaseDirectory, "assets", "DejaVuSans.ttf"));
        using SKFont font = new(typeface, 20);
        using SKPaint ink = new() { Color = SKColors.Black, IsAntialias = true };
        Draw(canvas, mesh, missingMm, missing => ColorOf(missing, largestMm), 300, -1);
        Draw(canvas, mesh, missingMm, missing => ColorOf(missing, largestMm), 770, 1);
        canvas.DrawText("labial", 245, 700, font, ink);
        canvas.DrawText("palatal", 690, 700, font, ink);
        canvas.DrawText("Wall that is missing to hide the stump, mm (invented crown)", 40, 40, font, ink);
        for (int i = 0; i <= 100; i++)
        {
            using SKPaint paint = new() { Color = ColorOf(largestMm * i / 100, largestMm) };
            canvas.DrawRect(1210, 560 - (4 * i), 36, 5, paint);
        }

        canvas.DrawText("0", 1255, 566, font, ink);
        canvas.DrawText(
            string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{largestMm:0.0}"), 1255, 166, font, ink);
        using SKPaint enough = new() { Color = ColorOf(0, largestMm) };
        canvas.DrawRect(1210, 600, 36, 24, enough);
        canvas.DrawText("enough", 1125, 619, font, ink);
        using SKPaint unknown = new() { Color = SKColors.DimGray };
        canvas.DrawRect(1210, 640, 36, 24, unknown);
        canvas.DrawText("margin, left out", 1030, 659, font, ink);
        using FileStream file = File.Create(path);
        bitmap.Encode(file, SKEncodedImageFormat.Png, 100);
    }

    // Painter's order by depth; shading by how much a face is turned to the viewer.
    public static void Draw(
        SKCanvas canvas, Mesh mesh, IReadOnlyList<double> values, Func<double, SKColor> colorOf, float centerX,
        int side)
    {
        const float Pixels = 56;
        SKPoint At(Vector3 v) => new(centerX - (side * v.X * Pixels), 640 - (v.Z * Pixels));
        foreach (
            (int a, int b,
            int c) in mesh.Triangles.OrderBy(t =>
                side * (mesh.Vertices[t.A].Y + mesh.Vertices[t.B].Y + mesh.Vertices[t.C].Y)))
        {
            Vector3 normal = Vector3.Normalize(
                Vector3.Cross(mesh.Vertices[b] - mesh.Vertices[a], mesh.Vertices[c] - mesh.Vertices[a]));
            if (side * normal.Y <= 0)
            {
                continue;
            }

            SKColor color = colorOf((values[a] + values[b] + values[c]) / 3);
            float light = 0.65f + (0.35f * side * normal.Y);
            using SKPath path = new();
            path.AddPoly([At(mesh.Vertices[a]), At(mesh.Vertices[b]), At(mesh.Vertices[c])]);
            using SKPaint paint = new() { Color = new SKColor(
                (byte)(color.Red * light), (byte)(color.Green * light), (byte)(color.Blue * light)) };
            canvas.DrawPath(path, paint);
        }
    }

    /// <summary>Colour of a missing thickness: blue where nothing is missing, then from light to dark orange.</summary>
    public static SKColor ColorOf(double missing, double largest)
    {
        if (double.IsNaN(missing))
        {
            return SKColors.DimGray;
        }

        double at = missing <= 0 ? 0 : 2 + (2 * Math.Min(missing / largest, 1));
        int left = Math.Min((int)at, Scale.Length - 2);
        double f = at - left;
        byte Mix(byte one, byte two) => (byte)(one + (f * (two - one)));
        return new SKColor(
            Mix(Scale[left].Red, Scale[left + 1].Red), Mix(Scale[left].Green, Scale[left + 1].Green),
            Mix(Scale[left].Blue, Scale[left + 1].Blue));
    }
}
