using BenchmarkDotNet.Attributes;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Selection;
using CeramicOptics.Spectra;

namespace CeramicOptics.Benchmarks;

/// <summary>The masking question beside a plain scan of the stack at 0.0005 mm, the baseline.</summary>
[MemoryDiagnoser]
public class MaskingBenchmarks
{
    private const double MinMm = 0.3, MaxMm = 2.0, ScanStepMm = 0.0005;

    private readonly LayerStack _stack;
    private readonly ThicknessSweep _sweep;
    private readonly double[] _values;

    public MaskingBenchmarks()
    {
        WavelengthGrid grid = WavelengthGrid.Range(380, 780, 10);
        Material ceramic = new(
            "ceramic", AbsorptionSpectrum.Uniform(grid, 0.06), ScatteringSpectrum.Uniform(grid, 5), 1.53);
        Material cement = new(
            "cement", AbsorptionSpectrum.Uniform(grid, 0.03), ScatteringSpectrum.Uniform(grid, 0.9), 1.52);
        _stack = new LayerStack(
            [new Layer(ceramic, 1), new Layer(cement, 0.05)],
            Substrate.FromMeasuredReflectance("stump", ReflectanceSpectrum.Uniform(grid, 0.12), 1.54));
        _sweep = _stack.Sweep(0);
        _values = new double[grid.Count];
    }

    [Benchmark(Baseline = true)]
    public double Scan()
    {
        Lab reference = Colorimeter.D65TwoDegree.ToLab(_sweep.InfiniteReflectance());
        WeightingTable table = Colorimeter.D65TwoDegree.Weighting(_stack.Grid);
        double lastAbove = MinMm;
        for (double t = MinMm; t <= MaxMm; t += ScanStepMm)
        {
            _sweep.Reflectance(t, _values);
            lastAbove = ColorDifference.Ciede2000(reference, Lab.FromXyz(table.ToXyz(_values), table.White)) > 1.8
                ? t
                : lastAbove;
        }

        return lastAbove;
    }

    [Benchmark]
    public MaskingResult Find() => MaskingThickness.Find(
        _stack, 0, (MinMm, MaxMm), MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch,
        ViewingConditions.Default with { ChecksModel = false });

    [Benchmark]
    public MaskingResult FindAndCheckModel() =>
        MaskingThickness.Find(_stack, 0, (MinMm, MaxMm), MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch);
}
