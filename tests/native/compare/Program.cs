// Asks .NET what check.py asked the shared library, compares, and times both in one run.
// usage: compare ANSWERS LIBRARY, ANSWERS being what check.py printed.
using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Exchange;
using CeramicOptics.Layers;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Mapping;
using CeramicOptics.Native;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

WavelengthGrid grid = WavelengthGrid.Range(400, 700, 10);
double[] Spectrum(double first, double slope) => [.. Enumerable.Range(0, 31).Select(i => first + (slope * i))];
Material ceramic = new(
    "core", TwoFluxModel.Instance, new AbsorptionSpectrum(grid, Spectrum(0.2, -0.004)),
    new ScatteringSpectrum(grid, Spectrum(7, -0.05)), 1.55, CoefficientUncertainty.OfScale(grid, 0.03));
Substrate stump = Substrate.FromMeasuredReflectance(
    "stump", new ReflectanceSpectrum(grid, Spectrum(0.1, 0.006)), 1.54, MeasurementGeometry.DiffuseSpecularIncluded);
Zone zone = new("Stumpf é", stump, 2.5, MaskingReference.SelfBacked);
Restoration crown = new(
    [zone], new Ceramic("core", 1, ceramic) { Strength = StrengthLimit.Of(0.8) },
    new CouplingMedium("coupling medium", 1.47),
    new ColorCriterion("limit of the caller", ColorDifferenceFormula.Ciede2000, 1.8, "the caller"))
{
    WallRange = new ThicknessRange(0.3, 2.5),
    Viewing = new ViewingConditions
    {
        Colorimeters = [.. new[] { "D65", "FL11" }.Select(
            name => new Colorimeter(Observer.Cie1931TwoDegree, Illuminant.Named(name)))],
    },
};
ThicknessResponse response = ThicknessResponse.Compile(crown, zone);
ThicknessMap map = new([response]);
MinimumThickness minimum = response.Requirement.Minimum;
const int Count = 23;
double[] mm = [.. Enumerable.Range(0, Count - 1).Select(i => 0.3 + (0.1 * i)), 2.5];
double[] differences = new double[Count], missing = new double[Count];
Lab[] colors = new Lab[Count];
PointStatus[] statuses = new PointStatus[Count];
map.Differences(mm, differences);
map.MissingThicknesses(mm, missing);
map.Colors(mm, colors);
map.Statuses(mm, statuses);
Dictionary<string, double> expected = new()
{
    ["by_color_mm"] = minimum.ByColorMm!.Value,
    ["reliable_mm"] = minimum.ReliableMm!.Value,
    ["structural_mm"] = minimum.StructuralMm!.Value,
    ["recommended_mm"] = minimum.RecommendedMm!.Value,
    ["standard_uncertainty_mm"] = minimum.StandardUncertaintyMm!.Value,
};
for (int i = 0; i < Count; i++)
{
    (string, double)[] values = [("difference", differences[i]), ("L", colors[i].L), ("a", colors[i].A),
        ("b", colors[i].B), ("missing", missing[i]), ("status", (double)statuses[i])];
    foreach ((string name, double value) in values)
    {
        expected[$"{name} {i}"] = value;
    }
}

Zone windows = new(
    "Stumpf é", Substrate.FromMeasuredReflectance("Stumpf é stump", new ReflectanceSpectrum(grid, Spectrum(0.1, 0.006)),
        1.54, MeasurementGeometry.DiffuseSpecularIncluded, ReadingArea.Circular(3, 2)), 2.5,
    Target.FromColor("target", new Lab(72, 2, 16), Colorimeter.D65TwoDegree,
        MeasurementGeometry.DiffuseSpecularIncluded, ReadingArea.Circular(5, 4)));
foreach (Caution lost in ThicknessResponse.Compile(crown.WithZones([windows]), windows).Requirement.Cautions
    .Where(caution => caution.Kind == CautionKind.LightLostSideways))
{
    expected[$"percent lost of {lost.Subject}"] = Math.Round(100 * lost.Value!.Value);
}

int wrong = 0, compared = 0;
foreach (string[] parts in File.ReadLines(args[0]).Select(line => line.Split('\t')))
{
    double given = double.Parse(parts[1], CultureInfo.InvariantCulture);
    if (!(Math.Abs(given - expected[parts[0]]) <= 1e-9 * Math.Max(1, Math.Abs(given))))
    {
        Console.WriteLine($"FAILED: {parts[0]} is {given} but {expected[parts[0]]} in .NET");
        wrong++;
    }

    compared++;
}

