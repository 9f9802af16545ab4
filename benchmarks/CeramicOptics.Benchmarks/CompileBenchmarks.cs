using BenchmarkDotNet.Attributes;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Spectra;

namespace CeramicOptics.Benchmarks;

/// <summary>
/// A ceramic on cement at 31 wavelengths by radiative transfer, compiled for all its thicknesses. The baseline is the
/// same stack evaluated directly at the 13 thicknesses that compiling begins with.
/// </summary>
[MemoryDiagnoser]
public class CompileBenchmarks
{
    private const int Thicknesses = 13;

    private static readonly ThicknessRange Range = new(0.3, 2);

    private readonly LayerStack _stack;

    public CompileBenchmarks()
    {
        WavelengthGrid grid = WavelengthGrid.Range(400, 700, 10);
        Material ceramic = new(
            "ceramic",
            TransportModel.Default,
            new AbsorptionSpectrum(
                grid, [.. Enumerable.Range(0, grid.Count).Select(i => 0.04 + (0.3 * Math.Exp(-i / 6.0)))]),
            new ScatteringSpectrum(
                grid, [.. Enumerable.Range(0, grid.Count).Select(i => 3 * Math.Pow(grid[i] / 550, -1.2))]),
            1.53);
        Material cement = new(
            "cement", TransportModel.Default, AbsorptionSpectrum.Uniform(grid, 0.03),
            ScatteringSpectrum.Uniform(grid, 0.9), 1.52);
        _stack = new LayerStack(
            [new Layer(ceramic, 1), new Layer(cement, 0.05)],
            Substrate.FromMeasuredReflectance("stump", ReflectanceSpectrum.Uniform(grid, 0.12), 1.54,
                MeasurementGeometry.DiffuseSpecularIncluded));
    }

    [Benchmark(Baseline = true)]
    public double DirectAt13Thicknesses()
    {
        double sum = 0;
        for (int i = 0; i < Thicknesses; i++)
        {
            double mm = Range.MinMm + ((Range.MaxMm - Range.MinMm) * i / (Thicknesses - 1));
            sum += _stack.WithThickness(0, mm).Reflectance()[0];
        }

        return sum;
    }

    [Benchmark]
    public StackResponse Compile() =>
        _stack.Compile(MeasurementGeometry.DiffuseSpecularIncluded, [new VariableThickness(0, Range)]);
}
