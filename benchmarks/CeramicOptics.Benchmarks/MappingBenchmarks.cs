using BenchmarkDotNet.Attributes;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Mapping;
using CeramicOptics.Selection;
using CeramicOptics.Spectra;

namespace CeramicOptics.Benchmarks;

/// <summary>
/// Difference map of a million points: the scalar definition (a stack and its colour for each point) is the baseline, per point, beside the table, the
/// table on two threads, and a plain copy of the same memory.
/// </summary>
[MemoryDiagnoser]
public class MappingBenchmarks
{
    private const int Points = 1_000_000, ScalarPoints = 2_000;

    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(380, 780, 5);

    private readonly double[] _mm = new double[Points], _differences = new double[Points];
    private readonly float[] _buffer = new float[Points], _single = new float[Points];
    private readonly LayerStack _stack;
    private readonly ThicknessMap _map;
    private readonly Lab _reference;
    private readonly ThicknessSweep _sweep;
    private readonly double[] _spectrum = new double[Grid.Count];
    private readonly double[] _coreMm = new double[Points];
    private readonly LayerStack _twoLayers;
    private readonly TwoLayerMap _twoLayerMap;
    private ReflectanceSpectrum? _last;

    public MappingBenchmarks()
    {
        Random random = new(1);
        for (int i = 0; i < Points; i++)
        {
            _mm[i] = 0.4 + (1.2 * random.NextDouble());
            _buffer[i] = (float)_mm[i];
            _coreMm[i] = 0.3 + (0.9 * random.NextDouble());
        }

        Material ceramic = new("ceramic", AbsorptionSpectrum.Uniform(Grid, 0.06), ScatteringSpectrum.Uniform(Grid, 4), 1.53);
        Material cement = new("cement", AbsorptionSpectrum.Uniform(Grid, 0.03), ScatteringSpectrum.Uniform(Grid, 1), 1.52);
        Substrate stump = Substrate.FromMeasuredReflectance(
            "stump", new ReflectanceSpectrum(Grid, [.. Enumerable.Range(0, Grid.Count).Select(i => 0.1 + (0.002 * i))]), 1.54);
        _stack = new LayerStack([new Layer(ceramic, 1), new Layer(cement, 0.05)], stump);
        _sweep = _stack.Sweep(0);
        _map = new ThicknessMap([Compile()]);
        Material core = new("core", AbsorptionSpectrum.Uniform(Grid, 0.1), ScatteringSpectrum.Uniform(Grid, 9), 1.55);
        _twoLayers = new LayerStack([new Layer(ceramic, 1), new Layer(core, 0.5), new Layer(cement, 0.05)], stump);
        _twoLayerMap = new TwoLayerMap([CompileTwoLayers()]);
        _reference = Colorimeter.D65TwoDegree.ToLab(_stack.Sweep(0).InfiniteReflectance());
    }

    [Benchmark(Baseline = true, OperationsPerInvoke = ScalarPoints)]
    public void StackForEachPoint()
    {
        for (int i = 0; i < ScalarPoints; i++)
        {
            _differences[i] = ColorDifference.Ciede2000(_reference, Colorimeter.D65TwoDegree.ToLab(_stack.WithThickness(0, _mm[i]).Reflectance()));
        }
    }

    [Benchmark(OperationsPerInvoke = Points)]
    public void Table() => _map.Differences(_mm, _differences);

    [Benchmark(OperationsPerInvoke = Points)]
    public void TableSinglePrecision() => _map.Differences(_buffer, _single);

    [Benchmark(OperationsPerInvoke = Points)]
    public void TableOnTwoThreads() => _map.Differences(_mm, _differences, default, threads: 2);

    [Benchmark(OperationsPerInvoke = Points)]
    public void TableOfTwoLayers() => _twoLayerMap.Differences(_mm, _coreMm, _differences);

    /// <summary>No table: the spectrum of each point by the compiled sweep.</summary>
    [Benchmark(OperationsPerInvoke = ScalarPoints)]
    public void DirectSpectra()
    {
        for (int i = 0; i < ScalarPoints; i++)
        {
            _sweep.Reflectance(_mm[i], _spectrum);
        }
    }

    /// <summary>The same by the scalar definition.</summary>
    [Benchmark(OperationsPerInvoke = ScalarPoints)]
    public void ScalarSpectra()
    {
        for (int i = 0; i < ScalarPoints; i++)
        {
            _last = _sweep.Reflectance(_mm[i]);
        }
    }

    [Benchmark(OperationsPerInvoke = Points)]
    public void CopyOfTheSameMemory() => _mm.AsSpan().CopyTo(_differences);

    [Benchmark]
    public ThicknessResponse Compile() =>
        ThicknessResponse.Compile(_stack, 0, (0.3, 2), MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch);

    [Benchmark]
    public TwoLayerResponse CompileTwoLayers() =>
        TwoLayerResponse.Compile(_twoLayers, 0, (0.3, 2), 1, (0.2, 1.3), MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch);
}
