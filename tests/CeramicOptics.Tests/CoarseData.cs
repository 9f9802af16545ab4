using CeramicOptics.Selection;

namespace CeramicOptics.Tests;

/// <summary>Invented materials at four wavelengths, so that whole searches can be repeated by brute force.</summary>
internal static class CoarseData
{
    public static WavelengthGrid Grid { get; } = WavelengthGrid.Range(400, 700, 100);

    public static Colorimeter[] Lights { get; } = [Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree];

    public static ViewingConditions TwoLights { get; } = new() { Colorimeters = Lights, ChecksModel = false };

    public static CoefficientUncertainty Noise { get; } = new([0.004, 0.003, 0.002, 0.001], [0.03, 0.05, 0.04, 0.02], [0.3, -0.4, 0.6, 0], 0.01);

    public static Material Body { get; } = new("body", new(Grid, [0.30, 0.12, 0.06, 0.03]), new(Grid, [4, 3.5, 3, 2.8]), 1.53, Noise);

    public static Material Film { get; } = new("film", new(Grid, [0.10, 0.06, 0.05, 0.04]), new(Grid, [1, 0.9, 0.8, 0.7]), 1.5, CoefficientUncertainty.OfScale(Grid, 0.02));

    public static Material Glaze { get; } = new("glaze", new(Grid, [0.2, 0.1, 0.05, 0.05]), new(Grid, [0.5, 0.4, 0.4, 0.3]), 1.48);

    public static Substrate Dark { get; } = Stump("dark", 0.05, 0.08, 0.12, 0.2);

    public static Substrate Good { get; } = Stump("good", 0.35, 0.5, 0.6, 0.65);

    /// <summary>The body, a number of times as dense.</summary>
    public static Ceramic Dense(string family, int grade, double factor) =>
        new(family, grade, new Material($"{family} of {grade}", new(Grid, Scaled(factor, Body.Absorption)), new(Grid, Scaled(factor, Body.Scattering)), 1.53));

    public static double[] Scaled(double factor, Spectrum spectrum) => [.. spectrum.Values.ToArray().Select(value => factor * value)];

    public static double WorstOf(LayerStack stack, MaskingReference target, ColorCriterion criterion)
    {
        ReflectanceSpectrum spectrum = stack.Reflectance();
        return Lights.Max(light => criterion.Difference(light.ToLab(target.Spectrum!), light.ToLab(spectrum)));
    }

    private static Substrate Stump(string name, params double[] values) => Substrate.FromInternalReflectance(name, new ReflectanceSpectrum(Grid, values), 1.54);
}
