using CeramicOptics.Characterization.Photographs;

namespace CeramicOptics.Tests.Reference;

/// <summary>Cameras, charts and teeth to photograph; all invented.</summary>
internal sealed class SimulatedCamera
{
    // Peak and width of each channel, nm, and of a second, weaker band of red and green.
    private static readonly double[][] Bands =
    [
        [600, 33, 540, 38, 460, 28, 445, 0.04, 610, 0.05],
        [590, 42, 530, 45, 455, 34, 450, 0.08, 480, 0.10],
        [615, 28, 545, 32, 470, 24, 430, 0.02, 600, 0.12],
    ];

    private readonly double[][] _weights;

    public SimulatedCamera(int camera, Illuminant lamp)
    {
        double[] b = Bands[camera];
        _weights =
        [
            Channel(lamp, nm => Bell(nm, b[0], b[1]) + (b[7] * Bell(nm, b[6], 20))),
            Channel(lamp, nm => Bell(nm, b[2], b[3]) + (b[9] * Bell(nm, b[8], 25))),
            Channel(lamp, nm => Bell(nm, b[4], b[5])),
        ];
    }

    public static WavelengthGrid Grid { get; } = WavelengthGrid.Range(380, 780, 5);

    public static Colorimeter Under { get; } = new(Observer.Cie1931TwoDegree, Illuminant.D50);

    /// <summary>Six greys, then bands and steps of several hues and depths, some of them like teeth and gums.</summary>
    public static ReflectanceSpectrum[] Chart(int count) =>
    [
        .. Enumerable.Range(0, count).Select(i => Spectrum(nm => i switch
        {
            < 6 => 0.03 + (0.85 * Math.Pow(i / 5.0, 1.6)) - (1e-5 * i * (700 - nm)),
            _ when i % 3 == 0 => 0.05 + (0.55 * Bell(nm, 430 + (17 * (i - 6) % 250), 30 + (i % 5 * 12))),
            _ when i % 3 == 1 => 0.06 + (
                (0.3 + (0.03 * (i % 11))) / (1 + Math.Exp((470 + (23 * i % 160) - nm) / (15 + (i % 4 * 12))))),
            _ => 0.15 + (0.02 * (i % 9)) + ((0.25 + (0.03 * (i % 7))) / (1 + Math.Exp((500 + (7 * i % 60) - nm) / 60))),
        })),
    ];

    /// <summary>A tooth or stump: rises with wavelength, with a little of the bands of blood.</summary>
    public static ReflectanceSpectrum Tooth(Random random)
    {
        double low = 0.12 + (0.3 * random.NextDouble()), rise = 0.1 + (0.3 * random.NextDouble());
        double middle = 470 + (70 * random.NextDouble()), width = 35 + (50 * random.NextDouble()),
            blood = 0.06 * random.NextDouble();
        return Spectrum(
            nm => (low + (rise / (1 + Math.Exp((middle - nm) / width)))) * (
                1 - (blood * (Bell(nm, 542, 12) + Bell(nm, 576, 10)))));
    }

    /// <summary>
    /// Mean light of each channel at an exposure of 1, for which a perfect diffuser gives 1 in the largest channel.
    /// </summary>
    public CameraRgb See(ReflectanceSpectrum body) => new(Sum(0, body), Sum(1, body), Sum(2, body));

    /// <summary>
    /// A reading with shot and readout noise of 400 independent pixels and light that is uneven by 0.3 %.
    /// </summary>
    public PatchReading Read(string name, ReflectanceSpectrum body, double exposure, Random random)
    {
        CameraRgb light = See(body);
        double uneven = exposure * (1 + (0.003 * Normal(random)));
        double Deviation(double value) => Math.Sqrt(4e-6 + (1e-4 * value));
        double Mean(double value) => (uneven * value) + (Deviation(uneven * value) / 20 * Normal(random));
        CameraRgb mean = new(Mean(light.Red), Mean(light.Green), Mean(light.Blue));
        return new PatchReading(name, mean)
        {
            PixelDeviation = new CameraRgb(Deviation(mean.Red), Deviation(mean.Green), Deviation(mean.Blue)),
            IndependentPixels = 400,
        };
    }

    /// <summary>Chart of colours known to 0.2 in each of L*, a*, b*, and teeth, in one picture.</summary>
    public Photograph Photograph(int chart, IReadOnlyList<ReflectanceSpectrum> teeth, double exposure, Random random) =>
        new(
        TransferCurve.Linear,
        Chart(chart).Select((body, i) => new ChartPatch(Read($"patch {i}", body, exposure, random),
        Known(Under.ToLab(body), random))),
        Under,
        teeth.Select((tooth, i) => Read($"tooth {i}", tooth, exposure, random)));

    public static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private static Lab Known(Lab color, Random random) =>
        new(Math.Max(0, color.L + (0.2 * Normal(random))), color.A + (0.2 * Normal(random)), color.B + (
            0.2 * Normal(random)));

    private static ReflectanceSpectrum Spectrum(Func<double, double> at) =>
        new(Grid, [.. Enumerable.Range(0, Grid.Count).Select(i => at(Grid[i]))]);

    private static double Bell(double nm, double peak, double width) => Math.Exp(-Math.Pow((nm - peak) / width, 2) / 2);

    private static double[] Channel(Illuminant lamp, Func<double, double> sensitivity)
    {
        double[] weights = [.. Enumerable.Range(0, Grid.Count).Select(
            i => lamp.Power.Resample(Grid)[i] * sensitivity(Grid[i]))];
        return [.. weights.Select(weight => weight / weights.Sum())];
    }

    private double Sum(int channel, ReflectanceSpectrum body) =>
        Enumerable.Range(0, Grid.Count).Sum(i => _weights[channel][i] * body[i]);
}
