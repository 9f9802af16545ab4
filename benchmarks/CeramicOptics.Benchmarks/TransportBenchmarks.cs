using BenchmarkDotNet.Attributes;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Spectra;
using MathNet.Numerics.Integration;
using MathNet.Numerics.LinearAlgebra;

namespace CeramicOptics.Benchmarks;

/// <summary>
/// Radiative transfer of a stack of three layers at 81 wavelengths with 16 streams. The baseline is the textbook form:
/// layers started at an optical thickness of 1e-6 by single scattering and doubled with general-purpose matrices,
/// without boundaries, 16 streams.
/// </summary>
[MemoryDiagnoser]
public class TransportBenchmarks
{
    private const int Wavelengths = 81, Streams = 16;
    private const double StartThickness = 1e-6;

    private readonly LayerStack _stack;

    public TransportBenchmarks()
    {
        WavelengthGrid grid = WavelengthGrid.Range(380, 780, 5);
        Material Uniform(string name, double k, double s, double index) =>
            new(name, new TransportModel(Streams), AbsorptionSpectrum.Uniform(grid, k),
                ScatteringSpectrum.Uniform(grid, s), index);
        _stack = new LayerStack(
            [new Layer(Uniform("glaze", 0.05, 0.5, 1.5), 0.1), new Layer(Uniform("ceramic", 0.05, 4, 2.15), 0.8),
            new Layer(Uniform("cement", 0.05, 1, 1.52), 0.05)],
            Substrate.FromMeasuredReflectance("stump", ReflectanceSpectrum.Uniform(grid, 0.3), 1.54,
                MeasurementGeometry.DiffuseSpecularIncluded));
    }

    [Benchmark(Baseline = true)]
    public double TextbookDoubling()
    {
        GaussLegendreRule rule = new(0, 1, Streams);
        double[] mu = [.. Enumerable.Range(0, Streams).Select(rule.GetAbscissa)],
            w = [.. Enumerable.Range(0, Streams).Select(rule.GetWeight)];
        double sum = 0;
        for (int i = 0; i < Wavelengths; i++)
        {
            Matrix<double> backing = Matrix<double>.Build.Dense(Streams, Streams, (a, _) => 0.3 * 2 * mu[a] * w[a]);
            foreach (Layer layer in _stack.Layers.Reverse())
            {
                TransportLayer exact = TransportLayer.FromTwoFlux(
                    layer.Material.Absorption[i], layer.Material.Scattering[i], 0, layer.ThicknessMm, 1);
                (Matrix<double> r, Matrix<double> t) = Slab(exact, mu, w);
                backing = r + (
                    t * backing * (Matrix<double>.Build.DenseIdentity(Streams) - (r * backing)).Inverse() * t);
            }

            sum += backing.ColumnSums().Sum();
        }

        return sum;
    }

    [Benchmark]
    public ReflectanceSpectrum Model() => _stack.Reflectance();

    private static (Matrix<double> R, Matrix<double> T) Slab(TransportLayer layer, double[] mu, double[] w)
    {
        double extinction = layer.AbsorptionPerMm + layer.ScatteringPerMm, albedo = layer.ScatteringPerMm / extinction,
            thickness = extinction * layer.ThicknessMm;
        int doublings = (int)Math.Ceiling(Math.Log2(thickness / StartThickness));
        double start = thickness / Math.Pow(2, doublings);
        Matrix<double> identity = Matrix<double>.Build.DenseIdentity(mu.Length);
        Matrix<double> r = Matrix<double>.Build.Dense(
            mu.Length, mu.Length, (i, j) => albedo / 2 * w[i] * start / mu[j]);
        Matrix<double> t = r + Matrix<double>.Build.Dense(
            mu.Length, mu.Length, (i, j) => i == j ? Math.Exp(-start / mu[j]) : 0);
        for (int i = 0; i < doublings; i++)
        {
            Matrix<double> between = (identity - (r * r)).Inverse() * t;
            (r, t) = (r + (t * r * between), t * between);
        }

        return (r, t);
    }
}
