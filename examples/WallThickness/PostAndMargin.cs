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
/// spreads sideways.</summary>
internal static class PostAndMargin
{
    private const int Finer = 3, Width = 1320, Height = 820;
    private const double PostRadiusMm = 1.2, PostHeightMm = 5, MarginMm = 1.8;

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
                    + $"each alone, at {Share(spread, limit):0} % with light that spreads sideways; largest difference "
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
        Substrate dentine = Substrate.FromMeasuredReflectance("dentine", Rising(0.3, 0.6), 1.54,
            MeasurementGeometry.DiffuseSpecularIncluded);
        Substrate dark = Substrate.FromMeasuredReflectance("dark margin", Rising(0.08, 0.2), 1.54,
            MeasurementGeometry.DiffuseSpecularIncluded);
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
        using Sheet sheet = new(Width, Height);
        ColorScale scale = ColorScale.FromZero(alone.Concat(spread));
        sheet.Text("Difference from the same crown over dentine, CIEDE2000 (invented crown)", 40, 44, 22);
        Labial("each point alone", alone, 300);
        Labial("with light that spreads sideways", spread, 790);
        Func<double, float> at = sheet.Scale(scale, 1120, 120, 440);
        sheet.Line(new SKPoint(1112, at(limit)), new SKPoint(1158, at(limit)), 2);
        sheet.Wrapped(
            string.Create(CultureInfo.InvariantCulture, $"limit {limit:0.0}"), 1040, at(limit) + 5, 70);
        sheet.Text(
            string.Create(
                CultureInfo.InvariantCulture,
                $"Labial views; metal post of radius {PostRadiusMm:0.0} mm, dark margin of {MarginMm:0.0} mm. "
                    + $"Thick line: the difference is at the limit. Thin line: rim of a stump."),
            40, 715, 15);
        float y = 745;
        foreach (Caution caution in cautions.Where(caution => caution.Kind
            is CautionKind.StrengthNotAssessed or CautionKind.ToothReduction or CautionKind.SidewaysLight))
        {
            y = sheet.Wrapped($"! {caution}", 40, y, Width - 80, 14);
        }

        sheet.Save(path);

        void Labial(string title, double[] differences, float x)
        {
            Placement place = new(View.Labial, x, 640, 56);
            sheet.Mesh(mesh, differences, scale, place);
            sheet.Contour(mesh, point => differences[point] - limit, place, 2);
            sheet.Contour(mesh, point => StumpOf(mesh.Vertices[point]) == 0 ? 1 : -1, place, 1, hasHalo: false);
            sheet.Text(title, x, 682, 18, SKTextAlign.Center);
        }
    }
}
