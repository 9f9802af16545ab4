using BenchmarkDotNet.Attributes;
using CeramicOptics.Characterization;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Spectra;

namespace CeramicOptics.Benchmarks;

/// <summary>
/// Exact transfer with the default streams: a ceramic on cement over air at 31 wavelengths, in 13 thicknesses of the
/// ceramic and with the setup; and a fit of one disc read over black and white. The baseline is the same stack in one
/// thickness, setup included.
/// </summary>
[MemoryDiagnoser]
public class SamplerBenchmarks
{
    private const int Thicknesses = 13;

    private readonly TransportModel _model = new();
    private readonly LayerStack _stack;
    private readonly TransportSampler _kept;
    private readonly DiscSet _disc;
    private readonly double[] _mm = [1, 0.05];

    public SamplerBenchmarks()
    {
        WavelengthGrid grid = WavelengthGrid.Range(400, 700, 10);
        double[] k = new double[grid.Count], s = new double[grid.Count];
        for (int i = 0; i < k.Length; i++)
        {
            (k[i], s[i]) = (0.04 + (0.3 * Math.Exp(-(grid[i] - 400) / 60)), 3 * Math.Pow(grid[i] / 550, -1.2));
        }

        Material ceramic = new("ceramic", new AbsorptionSpectrum(grid, k), new ScatteringSpectrum(grid, s), 2.15);
        Material cement = new(
            "cement", AbsorptionSpectrum.Uniform(grid, 0.05), ScatteringSpectrum.Uniform(grid, 1), 1.52);
        Substrate Body(double reflectance) =>
            Substrate.FromInternalReflectance("body", ReflectanceSpectrum.Uniform(grid, reflectance), 1.54);
        _stack = new LayerStack([new Layer(ceramic, 1), new Layer(cement, 0.05)], Body(0.3), CouplingMedium.Air);
        _kept = new TransportSampler(_stack, MeasurementGeometry.DiffuseSpecularIncluded, _model);
        _disc = new DiscSet("disc", 2.15, ((double[])[0.02, 0.9]).Select(reflectance =>
        {
            LayerStack stack = new([new Layer(ceramic, 0.8)], Body(reflectance), CouplingMedium.Air);
            Backing backing = new(Body(reflectance), CouplingMedium.Air);
            return DiscReading.Reflectance(
                $"{reflectance}", 0.8, _model.Reflectance(stack, MeasurementGeometry.DiffuseSpecularIncluded), backing);
        }));
    }

    [Benchmark(Baseline = true)]
    public ReflectanceSpectrum OneThickness() =>
        _model.Reflectance(_stack, MeasurementGeometry.DiffuseSpecularIncluded);

    [Benchmark]
    public double ThirteenThicknesses() => Sum(_kept);

    [Benchmark]
    public double ThirteenThicknessesWithSetup() =>
        Sum(new TransportSampler(_stack, MeasurementGeometry.DiffuseSpecularIncluded, _model));

    [Benchmark]
    public CharacterizationResult FitOfOneDisc() => CoefficientFit.Solve(_disc, _model);

    private double Sum(TransportSampler sampler)
    {
        double sum = 0;
        for (int wavelength = 0; wavelength < _stack.Grid.Count; wavelength++)
        {
            for (int i = 0; i < Thicknesses; i++)
            {
                _mm[0] = 0.2 * (i + 1);
                sum += sampler.At(wavelength, _mm).Own;
            }
        }

        return sum;
    }
}
