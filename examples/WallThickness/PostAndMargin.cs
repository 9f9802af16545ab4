using System.Globalization;
using System.Numerics;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;
using SkiaSharp;

namespace CeramicOptics.Examples.WallThickness;

/// <summary>A metal post and a dark cervical margin under the invented crown: each point alone, and with the light that
/// goes sideways.</summary>
internal static class PostAndMargin
{
    private const int Finer = 3, Width = 1320, Height = 820;
    private const double PostRadiusMm = 1.2, PostHeightMm = 5, MarginMm = 1.8;

    private static readonly SKColor[] Scale = [SKColor.Parse("#FDF6E3"), SKColor.Parse("#F6C77D"), SKColor.Parse(
        "#D9743F"), SKColor.Parse("#8F2D56"), SKColor.Parse("#2B1B4B")];

    public static void Save(string path, Mesh preparation)
    {
        Mesh outside = InventedCrown.Outside(Finer);
        Vector3[] normals = outside.Normals();
        double[] thicknesses = new double[outside.Vertices.Length];
        Parallel.For(0, thicknesses.Length, i =>
            thicknesses[i] = preparation.Distance(outside.Vertices[i], -normals[i]));
        byte[] stumps = [.. outside.Vertices.Select(StumpOf)];

        Restoration crown = Crown();
        SpreadMap map = SpreadMap.Compile(crown, crown.Zones.Select(zone => zone.Stump));
        SpreadField field = map.Over(outside.ToMapMesh(), thicknesses, stumps, stumps);
        double[] alone = new double[stumps.Length], spread = new double[stumps.Length];
        map.Plain.Differences(thicknesses, alone, stumps);
        field.Differences(spread);
        double limit = crown.Criterion.Limit;
        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"Post and dark margin under glass-ceramic: above {limit:0.0} at {Share(alone, limit):0} % of points "
                    + $"each alone, at {Share(spread, limit):0} % with light that goes sideways; largest difference "
                    + $"{Largest(alone):0.0} and {Largest(spread):0.0}."));
        Draw(path, outside, alone, spread, limit, map.Cautions);
    }

    private static double Share(double[] differences, double limit) =>
        100.0 * differences.Count(value => value > limit) / differences.Count(value => !double.IsNaN(value));

    private static double Largest(double[] differences) => differences.Where(value => !double.IsNaN(value)).Max();

    // 0 dentine, 1 dark margin, 2 post, which shows on the labial side.
    private static byte StumpOf(Vector3 point)
    {
        double up = point.Z - PostHeightMm;
        return point.Z < MarginMm ? (byte)1
            : point.Y < 0 && (point.X * point.X) + (up * up) < PostRadiusMm * PostRadiusMm ? (byte)2
            : (byte)0;
    }

    private static Restoration Crown()
    {
        WavelengthGrid grid = WavelengthGrid.Range(400, 700, 10);
        ReflectanceSpectrum Rising(double blue, double red) => new(
            grid, [.. Enumerable.Range(0, grid.Count).Select(i => blue + ((red - blue) * i / (grid.Count - 1.0)))]);
        Material Of(string name, double absorption, double scattering, double index) => new(
            name, TransportModel.Default,
            new AbsorptionSpectrum(
                grid, [.. Enumerable.Range(0, grid.Count).Select(i => 0.02 + (absorption * Math.Exp(-i / 8.0)))]),
            new ScatteringSpectrum(
                grid, [.. Enumerable.Range(0, grid.Count).Select(i => scattering * (1.15 - (0.01 * i)))]),
            index, CoefficientUncertainty.OfScale(grid, 0.03));
        Substrate dentine = Substrate.FromMeasuredReflectance("dentine", Rising(0.3, 0.6), 1.54);
        Substrate dark = Substrate.FromMeasuredReflectance("dark margin", Rising(0.08, 0.2), 1.54);
        Substrate post = Substrate.OpaqueMetal("metal post", Rising(0.2, 0.25));
        MaskingReference overDentine = MaskingReference.Over(dentine);
        return new Restoration(
            new[] { dentine, dark, post }.Select(stump => new Zone(stump.Name, stump, 1.2, overDentine)),
            new Ceramic("invented glass-ceramic", 2, Of("invented glass-ceramic", 0.2, 3, 1.53))
            {
                Strength = StrengthLimit.Of(0.8),
            },
            new Layer(Of("invented cement", 0.1, 0.8, 1.52), 0.05),
            ColorCriterion.AcceptabilityThreshold)
        {
            WallRange = new ThicknessRange(0.3, 5),
        };
    }

    private static void Draw(
        string path, Mesh mesh, double[] alone, double[] spread, double limit, IReadOnlyList<Caution> cautions)
    {
        double largest = Math.Ceiling(Math.Max(Largest(alone), Largest(spread)));
        using SKBitmap bitmap = new(Width, Height);
        using SKCanvas canvas = new(bitmap);
        canvas.Clear(SKColors.White);
        using SKTypeface typeface = SKTypeface.FromFile(
            Path.Combine(AppContext.BaseDirectory, "assets", "DejaVuSans.ttf"));
        using SKFont font = new(typeface, 20), small = new(typeface, 15);
        using SKPaint ink = new() { Color = SKColors.Black, IsAntialias = true };
        Picture.Draw(canvas, mesh, alone, value => ColorOf(value, largest), 300, -1);
        Picture.Draw(canvas, mesh, spread, value => ColorOf(value, largest), 790, -1);
        canvas.DrawText("Difference from the same crown over dentine, CIEDE2000 (invented crown)", 40, 40, font, ink);
        canvas.DrawText("each point alone", 215, 690, font, ink);
        canvas.DrawText("with light that goes sideways", 640, 690, font, ink);
        for (int i = 0; i <= 400; i++)
        {
            using SKPaint paint = new() { Color = ColorOf(largest * i / 400, largest) };
            canvas.DrawRect(1160, 560 - i, 36, 2, paint);
        }

        Mark(0, "0");
        Mark(limit, string.Create(CultureInfo.InvariantCulture, $"{limit:0.0} limit"));
        Mark(largest / 2, string.Create(CultureInfo.InvariantCulture, $"{largest / 2:0.#}"));
        Mark(largest, string.Create(CultureInfo.InvariantCulture, $"{largest:0}"));
        canvas.DrawText("labial views; metal post of radius 1.2 mm, dark margin of 1.8 mm", 40, 725, small, ink);
        IEnumerable<Caution> shown = cautions.Where(caution => caution.Kind
            is CautionKind.StrengthNotAssessed or CautionKind.ToothReduction or CautionKind.SidewaysLight);
        float line = 752;
        foreach (Caution caution in shown)
        {
            canvas.DrawText($"! {caution}", 40, line, small, ink);
            line += 22;
        }

        using FileStream file = File.Create(path);
        bitmap.Encode(file, SKEncodedImageFormat.Png, 100);

        void Mark(double value, string text)
        {
            float y = (float)(560 - (400 * value / largest));
            canvas.DrawLine(1196, y, 1204, y, ink);
            canvas.DrawText(text, 1210, y + 6, small, ink);
        }
    }

    private static SKColor ColorOf(double difference, double largest)
    {
        if (double.IsNaN(difference))
        {
            return SKColors.DimGray;
        }

        double at = (Scale.Length - 1) * Math.Min(Math.Max(difference / largest, 0), 1);
        int left = Math.Min((int)at, Scale.Length - 2);
        byte Mix(byte one, byte two) => (byte)(one + ((at - left) * (two - one)));
        return new SKColor(
            Mix(Scale[left].Red, Scale[left + 1].Red), Mix(Scale[left].Green, Scale[left + 1].Green),
            Mix(Scale[left].Blue, Scale[left + 1].Blue));
    }
}