if (compared != expected.Count)
{
    Console.WriteLine($"FAILED: {compared} answers instead of {expected.Count}");
    wrong++;
}

Console.WriteLine($"{compared} answers of ctypes are those of .NET to 1e-9");
wrong += Timing.Run(args[1], response, map);
return wrong == 0 ? 0 : 1;

internal static unsafe class Timing
{
    private const int Points = 1_000_000, Passes = 15;

    public static int Run(string path, ThicknessResponse response, ThicknessMap map)
    {
        nint library = NativeLibrary.Load(Path.GetFullPath(path));
        var load = (delegate* unmanaged[Cdecl]<int, byte**, long*, int, ulong*, int>)
            NativeLibrary.GetExport(library, "ceramic_map_load");
        var colorsOf = (delegate* unmanaged[Cdecl]<ulong, PointsInput*, void*, long, int>)
            NativeLibrary.GetExport(library, "ceramic_colors");
        var statusesOf = (delegate* unmanaged[Cdecl]<ulong, PointsInput*, byte*, long, int>)
            NativeLibrary.GetExport(library, "ceramic_statuses");
        using MemoryStream stream = new();
        ResponseJson.Write(response, stream);
        ulong made = 0;
        fixed (byte* file = stream.ToArray())
        {
            byte* files = file;
            long length = stream.Length;
            if (load(1, &files, &length, 1, &made) != 0)
            {
                Console.WriteLine("FAILED: a response that .NET saved is not read by the shared library");
                return 1;
            }
        }

        ulong native = made;

        // Neighbouring points are alike, as on a surface.
        double[] mm = [.. Enumerable.Range(0, Points).Select(i => 1.4 + (1.05 * Math.Sin(i * 1e-4)))];
        float[] interleaved = new float[4 * Points];
        for (int i = 0; i < Points; i++)
        {
            interleaved[(4 * i) + 3] = (float)mm[i];
        }

        Lab[] colors = new Lab[Points], nativeColors = new Lab[Points];
        float[] floats = new float[3 * Points];
        PointStatus[] statuses = new PointStatus[Points], nativeStatuses = new PointStatus[Points];
        fixed (double* at = mm)
        fixed (float* mesh = interleaved, singleColors = floats)
        fixed (Lab* to = nativeColors)
        fixed (PointStatus* status = nativeStatuses)
        {
            PointsInput packed = new()
            {
                Size = (uint)sizeof(PointsInput), Type = 2, Count = Points, Thickness = (byte*)at, ThicknessStride = 8,
            };
            PointsInput single = packed with { Type = 1, Thickness = (byte*)(mesh + 3), ThicknessStride = 16 };
            PointsInput* doubles = &packed, singles = &single;
            (nint lab, nint byTo, nint floatsTo) = ((nint)to, (nint)status, (nint)singleColors);
            nint from = (nint)doubles, fromFloats = (nint)singles;
            double[] ns = Best(
                () => map.Colors(mm, colors),
                () => colorsOf(native, (PointsInput*)from, (void*)lab, 24),
                () => colorsOf(native, (PointsInput*)fromFloats, (void*)floatsTo, 12),
                () => map.Statuses(mm, statuses),
                () => statusesOf(native, (PointsInput*)from, (byte*)byTo, 1),
                () => statusesOf(native, (PointsInput*)fromFloats, (byte*)byTo, 1));
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"ns a point, best of {Passes}: colours .NET {ns[0]:0.0}, C {ns[1]:0.0}, C interleaved floats "
                    + $"{ns[2]:0.0}; statuses .NET {ns[3]:0.0}, C {ns[4]:0.0}, C interleaved floats {ns[5]:0.0}"));
            statusesOf(native, doubles, (byte*)byTo, 1);
        }

        if (!colors.AsSpan().SequenceEqual(nativeColors) || !statuses.AsSpan().SequenceEqual(nativeStatuses))
        {
            Console.WriteLine("FAILED: colours or statuses of C are not those of .NET");
            return 1;
        }

        return 0;
    }

    // Passes take turns, so that a busy moment is shared.
    private static double[] Best(params Action[] actions)
    {
        double[] best = new double[actions.Length];
        Array.Fill(best, double.PositiveInfinity);
        for (int pass = 0; pass < Passes; pass++)
        {
            for (int i = 0; i < actions.Length; i++)
            {
                long start = Stopwatch.GetTimestamp();
                actions[i]();
                best[i] = Math.Min(best[i], Stopwatch.GetElapsedTime(start).TotalNanoseconds / Points);
            }
        }

        return best;
    }
}
