using BenchmarkDotNet.Attributes;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Spectra;

namespace CeramicOptics.Benchmarks;

/// <summary>
/// CIEDE2000 of a million pairs: the scalar definition in a loop, the baseline, beside the batch form.
/// </summary>
[MemoryDiagnoser]
public class DifferenceBenchmarks
{
    private const int Pairs = 1_000_000;

    private readonly Lab[] _references = new Lab[Pairs], _samples = new Lab[Pairs];
    private readonly double[] _differences = new double[Pairs];

    public DifferenceBenchmarks()
    {
        Random random = new(1);
        for (int i = 0; i < Pairs; i++)
        {
            Lab color = new(
                100 * random.NextDouble(), (100 * random.NextDouble()) - 50, (100 * random.NextDouble()) - 50);
            (_references[i], _samples[i]) = (
                color, new Lab(color.L, color.A + (4 * random.NextDouble()), color.B - (4 * random.NextDouble())));
        }
    }

    [Benchmark(Baseline = true, OperationsPerInvoke = Pairs)]
    public void Scalar()
    {
        for (int i = 0; i < Pairs; i++)
        {
            _differences[i] = ColorDifference.Ciede2000(_references[i], _samples[i]);
        }
    }

    [Benchmark(OperationsPerInvoke = Pairs)]
    public void Batch() => ColorDifference.Ciede2000(_references, _samples, _differences);
}

/// <summary>Ten thousand spectra of 81 values to L*a*b*: one by one, the baseline, beside the batch form.</summary>
[MemoryDiagnoser]
public class SpectraToLabBenchmarks
{
    private const int Spectra = 10_000;

    private readonly WeightingTable _table = Colorimeter.D65TwoDegree.Weighting(WavelengthGrid.Range(380, 780, 5));
    private readonly double[] _values;
    private readonly Lab[] _colors = new Lab[Spectra];

    public SpectraToLabBenchmarks()
    {
        Random random = new(1);
        _values = [.. Enumerable.Range(0, Spectra * _table.Grid.Count).Select(_ => random.NextDouble())];
    }

    [Benchmark(Baseline = true, OperationsPerInvoke = Spectra)]
    public void Scalar()
    {
        for (int i = 0; i < Spectra; i++)
        {
            _colors[i] = _table.ToLab(_values.AsSpan(i * _table.Grid.Count, _table.Grid.Count));
        }
    }

    [Benchmark(OperationsPerInvoke = Spectra)]
    public void Batch() => _table.ToLab(_values, _colors);
}
