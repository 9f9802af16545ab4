using BenchmarkDotNet.Attributes;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Benchmarks;

/// <summary>
/// Maps of a million points, differences and statuses. The baseline is the scalar definition, a stack and its colour
/// for each point; beside the tables of one and two thicknesses stands a plain copy of the same memory.
/// </summary>
[MemoryDiagnoser]
public class MappingBenchmarks
{
    private const int Points = 1_000_000, ScalarPoints = 2_000;

    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(380, 780, 5);

    private readonly double[] _mm = new double[Points], _differences = new double[Points];
    private readonly PointStatus[] _statuses = new PointStatus[Points];
    private readonly float[] _buffer = new float[Points], _single = new float[Points];
    private readonly LayerStack _stack;
    private readonly ThicknessMap _map;
    private readonly Lab _reference;
    private readonly StackResponse _response;
    private readonly double[] _spectrum = new double[Grid.Count];
    private readonly double[] _coreMm = new double[Points];
    private readonly Restoration _crown, _layered;
    private readonly TwoLayerMap _twoLayerMap;

    public MappingBenchmarks()
    {
        Random random = new(1);
        for (int i = 0; i < Points; i++)
        {
            _mm[i] = 0.4 + (1.2 * random.NextDouble());
            _buffer[i] = (float)_mm[i];
            _coreMm[i] = 0.3 + (0.9 * random.NextDouble());
        }

        Material ceramic = Uniform("ceramic", 0.06, 4, 1.53), core = Uniform("core", 0.1, 9, 1.55);
        Layer cement = new(Uniform("cement", 0.03, 1, 1.52), 0.05);
        Substrate stump = Substrate.FromMeasuredReflectance(
            "stump", new ReflectanceSpectrum(Grid, [.. Enumerable.Range(0, Grid.Count).Select(i => 0.1 + (0.002 * i))]),
            1.54, MeasurementGeometry.DiffuseSpecularIncluded);
        _stack = new LayerStack([new Layer(ceramic, 1), cement], stump);
        _response = _stack.Compile(
            MeasurementGeometry.DiffuseSpecularIncluded, [new VariableThickness(0, new ThicknessRange(0.3, 2))]);
        _crown = new Restoration(
            [new Zone("body", stump, 1, MaskingReference.SelfBacked)],
            new Ceramic("invented", 1, ceramic) { Strength = StrengthLimit.Of(0.5) },
            cement,
            ColorCriterion.AcceptabilityThreshold)
        {
            WallRange = new ThicknessRange(0.3, 2),
        };
        _layered = _crown.WithCore(new Ceramic("invented", 2,
            core) { Strength = StrengthLimit.Of(0.5) }) with { Veneer = Veneer.OfShare(ceramic, 0.5) };
        _map = new ThicknessMap([Compile()]);
        _twoLayerMap = new TwoLayerMap([CompileTwoLayers()]);
        _reference = Colorimeter.D65TwoDegree.ToLab(_stack.InfiniteReflectance(0));
    }

    [Benchmark(Baseline = true, OperationsPerInvoke = ScalarPoints)]
    public void StackForEachPoint()
    {
        for (int i = 0; i < ScalarPoints; i++)
        {
            _differences[i] = ColorDifference.Ciede2000(
                _reference, Colorimeter.D65TwoDegree.ToLab(_stack.WithThickness(0, _mm[i]).Reflectance()));
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

    [Benchmark(OperationsPerInvoke = Points)]
    public void Statuses() => _map.Statuses(_mm, _statuses);

    [Benchmark(OperationsPerInvoke = Points)]
    public void StatusesOfTwoLayers() => _twoLayerMap.Statuses(_mm, _coreMm, _statuses);

    /// <summary>No table: the spectrum of each point by the compiled stack.</summary>
    [Benchmark(OperationsPerInvoke = ScalarPoints)]
    public void DirectSpectra()
    {
        for (int i = 0; i < ScalarPoints; i++)
        {
            _response.Reflectance(_mm.AsSpan(i, 1), _stack.Substrate, _spectrum);
        }
    }

    [Benchmark(OperationsPerInvoke = Points)]
    public void CopyOfTheSameMemory() => _mm.AsSpan().CopyTo(_differences);

    [Benchmark]
    public ThicknessResponse Compile() => ThicknessResponse.Compile(_crown, _crown.Zones[0]);

    [Benchmark]
    public TwoLayerResponse CompileTwoLayers() =>
        TwoLayerResponse.Compile(_layered, _layered.Zones[0], new ThicknessRange(0.3, 2), new ThicknessRange(0.2, 1.3));

    private static Material Uniform(string name, double absorption, double scattering, double index) => new(
        name, TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(Grid, absorption),
        ScatteringSpectrum.Uniform(Grid, scattering), index);
}
