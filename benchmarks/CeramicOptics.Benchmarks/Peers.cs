using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Benchmarks;

/// <summary>
/// The library's part of benchmarks/peers: reads the inputs that the script wrote, prints the time of each kernel and
/// writes its results, which the script compares with those of the other programs.
/// </summary>
internal sealed class Peers
{
    private const int Rounds = 15;

    private readonly string _folder;

    private Peers(string folder) => _folder = folder;

    public static int Run(string folder)
    {
        Peers peers = new(folder);
        peers.SpectraToLab();
        peers.Differences();
        peers.TwoFluxPoints();
        foreach (int streams in (int[])[8, 12, 16])
        {
            peers.Slabs(streams);
        }

        return 0;
    }

    private void SpectraToLab()
    {
        WeightingTable table = Colorimeter.D65TwoDegree.Weighting(WavelengthGrid.Range(380, 780, 5));
        Write("weights", [.. table.X, .. table.Y, .. table.Z, table.White.X, table.White.Y, table.White.Z]);
        double[] spectra = Read("spectra");
        Lab[] colors = new Lab[spectra.Length / table.Grid.Count];
        Time("spectra", colors.Length, () => table.ToLab(spectra, colors));
        Write("spectra.out", MemoryMarshal.Cast<Lab, double>(colors));
    }

    private void Differences()
    {
        Lab[] references = [.. MemoryMarshal.Cast<double, Lab>(Read("references"))];
        Lab[] samples = [.. MemoryMarshal.Cast<double, Lab>(Read("samples"))];
        double[] differences = new double[samples.Length];
        Time("differences", samples.Length, () => ColorDifference.Ciede2000(references, samples, differences));
        Write("differences.out", differences);
    }

    // One ceramic over a stump in air, its difference from an infinitely thick one.
    private void TwoFluxPoints()
    {
        WavelengthGrid grid = WavelengthGrid.Range(400, 700, 10);
        WeightingTable table = Colorimeter.D65TwoDegree.Weighting(grid);
        Write("weights31", [.. table.X, .. table.Y, .. table.Z, table.White.X, table.White.Y, table.White.Z]);
        double[] k = Read("absorption"), s = Read("scattering"), g = Read("stump"), mm = Read("thicknesses");
        const double Index = 1.5;
        Material ceramic = new(
            "ceramic", TwoFluxModel.Instance, new AbsorptionSpectrum(grid, k), new ScatteringSpectrum(grid, s), Index);
        Substrate stump = Substrate.FromInternalReflectance("stump", new ReflectanceSpectrum(grid, g), Index);
        StackResponse response = new LayerStack([new Layer(ceramic, 1)], stump).Compile(
            MeasurementGeometry.DiffuseSpecularIncluded, [new VariableThickness(0, new ThicknessRange(0.2, 3))]);
        ReflectanceSpectrum thick = new LayerStack([new Layer(ceramic, 100)], stump).Reflectance();
        Lab reference = table.ToLab(thick.Values);
        double[] differences = new double[mm.Length], values = new double[mm.Length * grid.Count];
        Lab[] colors = new Lab[mm.Length], references = [.. Enumerable.Repeat(reference, mm.Length)];
        Time("points", mm.Length, () =>
        {
            response.Reflectance(mm, stump, values);
            table.ToLab(values, colors);
            ColorDifference.Ciede2000(references, colors, differences);
        });
        Write("points.out", differences);

        // The same by the table of a map.
        Restoration crown = new(
            [new Zone("body", stump, 1, MaskingReference.SelfBacked)], new Ceramic("invented", 1, ceramic),
            new CouplingMedium("of the same index", Index), ColorCriterion.AcceptabilityThreshold)
        {
            WallRange = new ThicknessRange(0.2, 3),
        };
        ThicknessMap map = new([ThicknessResponse.Compile(crown, crown.Zones[0])]);
        Time("map", mm.Length, () => map.Differences(mm, differences));
        Write("map.out", differences);
    }

    // Slabs in air, all light that comes back for diffuse light; 31 slabs a stack, one at each wavelength.
    private void Slabs(int streams)
    {
        double[] slabs = Read("slabs");
        WavelengthGrid grid = WavelengthGrid.Range(400, 700, 10);
        List<LayerStack> stacks = [];
        for (int from = 0; from < slabs.Length; from += 4 * grid.Count)
        {
            double[] absorption = new double[grid.Count], scattering = new double[grid.Count];
            for (int i = 0; i < grid.Count; i++)
            {
                // Back from what transfer takes: absorption K/2, scattering (4 S + K/2)/3.
                absorption[i] = 2 * slabs[from + (4 * i)];
                scattering[i] = ((3 * slabs[from + (4 * i) + 1]) - slabs[from + (4 * i)]) / 4;
            }

            Material material = new(
                "slab", new TransportModel(streams), new AbsorptionSpectrum(grid, absorption),
                new ScatteringSpectrum(grid, scattering), slabs[from + 3]);
            Substrate air = Substrate.FromInternalReflectance("air", ReflectanceSpectrum.Uniform(grid, 0), 1);
            stacks.Add(new LayerStack([new Layer(material, slabs[from + 2])], air));
        }

        double[] results = new double[slabs.Length / 4];
        Time($"slabs{streams}", results.Length, () =>
        {
            for (int i = 0; i < stacks.Count; i++)
            {
                stacks[i].Reflectance(MeasurementGeometry.DiffuseDiffuse).Values.CopyTo(
                    results.AsSpan(i * grid.Count));
            }
        });
        Write($"slabs{streams}.out", results);
    }

    // The smallest of several rounds, ns an item.
    private static void Time(string name, int items, Action work)
    {
        double best = double.PositiveInfinity;
        long began = Stopwatch.GetTimestamp();
        for (int round = 0; round < Rounds || Stopwatch.GetElapsedTime(began).TotalSeconds < 1.5; round++)
        {
            long from = Stopwatch.GetTimestamp();
            work();
            best = Math.Min(best, Stopwatch.GetElapsedTime(from).TotalNanoseconds / items);
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name} {best:F2}"));
    }

    private double[] Read(string name) =>
        [.. MemoryMarshal.Cast<byte, double>(File.ReadAllBytes(Path.Combine(_folder, $"{name}.f64")))];

    private void Write(string name, ReadOnlySpan<double> values) =>
        File.WriteAllBytes(Path.Combine(_folder, $"{name}.f64"), MemoryMarshal.AsBytes(values).ToArray());
}
