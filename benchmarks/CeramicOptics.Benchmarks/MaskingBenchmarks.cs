using BenchmarkDotNet.Attributes;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Layers;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Benchmarks;

/// <summary>
/// Masking with reliable thickness and uncertainty on a wall compiled once, under one light and in three zones under
/// three lights, and the whole question. The baseline scans the compiled stack at 0.0005 mm for the colour alone.
/// </summary>
[MemoryDiagnoser]
public class MaskingBenchmarks
{
    private const double ScanStepMm = 0.0005;

    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 10);

    private readonly Restoration _oneLight;
    private readonly ZoneComparison[] _one, _three;
    private readonly double[] _values = new double[Grid.Count];

    public MaskingBenchmarks()
    {
        Zone Over(double reflectance) => new(
            $"over {reflectance}",
            Substrate.FromMeasuredReflectance("stump", ReflectanceSpectrum.Uniform(Grid, reflectance), 1.54,
                MeasurementGeometry.DiffuseSpecularIncluded), 1,
            MaskingReference.SelfBacked);
        _oneLight = new Restoration(
            [Over(0.12)], new Ceramic("invented", 1, Body("ceramic", 0.06, 4, 1.53)),
            new Layer(Body("cement", 0.03, 0.9, 1.52), 0.05), ColorCriterion.AcceptabilityThreshold)
        {
            WallRange = new ThicknessRange(0.3, 3),
        };
        Restoration threeLights = _oneLight.WithZones([Over(0.12), Over(0.2), Over(0.35)]) with
        {
            Viewing = new ViewingConditions
            {
                Colorimeters = [Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree,
                    new(Observer.Cie1931TwoDegree, Illuminant.F11)],
            },
        };
        _one = Compiled(_oneLight);
        _three = Compiled(threeLights);
    }

    [Benchmark(Baseline = true)]
    public double Scan()
    {
        StackResponse response = _one[0].Response;
        Substrate stump = _one[0].Zone.Stump;
        Lab reference = Colorimeter.D65TwoDegree.ToLab(response.Stack.InfiniteReflectance(0));
        WeightingTable table = _one[0].Tables[0];
        double lastAbove = 0, mm = _one[0].Range.MinMm;
        for (; mm <= _one[0].Range.MaxMm; mm += ScanStepMm)
        {
            response.Reflectance([mm], stump, _values);
            lastAbove = ColorDifference.Ciede2000(reference, table.ToLab(_values)) > _one[0].Criterion.Limit
                ? mm
                : lastAbove;
        }

        return lastAbove;
    }

    [Benchmark]
    public double OneLight() => Reliable(_one);

    [Benchmark]
    public double ThreeLightsThreeZones() => Reliable(_three);

    /// <summary>Compiling included.</summary>
    [Benchmark]
    public MaskingResult OneLightWhole() => MaskingThickness.Find(_oneLight);

    private static double Reliable(ZoneComparison[] zones) => zones.Max(
        zone => MaskingThickness.Find(zone, new MaskingOptions(), default).Minimum.ReliableMm ?? 0);

    private static ZoneComparison[] Compiled(Restoration restoration)
    {
        CompiledWall wall = new(restoration, default);
        return [.. restoration.Zones.Select(zone => new ZoneComparison(wall, zone))];
    }

    private static Material Body(string name, double absorption, double scattering, double index) => new(
        name, TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(Grid, absorption),
        ScatteringSpectrum.Uniform(Grid, scattering), index, CoefficientUncertainty.OfScale(Grid, 0.03));
}
