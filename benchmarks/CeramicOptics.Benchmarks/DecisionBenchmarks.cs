using BenchmarkDotNet.Attributes;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Selection;
using CeramicOptics.Spectra;

namespace CeramicOptics.Benchmarks;

/// <summary>
/// Matching of 2,000 and 20,000 candidates over three zones under three illuminants at 81 wavelengths, beside the plain loop over public stacks
/// (for a hundredth of the candidates); a stain recipe from 12 pigments; uncertainty of 10,000 samples.
/// </summary>
public class DecisionBenchmarks
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(380, 780, 5);
    private static readonly Colorimeter[] Lights = [Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree, new(Observer.Cie1931TwoDegree, Illuminant.F11)];

    private readonly RestorationCase _case;
    private readonly MatchOptions _small, _large;
    private readonly LayerStack _bare, _wall;
    private readonly Pigment[] _pigments;
    private readonly StainLayer _stain;
    private readonly MaskingReference _hidden;
    private readonly InputUncertainty _inputs = new([0.05, 0.05, 0.02]);

    public DecisionBenchmarks()
    {
        MaskingReference target = MaskingReference.Target("neighbour", new Lab(73, 2, 16), Colorimeter.D65TwoDegree);
        _case = new RestorationCase([new Zone("neck", Stump(0.1, 0.3), 0.9, target), new Zone("body", Stump(0.15, 0.4), 1.1, target), new Zone("edge", Stump(0.3, 0.6), 1.4, target)], ColorCriterion.AcceptableMatch)
        {
            Conditions = new ViewingConditions { Colorimeters = Lights },
        };
        Ceramic[] ceramics = [.. Enumerable.Range(0, 200).Select(i => new Ceramic("family", 1 + (i % 100), Body($"ceramic {i}", 0.3 + (0.002 * i), 2 + (0.05 * i))))];
        Layer[] cements = [.. Enumerable.Range(0, 10).Select(i => new Layer(Body($"cement {i}", 0.1 + (0.02 * i), 1 + i), 0.05))];
        Material veneer = Body("veneer", 0.3, 1.5);
        double[] shares = [0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5];
        _small = new MatchOptions(ceramics.Where((_, i) => i % 10 == 0), cements) { Veneers = [veneer], VeneerShares = shares };
        _large = new MatchOptions(ceramics, cements) { Veneers = [veneer], VeneerShares = shares };

        _bare = new LayerStack([new Layer(ceramics[30].Material, 1.0), cements[2]], _case.Zones[0].Substrate);
        _wall = new LayerStack([new Layer(veneer, 0.4), new Layer(ceramics[30].Material, 0.6), cements[2]], _case.Zones[0].Substrate);
        _pigments = [.. Enumerable.Range(0, 12).Select(i => new Pigment(
            $"pigment {i}",
            new AbsorptionSpectrum(Grid, [.. Enumerable.Range(0, Grid.Count).Select(w => 25 * Math.Exp(-Math.Pow((Grid[w] - 400 - (28 * i)) / 45.0, 2)))]),
            ScatteringSpectrum.Uniform(Grid, i == 0 ? 80 : 4)))];
        _stain = new StainLayer(Body("glaze", 0.05, 0.2), 0.06, 0.3);
        Layer hidden = _stain.Fired([new(_pigments[2], 0.3), new(_pigments[7], 0.15)]);
        _hidden = MaskingReference.Target("hidden", new LayerStack([hidden, .. _bare.Layers], _bare.Substrate).Reflectance());
    }

    [Benchmark(Baseline = true)]
    public double PlainLoopOver20()
    {
        double best = double.PositiveInfinity;
        for (int c = 0; c < 20; c++)
        {
            double worst = 0;
            foreach (Zone zone in _case.Zones)
            {
                ReflectanceSpectrum spectrum = new LayerStack([new Layer(_small.Ceramics[c].Material, zone.AvailableThicknessMm), _small.Cements[0]], zone.Substrate).Reflectance();
                worst = Math.Max(worst, Lights.Max(light => ColorDifference.Ciede2000(new Lab(73, 2, 16), light.ToLab(spectrum))));
            }

            best = Math.Min(best, worst);
        }

        return best;
    }

    [Benchmark]
    public MatchRanking Match2000() => Match.Rank(_case, _small);

    [Benchmark]
    public MatchRanking Match20000() => Match.Rank(_case, _large);

    [Benchmark]
    public StainRecipe StainOf12() =>
        Stain.Find([new StainPlace("neck", _bare, 0, _hidden)], _stain, _pigments, ColorCriterion.ImperceptibleMatch, _case.Conditions);

    /// <summary>A target that no set meets, so that all 298 sets of up to three are tried.</summary>
    [Benchmark]
    public StainRecipe StainOf12WhereNoneMeets() => Stain.Find(
        [new StainPlace("neck", _bare, 0, MaskingReference.Target("out of reach", new Lab(60, 8, 25), Colorimeter.D65TwoDegree))],
        _stain, _pigments, new ColorCriterion("hardly any", ColorDifferenceFormula.Ciede2000, 0.001, "this benchmark"), _case.Conditions);

    [Benchmark]
    public UncertaintyResult Uncertainty10000() =>
        PredictionUncertainty.Sample(_wall, 1, _case.Zones[0].Reference, ColorCriterion.AcceptableMatch, _inputs, _case.Conditions);

    private static Material Body(string name, double absorption, double scattering) => new(
        name,
        new AbsorptionSpectrum(Grid, [.. Enumerable.Range(0, Grid.Count).Select(i => 0.03 + (absorption * Math.Exp(-i / 18.0)))]),
        new ScatteringSpectrum(Grid, [.. Enumerable.Range(0, Grid.Count).Select(i => scattering * (1.2 - (i / 200.0)))]),
        1.53,
        CoefficientUncertainty.OfScale(Grid, 0.03));

    private static Substrate Stump(double blue, double red) => Substrate.FromMeasuredReflectance(
        "stump", new ReflectanceSpectrum(Grid, [.. Enumerable.Range(0, Grid.Count).Select(i => blue + ((red - blue) * i / 80.0))]), 1.54);
}
