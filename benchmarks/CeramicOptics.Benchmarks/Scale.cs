using System.Diagnostics;
using System.Globalization;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Benchmarks;

/// <summary>How cost grows: a study of materials, a long stream of points, and one factor at a time.</summary>
/// <remarks>All ceramics and stumps are invented. Prints tables in Markdown; docs/speed.md holds those of one run.</remarks>
internal static class Scale
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 10);

    private static readonly Colorimeter[] Lights =
    [
        Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree, new(Observer.Cie1931TwoDegree, Illuminant.F11),
        new(Observer.Cie1931TwoDegree, Illuminant.D50), new(Observer.Cie1931TwoDegree, Illuminant.LedB3),
    ];

    public static int Run()
    {
        Study(20);
        Study(1000);
        Stream(50_000_000);
        Growth();
        return 0;
    }

    // Colours of every ceramic over every stump at every thickness under every light, by radiative transfer; the mean
    // difference from the thickest wall is kept of each, so that memory does not grow.
    private static void Study(int ceramics)
    {
        const int Stumps = 50, Thicknesses = 20;
        Substrate[] stumps = [.. Enumerable.Range(0, Stumps).Select(i => Stump(Grid, 0.02 + (0.5 * i / Stumps)))];
        WeightingTable[] tables = [.. Lights.Select(light => light.Weighting(Grid))];
        double[] means = new double[ceramics];
        long began = Stopwatch.GetTimestamp(), allocated = GC.GetTotalAllocatedBytes();
        Parallel.For(
            0, ceramics, () => new Workspace(Thicknesses, Grid.Count),
            (i, _, work) =>
            {
                StackResponse response = Stack(Grid, 1 + (0.01 * (i % 100)), 2 + (i / 100), stumps[0]).Compile(
                    MeasurementGeometry.DiffuseSpecularIncluded,
                    [new VariableThickness(0, new ThicknessRange(0.2, 3))]);
                means[i] = work.Mean(response, stumps, tables);
                return work;
            },
            _ => { });
        double seconds = Stopwatch.GetElapsedTime(began).TotalSeconds;
        double each = (GC.GetTotalAllocatedBytes() - allocated) / 1024.0 / ceramics;
        double heap = GC.GetGCMemoryInfo().HeapSizeBytes / 1048576.0;
        Print($"{ceramics} ceramics x {Stumps} stumps x {Thicknesses} thicknesses x {tables.Length} lights:");
        Print($"{seconds:F2} s, {each:F0} KiB allocated a ceramic, heap {heap:F0} MiB, mean {means.Average():F3}");
    }

    // A mesh in parts: thicknesses of a part are made, judged and dropped.
    private static void Stream(int points)
    {
        const int Part = 65_536;
        ThicknessMap map = Map(Grid, 1, 1);
        double[] mm = new double[Part], differences = new double[Part];
        PointStatus[] statuses = new PointStatus[Part];
        Random random = new(1);
        for (int i = 0; i < Part; i++)
        {
            mm[i] = 0.3 + random.NextDouble();
        }

        long[] counts = new long[256];
        long began = Stopwatch.GetTimestamp(), allocated = GC.GetTotalAllocatedBytes();
        for (int done = 0; done < points; done += Part)
        {
            int count = Math.Min(Part, points - done);
            map.Differences(mm.AsSpan(0, count), differences.AsSpan(0, count));
            map.Statuses(mm.AsSpan(0, count), statuses.AsSpan(0, count));
            for (int i = 0; i < count; i++)
            {
                counts[(byte)statuses[i]]++;
            }
        }

        double seconds = Stopwatch.GetElapsedTime(began).TotalSeconds;
        double kib = (GC.GetTotalAllocatedBytes() - allocated) / 1024.0;
        Print($"{points} points in parts of {Part}: {seconds:F2} s, {seconds * 1e9 / points:F1} ns a point,");
        Print($"{kib:F0} KiB allocated, {counts.Count(n => n > 0)} statuses");
    }

    private static void Growth()
    {
        Print("\n| what | compile, ms | one wall with spectrum and colour, ns |\n|---|---|---|");
        foreach (double step in (double[])[20, 10, 5, 2, 1])
        {
            WavelengthGrid grid = WavelengthGrid.Range(400, 700, step);
            Row($"{grid.Count} wavelengths", grid, 1, 1);
        }

        for (int layers = 1; layers <= 4; layers++)
        {
            Row($"{layers} layers, 31 wavelengths", Grid, layers, 1);
        }

        for (int lights = 1; lights <= 5; lights += 2)
        {
            Row($"{lights} lights, 31 wavelengths", Grid, 1, lights);
        }

        Print("\n| map of 31 wavelengths | compile, ms | one point, ns |\n|---|---|---|");
        foreach (int lights in (int[])[1, 3, 5])
        {
            ThicknessMap? map = null;
            double compile = Best(3, () => map = Map(Grid, lights, 1));
            foreach (int points in (int[])[1_000, 100_000, 10_000_000])
            {
                double[] mm = [.. Enumerable.Repeat(0.8, points)], differences = new double[points];
                double each = Best(5, () => map!.Differences(mm, differences)) * 1e6 / points;
                Print($"| {lights} lights, {points} points | {compile:F0} | {each:F1} |");
            }
        }
    }

    private static void Row(string what, WavelengthGrid grid, int layers, int lights)
    {
        Substrate stump = Stump(grid, 0.2);
        StackResponse? response = null;
        double compile = Best(5, () =>
        {
            List<Layer> parts = [new Layer(Ceramic(grid, 1, 4), 1)];
            for (int i = 1; i < layers; i++)
            {
                parts.Add(new Layer(Ceramic(grid, 1 + i, 1), 0.1));
            }

            response = new LayerStack(parts, stump).Compile(
                MeasurementGeometry.DiffuseSpecularIncluded, [new VariableThickness(0, new ThicknessRange(0.2, 3))]);
        });
        const int Walls = 2_000;
        WeightingTable[] tables = [.. Lights.Take(lights).Select(light => light.Weighting(grid))];
        double[] values = new double[Walls * grid.Count], mm = [0];
        Lab[] colors = new Lab[Walls];
        double each = Best(9, () =>
        {
            for (int i = 0; i < Walls; i++)
            {
                mm[0] = 0.2 + (2.8 * i / Walls);
                response!.Reflectance(mm, stump, values.AsSpan(i * grid.Count, grid.Count));
            }

            foreach (WeightingTable table in tables)
            {
                table.ToLab(values, colors);
            }
        }) * 1e6 / Walls;
        Print($"| {what} | {compile:F1} | {each:F0} |");
    }

    private static ThicknessMap Map(WavelengthGrid grid, int lights, int zones)
    {
        Restoration crown = new(
            [.. Enumerable.Range(0, zones).Select(
                i => new Zone($"zone {i}", Stump(grid, 0.1 + (0.1 * i)), 1, MaskingReference.SelfBacked))],
            new Ceramic("invented", 1, Ceramic(grid, 1, 4)) { Strength = StrengthLimit.Of(0.5) },
            new Layer(Ceramic(grid, 1, 1), 0.05), ColorCriterion.AcceptabilityThreshold)
        {
            Viewing = new ViewingConditions { Colorimeters = [.. Lights.Take(lights)] },
        };
        return new ThicknessMap(crown.Zones.Select(zone => ThicknessResponse.Compile(crown, zone)));
    }

    private static LayerStack Stack(WavelengthGrid grid, double k, double s, Substrate stump) =>
        new([new Layer(Ceramic(grid, k, s), 1), new Layer(Ceramic(grid, 1, 1), 0.05)], stump);

    // Absorption falls and scattering falls from blue to red, as in ceramics.
    private static Material Ceramic(WavelengthGrid grid, double k, double s) => new(
        "invented", TransportModel.Default,
        new AbsorptionSpectrum(grid, Along(grid, x => k * (0.1 - (0.08 * x)))),
        new ScatteringSpectrum(grid, Along(grid, x => s * (1.2 - (0.4 * x)))), 1.53);

    private static Substrate Stump(WavelengthGrid grid, double blue) => Substrate.FromInternalReflectance(
        "invented stump", new ReflectanceSpectrum(grid, Along(grid, x => blue + (0.3 * x))), 1.54);

    private static double[] Along(WavelengthGrid grid, Func<double, double> value) =>
        [.. Enumerable.Range(0, grid.Count).Select(i => value((grid[i] - grid[0]) / (grid[grid.Count - 1] - grid[0])))];

    private static double Best(int rounds, Action work)
    {
        double best = double.PositiveInfinity;
        for (int round = 0; round < rounds; round++)
        {
            long from = Stopwatch.GetTimestamp();
            work();
            best = Math.Min(best, Stopwatch.GetElapsedTime(from).TotalMilliseconds);
        }

        return best;
    }

    private static void Print(FormattableString text) => Console.WriteLine(text.ToString(CultureInfo.InvariantCulture));

    private static void Print(string text) => Console.WriteLine(text);

    private sealed class Workspace(int thicknesses, int wavelengths)
    {
        private readonly double[] _values = new double[thicknesses * wavelengths], _mm = [0];
        private readonly double[] _differences = new double[thicknesses];
        private readonly Lab[] _colors = new Lab[thicknesses], _thickest = new Lab[thicknesses];

        public double Mean(StackResponse response, Substrate[] stumps, WeightingTable[] tables)
        {
            double sum = 0;
            foreach (Substrate stump in stumps)
            {
                for (int i = 0; i < thicknesses; i++)
                {
                    _mm[0] = 0.2 + (2.8 * i / (thicknesses - 1));
                    response.Reflectance(_mm, stump, _values.AsSpan(i * wavelengths, wavelengths));
                }

                foreach (WeightingTable table in tables)
                {
                    table.ToLab(_values, _colors);
                    _thickest.AsSpan().Fill(_colors[thicknesses - 1]);
                    ColorDifference.Ciede2000(_thickest, _colors, _differences);
                    sum += _differences.Sum() / thicknesses / tables.Length / stumps.Length;
                }
            }

            return sum;
        }
    }
}
