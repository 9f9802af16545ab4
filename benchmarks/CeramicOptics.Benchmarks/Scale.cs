using System.Diagnostics;
using System.Globalization;
using System.Text;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Benchmarks;

/// <summary>How cost grows: a study of materials, a long stream of points, and one factor at a time.</summary>
/// <remarks>All ceramics and stumps are invented.</remarks>
internal static class Scale
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 10);

    private static readonly Colorimeter[] Lights =
    [
        Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree, new(Observer.Cie1931TwoDegree, Illuminant.F11),
        new(Observer.Cie1931TwoDegree, Illuminant.D50), new(Observer.Cie1931TwoDegree, Illuminant.LedB3),
    ];

    /// <summary>Measures, and writes the page and its picture.</summary>
    /// <param name="docs">The folder of the pages.</param>
    public static int Run(string docs)
    {
        Study(20);
        string study = Study(1000), stream = Stream(50_000_000);
        ScaleChart chart = new();
        string growth = Growth(chart);
        File.WriteAllText(Path.Combine(docs, "speed.md"), Page(study, stream, growth).ReplaceLineEndings("\n"));
        File.WriteAllText(Path.Combine(docs, "images", "speed.svg"), chart.Draw());
        return 0;
    }

    private static string Page(string study, string stream, string growth) => $"""
        # Speed and scale

        Written by `dotnet run -c Release --project benchmarks/CeramicOptics.Benchmarks -- scale docs`, on one shared
        virtual machine with {Environment.ProcessorCount} cores and .NET {Environment.Version}; best of several rounds.
        Times differ between machines; the ratios in `benchmarks/ratios.csv` differ little, and `benchmarks/peers`
        compares with other programs.

        **A study** of materials by radiative transfer, 31 wavelengths, [ceramic, cement] over a stump; each ceramic is
        compiled once and evaluated for all stumps, thicknesses and lights, on all cores: {study}. Only one number is
        kept for each ceramic, so memory does not grow with their number.

        **A mesh in parts**, differences and statuses of each point on one core: {stream}. A map keeps no data of its
        points.

        ## How cost grows

        ![Time to compile and to evaluate, by number of wavelengths](images/speed.svg)

        {growth}
        - Compilation time is proportional to the number of wavelengths; each layer is solved once for all thicknesses.
        - The time for a wall, here one of 2,000 evaluated together, depends on the number of wavelengths; layers
          cost nothing once compiled, and each light adds three sums.
        - The time for a map is proportional to the number of points, whatever the wavelengths, layers and
          lights; beyond the caches, memory bandwidth decides.

        """;

    // Colours of every ceramic over every stump at every thickness under every light, by radiative transfer; the mean
    // difference from the thickest wall is kept of each, so that memory does not grow.
    private static string Study(int ceramics)
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
        return Text($"{ceramics} ceramics x {Stumps} stumps x {Thicknesses} thicknesses x {tables.Length} lights in ")
            + Text($"{seconds:F1} s, {each:F0} KiB allocated for each ceramic, heap {heap:F0} MiB at the end ")
            + Text($"(mean difference from the thickest wall {means.Average():F2})");
    }

    // A mesh in parts: thicknesses of a part are made, judged and dropped.
    private static string Stream(int points)
    {
        const int Part = 65_536;
        ThicknessMap map = Map(1);
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
        return Text($"{points} points in parts of {Part} in {seconds:F2} s, {seconds * 1e9 / points:F1} ns per point, ")
            + Text($"{kib:F0} KiB allocated in all, at most {100.0 * counts.Max() / points:F0} % of one status");
    }

    private static string Growth(ScaleChart chart)
    {
        StringBuilder text = new();
        text.Append("| by radiative transfer, one thickness varies | compile, ms | one wall with spectrum and colour, "
            + "ns |\n");
        text.Append("|---|---|---|\n");
        Cost(WavelengthGrid.Range(400, 700, 10), 1, 1);
        foreach (double step in (double[])[20, 10, 5, 2, 1])
        {
            WavelengthGrid grid = WavelengthGrid.Range(400, 700, step);
            (double compile, double wall) = Cost(grid, 1, 1);
            chart.Add(grid.Count, compile * 1e6, wall);
            text.Append(Text($"| {grid.Count} wavelengths | {compile:F1} | {wall:F0} |\n"));
        }

        for (int layers = 2; layers <= 4; layers++)
        {
            (double compile, double wall) = Cost(Grid, layers, 1);
            text.Append(Text($"| 31 wavelengths, {layers} layers | {compile:F1} | {wall:F0} |\n"));
        }

        for (int lights = 3; lights <= 5; lights += 2)
        {
            (double compile, double wall) = Cost(Grid, 1, lights);
            text.Append(Text($"| 31 wavelengths, {lights} lights | {compile:F1} | {wall:F0} |\n"));
        }

        text.Append("\n| map, 31 wavelengths, reliability included | compile, ms | differences, ns per point "
            + "|\n|---|---|---|\n");
        foreach (int lights in (int[])[1, 5])
        {
            ThicknessMap? map = null;
            double compile = Best(3, () => map = Map(lights));
            foreach (int points in (int[])[1_000, 100_000, 10_000_000])
            {
                double[] mm = [.. Enumerable.Repeat(0.8, points)], differences = new double[points];
                double each = Best(9, () => map!.Differences(mm, differences)) * 1e6 / points;
                text.Append(Text($"| {lights} lights, {points} points | {compile:F0} | {each:F1} |\n"));
            }
        }

        return text.ToString();
    }

    // Compiling in ms, then one wall in ns.
    private static (double CompileMs, double WallNs) Cost(WavelengthGrid grid, int layers, int lights)
    {
        Substrate stump = Stump(grid, 0.2);
        StackResponse? response = null;
        double compile = Best(7, () =>
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
        double[] values = new double[Walls * grid.Count];
        double[] mm = [.. Enumerable.Range(0, Walls).Select(i => 0.2 + (2.8 * i / Walls))];
        Lab[] colors = new Lab[Walls];
        double each = Best(15, () =>
        {
            response!.Reflectance(mm, stump, values);
            foreach (WeightingTable table in tables)
            {
                table.ToLab(values, colors);
            }
        });
        return (compile, each * 1e6 / Walls);
    }

    private static ThicknessMap Map(int lights)
    {
        Restoration crown = new(
            [new Zone("body", Stump(Grid, 0.1), 1, MaskingReference.SelfBacked)],
            new Ceramic("invented", 1, Ceramic(Grid, 1, 9)) { Strength = StrengthLimit.Of(0.5) },
            new Layer(Ceramic(Grid, 1, 1), 0.05), ColorCriterion.AcceptabilityThreshold)
        {
            Viewing = new ViewingConditions { Colorimeters = [.. Lights.Take(lights)] },
        };
        return new ThicknessMap([ThicknessResponse.Compile(crown, crown.Zones[0])]);
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

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private sealed class Workspace(int thicknesses, int wavelengths)
    {
        private readonly double[] _values = new double[thicknesses * wavelengths], _mm =
            [.. Enumerable.Range(0, thicknesses).Select(i => 0.2 + (2.8 * i / (thicknesses - 1)))];

        private readonly double[] _differences = new double[thicknesses];
        private readonly Lab[] _colors = new Lab[thicknesses], _thickest = new Lab[thicknesses];

        public double Mean(StackResponse response, Substrate[] stumps, WeightingTable[] tables)
        {
            double sum = 0;
            foreach (Substrate stump in stumps)
            {
                response.Reflectance(_mm, stump, _values);
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
