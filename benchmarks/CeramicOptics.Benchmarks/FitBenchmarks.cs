using BenchmarkDotNet.Attributes;
using CeramicOptics.Characterization;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Spectra;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Optimization;

namespace CeramicOptics.Benchmarks;

/// <summary>
/// K and S at 31 wavelengths from one disc read over black and white, by two-flux theory and by radiative transfer. The
/// baseline minimises the same sum of squares of two-flux theory by a general simplex search.
/// </summary>
[MemoryDiagnoser]
public class FitBenchmarks
{
    private const double ThicknessMm = 0.8, Noise = 0.002;

    private static readonly double[] Backings = [0.02, 0.9];

    private readonly DiscSet _twoFlux = Disc(TwoFluxModel.Instance, MeasurementGeometry.Internal, null);

    private readonly DiscSet _transfer = Disc(
        TransportModel.Default, MeasurementGeometry.DiffuseSpecularIncluded, CouplingMedium.Air);

    [Benchmark(Baseline = true)]
    public double SimplexSearch()
    {
        double sum = 0;
        for (int i = 0; i < _twoFlux.Grid.Count; i++)
        {
            int wavelength = i;
            IObjectiveFunction cost = ObjectiveFunction.Value(p =>
            {
                double total = 0;
                for (int r = 0; r < Backings.Length; r++)
                {
                    double miss = TwoFluxLayer.Reflectance(Math.Exp(p[0]), Math.Exp(p[1]), ThicknessMm, Backings[r])
                        - _twoFlux.Readings[r].Values[wavelength];
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
        DiscCharacterization.Find(_twoFlux, new CharacterizationOptions { Model = TwoFluxModel.Instance });

    [Benchmark]
    public CharacterizationResult FitByTransfer() => DiscCharacterization.Find(_transfer);

    private static DiscSet Disc(IOpticalModel model, MeasurementGeometry geometry, CouplingMedium? coupling)
    {
        WavelengthGrid grid = WavelengthGrid.Range(400, 700, 10);
        double[] k = new double[grid.Count], s = new double[grid.Count];
        for (int i = 0; i < k.Length; i++)
        {
            (k[i], s[i]) = (0.04 + (0.3 * Math.Exp(-(grid[i] - 400) / 60)), 3 * Math.Pow(grid[i] / 550, -1.2));
        }

        Material truth = new("truth", model, new AbsorptionSpectrum(grid, k), new ScatteringSpectrum(grid, s), 1.53);
        Random random = new(1);
        return new DiscSet("disc", 1.53, Backings.Select(reflectance =>
        {
            Substrate tile = Substrate.FromInternalReflectance(
                "tile", ReflectanceSpectrum.Uniform(grid, reflectance), 1.53);
            ReflectanceSpectrum exact =
                new LayerStack([new Layer(truth, ThicknessMm)], tile, coupling).Reflectance(geometry);
            double[] noisy =
                [.. exact.Values.ToArray().Select(value => value + (Noise * (random.NextDouble() - 0.5)))];
            return DiscReading.Reflectance(
                $"over {reflectance}", ThicknessMm, new ReflectanceSpectrum(grid, noisy), new Backing(tile, coupling),
                geometry, ReadingArea.Large);
        }));
    }
}
