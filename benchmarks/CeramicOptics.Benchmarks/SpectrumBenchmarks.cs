using BenchmarkDotNet.Attributes;
using CeramicOptics.Layers;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Spectra;

namespace CeramicOptics.Benchmarks;

/// <summary>
/// One spectrum of 81 values: a stack built and evaluated directly, the baseline, beside a stack compiled once.
/// </summary>
[MemoryDiagnoser]
public class SpectrumBenchmarks
{
    private readonly LayerStack _stack;
    private readonly StackResponse _response;
    private readonly double[] _values, _mm = [0.8];

    public SpectrumBenchmarks()
    {
        WavelengthGrid grid = WavelengthGrid.Range(380, 780, 5);
        Material Uniform(string name, double k, double s, double index) => new(
            name, TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(grid, k), ScatteringSpectrum.Uniform(grid, s),
            index);
        _stack = new LayerStack(
            [new Layer(Uniform("ceramic", 0.06, 5, 2.15), 1), new Layer(Uniform("cement", 0.03, 0.9, 1.52), 0.05)],
            Substrate.FromMeasuredReflectance("stump", ReflectanceSpectrum.Uniform(grid, 0.12), 1.54,
                MeasurementGeometry.DiffuseSpecularIncluded));
        _response = _stack.Compile(
            MeasurementGeometry.DiffuseSpecularIncluded, [new VariableThickness(0, new ThicknessRange(0.3, 2))]);
        _values = new double[grid.Count];
    }

    [Benchmark(Baseline = true)]
    public ReflectanceSpectrum Direct() => _stack.WithThickness(0, 0.8).Reflectance();

    [Benchmark]
    public double Compiled()
    {
        _response.Reflectance(_mm, _stack.Substrate, _values);
        return _values[0];
    }
}
