using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Restorations;

namespace CeramicOptics.Tests;

/// <summary>
/// Invented materials and stumps for one optical model, by formulas over wavelength: at four wavelengths where brute
/// force repeats whole searches, at 31 elsewhere.
/// </summary>
internal sealed class WallData
{
    private readonly IOpticalModel _model;

    private WallData(IOpticalModel model, double stepNm)
    {
        (_model, Grid) = (model, WavelengthGrid.Range(400, 700, stepNm));
        Body = Make("body", 0.03, 0.27, 3, 1.53, Uncertainty(0.02, 0.01));
        Plain = Make("plain", 0.03, 0.27, 3, 1.53);
        Dense = Make("dense", 0.02, 0.14, 9, 2.15, Uncertainty(0.01, 0.01));
        Enamel = Make("enamel", 0.02, 0.1, 1.2, 1.55, Uncertainty(0.02, 0.02));
        Film = Make("film", 0.04, 0.06, 0.8, 1.5, CoefficientUncertainty.OfScale(Grid, 0.02));
        Glaze = Make("glaze", 0.05, 0.1, 0.4, 1.48, CoefficientUncertainty.OfScale(Grid, 0.05));
        Dark = Stump("dark", 0.05, 0.2);
        Good = Stump("good", 0.35, 0.65);
    }

    /// <summary>For theories: the names of both models.</summary>
    public static TheoryData<string> Models => ["two-flux", "transport"];

    public static Colorimeter[] Lights { get; } = [Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree];

    public static ViewingConditions TwoLights { get; } = new() { Colorimeters = Lights };

    /// <summary>Nothing uncertain beside what materials carry.</summary>
    public static InputUncertainty Sure { get; } = new()
    {
        CoreMm = 0, VeneerMm = 0, GlazeMm = 0, LinerMm = 0, CementMm = 0, StumpReflectance = 0, TargetColor = 0,
            RefractiveIndex = 0, ModelColor = 0,
    };

    /// <summary>The defaults, without the optical model's own error.</summary>
    public static InputUncertainty OfInputs { get; } = new() { ModelColor = 0 };

    public WavelengthGrid Grid { get; }

    public Material Body { get; }

    /// <summary>The body without a stated uncertainty.</summary>
    public Material Plain { get; }

    public Material Dense { get; }

    public Material Enamel { get; }

    public Material Film { get; }

    public Material Glaze { get; }

    public Substrate Dark { get; }

    public Substrate Good { get; }

    public static WallData Coarse(string model) => new(ModelOf(model), 100);

    public static WallData Fine(string model) => new(ModelOf(model), 10);

    public static IOpticalModel ModelOf(string model) =>
        model == "transport" ? TransportModel.Default : TwoFluxModel.Instance;

    public Material Make(
        string name, double floor, double blue, double scattering, double index,
        CoefficientUncertainty? uncertainty = null) => new(
        name,
        _model,
        new AbsorptionSpectrum(Grid, Over(nm => floor + (blue * Math.Exp(-(nm - 400) / 60)))),
        new ScatteringSpectrum(Grid, Over(nm => scattering * Math.Pow(nm / 550, -0.6))),
        index,
        uncertainty);

    /// <summary>The body, a number of times as dense.</summary>
    public Ceramic Times(int grade, double factor) =>
        new("made up", grade, Make($"made up {grade}", 0.03 * factor, 0.27 * factor, 3 * factor, 1.53));

    public Substrate Stump(string name, double blue, double red) =>
        Substrate.FromInternalReflectance(
            name, new ReflectanceSpectrum(Grid, Over(nm => blue + ((red - blue) * (nm - 400) / 300))), 1.54);

    public Restoration Crown(Zone zone, Material? core = null) =>
        new([zone], new Ceramic("made up", 1, core ?? Body), new Layer(Film, 0.05),
            ColorCriterion.AcceptabilityThreshold);

    public static Zone Zone(Substrate stump, ColorReference reference, double availableMm = 1.2) =>
        new("cervical", stump, availableMm, reference);

    public static Target Wish(ReflectanceSpectrum spectrum) =>
        Target.FromReflectance("wish", spectrum, MeasurementGeometry.DiffuseSpecularIncluded);

    /// <summary>Other coefficients at one wavelength.</summary>
    public static Material Moved(Material material, int wavelength, double byAbsorption, double byScattering)
    {
        double[] k = material.Absorption.Values.ToArray(), s = material.Scattering.Values.ToArray();
        (k[wavelength], s[wavelength]) = (k[wavelength] + byAbsorption, s[wavelength] + byScattering);
        return With(material, k, s, material.RefractiveIndex);
    }

    public static Material With(Material material, double[] k, double[] s, RefractiveIndex index) =>
        new("moved", material.Model, new AbsorptionSpectrum(material.Grid, k), new ScatteringSpectrum(
            material.Grid, s), index);

    /// <summary>
    /// Largest difference over lights, by the stack itself: to a target, to the stack over a good substrate, or with
    /// one layer infinitely thick.
    /// </summary>
    public static double Worst(
        LayerStack stack, ColorReference reference, int core, ColorCriterion criterion, params Colorimeter[] lights)
    {
        ReflectanceSpectrum color = stack.Reflectance(), other = ReferenceOf(stack, reference, core);
        return (lights.Length == 0 ? Lights : lights)
            .Max(light => criterion.Difference(light.ToLab(other), light.ToLab(color)));
    }

    public static ReflectanceSpectrum ReferenceOf(LayerStack stack, ColorReference reference, int core) =>
        reference is Target target ? target.Spectrum!
        : ((MaskingReference)reference).Substrate is { } good ? stack.WithSubstrate(good).Reflectance()
        : stack.InfiniteReflectance(core);

    /// <summary>Standard normal numbers by the polar form of Box and Muller.</summary>
    public static double Gauss(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private CoefficientUncertainty Uncertainty(double relative, double scale) => new(
        Over(_ => 0.003), Over(nm => relative * 3 * Math.Pow(nm / 550, -0.6)), Over(nm => 0.3 * Math.Sin(nm / 50)),
        scale);

    private double[] Over(Func<double, double> value) =>
        [.. Enumerable.Range(0, Grid.Count).Select(i => value(Grid[i]))];
}
