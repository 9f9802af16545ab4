using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Restorations;

namespace CeramicOptics.Tests;

/// <summary>Invented materials at four wavelengths, so that whole searches can be repeated by brute force.</summary>
internal static class CoarseData
{
    public static WavelengthGrid Grid { get; } = WavelengthGrid.Range(400, 700, 100);

    public static Colorimeter[] Lights { get; } = [Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree];

    public static ViewingConditions TwoLights { get; } = new() { Colorimeters = Lights };

    public static CoefficientUncertainty Noise { get; } =
        new([0.004, 0.003, 0.002, 0.001], [0.03, 0.05, 0.04, 0.02], [0.3, -0.4, 0.6, 0], 0.01);

    public static Material Body { get; } = new(
        "body", TwoFluxModel.Instance, new(Grid, [0.30, 0.12, 0.06, 0.03]), new(Grid, [4, 3.5, 3, 2.8]), 1.53, Noise);

    /// <summary>The body without a stated uncertainty.</summary>
    public static Material Plain { get; } = new("plain", TwoFluxModel.Instance, Body.Absorption, Body.Scattering, 1.53);

    public static Material Film { get; } = new("film", TwoFluxModel.Instance, new(Grid, [0.10, 0.06, 0.05, 0.04]),
        new(Grid, [1, 0.9, 0.8, 0.7]), 1.5, CoefficientUncertainty.OfScale(Grid, 0.02));

    public static Material Glaze { get; } =
        new("glaze", TwoFluxModel.Instance, new(Grid, [0.2, 0.1, 0.05, 0.05]), new(Grid, [0.5, 0.4, 0.4, 0.3]), 1.48);

    public static Substrate Dark { get; } = Stump("dark", 0.05, 0.08, 0.12, 0.2);

    public static Substrate Good { get; } = Stump("good", 0.35, 0.5, 0.6, 0.65);

    public static Target Neighbour { get; } = Wish("neighbour", 0.4, 0.5, 0.58, 0.6);

    /// <summary>A target read in the geometry that everything is viewed in.</summary>
    public static Target Wish(string name, params double[] values) =>
        Target.FromReflectance(
            name, new ReflectanceSpectrum(Grid, values), MeasurementGeometry.DiffuseSpecularIncluded);

    /// <summary>The target that a stack would be.</summary>
    public static Target Like(string name, LayerStack stack) =>
        Target.FromReflectance(name, stack.Reflectance(), MeasurementGeometry.DiffuseSpecularIncluded);

    /// <summary>The body, a number of times as dense.</summary>
    public static Ceramic Dense(string family, int grade, double factor) =>
        new(family, grade, new Material($"{family} of {grade}", TwoFluxModel.Instance,
            new(Grid, Scaled(factor, Body.Absorption)), new(Grid, Scaled(factor, Body.Scattering)), 1.53));

    /// <summary>A material with other coefficients at one wavelength.</summary>
    public static Material Moved(Material material, int wavelength, double byAbsorption, double byScattering)
    {
        double[] k = material.Absorption.Values.ToArray(), s = material.Scattering.Values.ToArray();
        (k[wavelength], s[wavelength]) = (k[wavelength] + byAbsorption, s[wavelength] + byScattering);
        return new Material("moved", material.Model, new(Grid, k), new(Grid, s), material.RefractiveIndex);
    }

    /// <summary>Largest CIEDE2000 over both lights to the same stack with one layer infinitely thick.</summary>
    public static double WorstSelfBacked(LayerStack stack, int layer) =>
        Lights.Max(light =>
            ColorDifference.Ciede2000(light.ToLab(stack.InfiniteReflectance(layer)), light.ToLab(stack.Reflectance())));

    /// <summary>TP00 of a wall bonded to nothing, over ideal black and white.</summary>
    public static double Translucency(params Layer[] wall)
    {
        Lab Over(Substrate ideal) => Colorimeter.D65TwoDegree.ToLab(new LayerStack(wall, ideal).Reflectance());
        return ColorDifference.Ciede2000(Over(Substrate.Black), Over(Substrate.White));
    }

    public static double WorstOf(LayerStack stack, Target target, ColorCriterion criterion)
    {
        ReflectanceSpectrum spectrum = stack.Reflectance();
        return Lights.Max(light => criterion.Difference(light.ToLab(target.Spectrum!), light.ToLab(spectrum)));
    }

    private static double[] Scaled(double factor, Spectrum spectrum) =>
        [.. spectrum.Values.ToArray().Select(value => factor * value)];

    private static Substrate Stump(string name, params double[] values) =>
        Substrate.FromInternalReflectance(name, new ReflectanceSpectrum(Grid, values), 1.54);
}
