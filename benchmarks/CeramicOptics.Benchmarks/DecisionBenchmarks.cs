using BenchmarkDotNet.Attributes;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Layers;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Benchmarks;

/// <summary>
/// Matching of 2,000 candidates over three zones under three illuminants at 31 wavelengths, whole and once compiled,
/// beside the plain loop over public stacks (for a hundredth of the candidates); a stain recipe from 12 pigments;
/// uncertainty of 10,000 samples.
/// </summary>
public class DecisionBenchmarks
{
    private const MeasurementGeometry Geometry = MeasurementGeometry.DiffuseSpecularIncluded;

    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 10);
    private static readonly Colorimeter[] Lights =
        [Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree, new(Observer.Cie1931TwoDegree, Illuminant.F11)];

    private readonly Restoration _restoration, _bare, _stained, _outOfReach;
    private readonly MatchOptions _options;
    private readonly CompiledMatch[] _compiled;
    private readonly double[][] _walls;
    private readonly double[] _chosen = new double[3];
    private readonly StainOptions _stain;

    public DecisionBenchmarks()
    {
        Target target = Target.FromColor("neighbour", new Lab(73, 2, 16), Colorimeter.D65TwoDegree, Geometry);
        Ceramic[] ceramics = [.. Enumerable.Range(0, 20)
            .Select(i => new Ceramic("family", 1 + i, Body($"ceramic {i}", 0.3 + (0.02 * i), 2 + (0.5 * i))))];
        Layer[] cements =
            [.. Enumerable.Range(0, 10).Select(i => new Layer(Body($"cement {i}", 0.1 + (0.02 * i), 1 + i), 0.05))];
        _restoration = new Restoration(
            [new Zone("cervical", Stump(0.1, 0.3), 0.9, target), new Zone("body", Stump(0.15, 0.4), 1.1, target),
                new Zone("incisal", Stump(0.3, 0.6), 1.4, target)],
            ceramics[0], cements[0], ColorCriterion.AcceptabilityThreshold)
        { Viewing = new ViewingConditions { Colorimeters = Lights } };
        _options = new MatchOptions(ceramics) { Cements = cements, Veneers = [Body("veneer", 0.3, 1.5)],
            VeneerShares = [0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5] };
        _compiled = [.. _options.ChoicesOf(_restoration).Select(choice => new CompiledMatch(choice, default))];
        _walls = CompiledMatch.WallsOf(_restoration, _options.ThicknessStepMm);

        Zone cervical = _restoration.Zones[0];
        Pigment[] pigments = [.. Enumerable.Range(0, 12).Select(i => new Pigment(
            $"pigment {i}",
            TwoFluxModel.Instance,
            new AbsorptionSpectrum(Grid, [.. Enumerable.Range(0, Grid.Count)
                .Select(w => 25 * Math.Exp(-Math.Pow((Grid[w] - 400 - (28 * i)) / 45.0, 2)))]),
            ScatteringSpectrum.Uniform(Grid, i == 0 ? 80 : 4)))];
        _stain = new StainOptions(new StainLayer(Body("glaze", 0.05, 0.2), 0.06, 0.3), pigments);
        _bare = _restoration.WithCore(ceramics[3]).WithZones([cervical]);
        LayerStack stack = _bare.StackOver(cervical.Stump, cervical.AvailableMm);
        Layer hidden = _stain.Layer.Fired([new(pigments[2], 0.3), new(pigments[7], 0.15)]);
        Target reachable = Target.FromReflectance(
            "hidden", new LayerStack([hidden, .. stack.Layers], stack.Substrate).Reflectance(), Geometry);
        _stained = _bare.WithZones([cervical.ComparedWith(reachable)]);
        _outOfReach = new Restoration(
            [cervical.ComparedWith(Target.FromColor(
                "out of reach", new Lab(60, 8, 25), Colorimeter.D65TwoDegree, Geometry))], ceramics[3], cements[0],
            new ColorCriterion("hardly any", ColorDifferenceFormula.Ciede2000, 0.001, "this benchmark"))
        { Viewing = _restoration.Viewing };
    }

    [Benchmark(Baseline = true)]
    public double PlainLoopOver20()
    {
        double best = double.PositiveInfinity;
        for (int c = 0; c < 20; c++)
        {
            double worst = 0;
            foreach (Zone zone in _restoration.Zones)
            {
                ReflectanceSpectrum spectrum = new LayerStack([new Layer(
                    _options.Ceramics[c].Material, zone.AvailableMm), _options.Cements[0]], zone.Stump).Reflectance();
                worst = Math.Max(
                    worst, Lights.Max(light => ColorDifference.Ciede2000(new Lab(73, 2, 16), light.ToLab(spectrum))));
            }

            best = Math.Min(best, worst);
        }

        return best;
    }

    [Benchmark]
    public MatchRanking Match2000() => Match.Find(_restoration, _options);

    /// <summary>The evaluation alone, without early dropping.</summary>
    [Benchmark]
    public double Match2000OnceCompiled()
    {
        double best = double.PositiveInfinity;
        foreach (CompiledMatch compiled in _compiled)
        {
            compiled.TryEvaluate(_walls, double.PositiveInfinity, _chosen, out double worst);
            best = Math.Min(best, worst);
        }

        return best;
    }

    [Benchmark]
    public StainRecipe StainOf12() => Stain.Find(_stained, _stain);

    /// <summary>A target that no set meets, so that all 298 sets of up to three are tried.</summary>
    [Benchmark]
    public StainRecipe StainOf12WhereNoneMeets() => Stain.Find(_outOfReach, _stain);

    [Benchmark]
    public UncertaintyResult Uncertainty10000() => PredictionUncertainty.Find(_bare);

    private static Material Body(string name, double absorption, double scattering) => new(
        name,
        TwoFluxModel.Instance,
        new AbsorptionSpectrum(
            Grid, [.. Enumerable.Range(0, Grid.Count).Select(i => 0.03 + (absorption * Math.Exp(-i / 7.0)))]),
        new ScatteringSpectrum(Grid, [.. Enumerable.Range(0, Grid.Count).Select(i => scattering * (1.2 - (i / 75.0)))]),
        1.53,
        CoefficientUncertainty.OfScale(Grid, 0.03));

    private static Substrate Stump(double blue, double red) => Substrate.FromMeasuredReflectance(
        "stump", new ReflectanceSpectrum(
            Grid, [.. Enumerable.Range(0, Grid.Count).Select(i => blue + ((red - blue) * i / 30.0))]), 1.54,
            MeasurementGeometry.DiffuseSpecularIncluded);
}
