using BenchmarkDotNet.Attributes;
using CeramicOptics.Characterization;
using CeramicOptics.Layers;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Spectra;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Optimization;

namespace CeramicOptics.Benchmarks;

/// <summary>
/// K and S at 81 wavelengths from six readings. The baseline minimises the same sum of squares of two-flux theory by a
/// general simplex search.
/// </summary>
[MemoryDiagnoser]
public class FitBenchmarks
{
    private static readonly double[] ThicknessesMm = [0.4, 0.8, 1.2];

    private readonly DiscSet _set;
    private readonly double[] _backings;

    public FitBenchmarks()
    {
        WavelengthGrid grid = WavelengthGrid.Range(380, 780, 5);
        double[] k = new double[grid.Count], s = new double[grid.Count];
        for (int i = 0; i < k.Length; i++)
        {
            (k[i], s[i]) = (0.04 + (0.3 * Math.Exp(-(grid[i] - 400) / 60)), 3 * Math.Pow(grid[i] / 550, -1.2));
        }

        Material truth = new(
            "truth", TwoFluxModel.Instance, new AbsorptionSpectrum(grid, k), new ScatteringSpectrum(grid, s), 1.5);
        Backing Tile(double reflectance) =>
            new(Substrate.FromInternalReflectance("tile", ReflectanceSpectrum.Uniform(grid, reflectance), 1.5), null);
        _backings = [0.01, 0.93];
        Random random = new(1);
        _set = new DiscSet("disc", 1.5, ThicknessesMm.SelectMany(mm => _backings.Select(reflectance =>
        {
            ReflectanceSpectrum exact = new LayerStack([new Layer(truth, mm)], Tile(reflectance).Substrate)
                .Reflectance(MeasurementGeometry.Internal);
            double[] noisy = [.. exact.Values.ToArray().Select(value => value + (0.002 * (random.NextDouble() - 0.5)))];
            return DiscReading.Reflectance(
                $"{mm} {reflectance}", mm, new ReflectanceSpectrum(grid, noisy), Tile(reflectance),
                MeasurementGeometry.Internal);
        })));
    }

    [Benchmark(Baseline = true)]
    public double SimplexSearch()
    {
        double sum = 0;
        for (int i = 0; i < _set.Grid.Count; i++)
        {
            int wavelength = i;
            IObjectiveFunction cost = ObjectiveFunction.Value(p =>
            {
                double total = 0;
                for (int r = 0; r < _set.Readings.Count; r++)
                {
                    DiscReading reading = _set.Readings[r];
                    double miss = TwoFluxLayer.Reflectance(
                        Math.Exp(p[0]), Math.Exp(p[1]), reading.ThicknessMm,
                        _backings[r % 2]) - reading.Values[wavelength];
                    total += miss * miss;
                }

                return total;
            });
            sum += new NelderMeadSimplex(1e-9, 10000)
                .FindMinimum(cost, Vector<double>.Build.DenseOfArray([Math.Log(0.1), Math.Log(3)])).MinimizingPoint[1];
        }

        return sum;
    }

    [Benchmark]
    public CharacterizationResult FitByTwoFlux() =>
        DiscCharacterization.Find(_set, new CharacterizationOptions { Model = TwoFluxModel.Instance });

    [Benchmark]
    public CharacterizationResult FitByTransfer() => DiscCharacterization.Find(_set);
}
