using BenchmarkDotNet.Attributes;
using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Benchmarks;

/// <summary>
/// One spectrum of 81 values: a stack built and evaluated anew, the baseline, beside a stack compiled once.
/// </summary>
[MemoryDiagnoser]
public class SpectrumBenchmarks
{
    private readonly LayerStack _stack;
    private readonly ThicknessSweep _sweep;
    private readonly double[] _values;

    public SpectrumBenchmarks()
    {
        WavelengthGrid grid = WavelengthGrid.Range(380, 780, 5);
        Material ceramic = new(
            "ceramic", AbsorptionSpectrum.Uniform(grid, 0.06), ScatteringSpectrum.Uniform(grid, 5), 2.15);
        Material cement = new(
            "cement", AbsorptionSpectrum.Uniform(grid, 0.03), ScatteringSpectrum.Uniform(grid, 0.9), 1.52);
        _stack = new LayerStack(
            [new Layer(ceramic, 1), new Layer(cement, 0.05)],
            Substrate.FromMeasuredReflectance("stump", ReflectanceSpectrum.Uniform(grid, 0.12), 1.54));
        _sweep = _stack.Sweep(0);
        _values = new double[grid.Count];
    }

    [Benchmark(Baseline = true)]
    public ReflectanceSpectrum Stack() => _stack.WithThickness(0, 0.8).Reflectance();

    [Benchmark]
    public double Sweep()
    {
        _sweep.Reflectance(0.8, _values);
        return _values[0];
    }
}
