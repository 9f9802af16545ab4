using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Restorations;

namespace CeramicOptics.Tests;

/// <summary>Invented materials and stumps at 31 wavelengths, made by formulas: what decisions are tried with.</summary>
internal static class InventedData
{
    public static WavelengthGrid Grid { get; } = WavelengthGrid.Range(400, 700, 10);

    public static Colorimeter[] Lights { get; } =
        [Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree, new(Observer.Cie1931TwoDegree, Illuminant.F11)];

    public static ViewingConditions ThreeLights { get; } = new() { Colorimeters = Lights };

    public static Substrate LightTooth { get; } = Stump("light tooth", 0.40, 0.66);

    public static Substrate BrownTooth { get; } = Stump("brown tooth", 0.06, 0.34);

    public static Substrate NearlyBlackTooth { get; } = Stump("nearly black tooth", 0.03, 0.10);

    public static Layer Cement { get; } = new(Body("translucent cement", 0.03, 0.10, 0.9, 1.52), 0.05);

    public static Layer OpaqueCement { get; } = new(Body("opaque cement", 0.03, 0.10, 22, 1.52), 0.05);

    public static Material Glaze { get; } = Body("glaze", 0.01, 0, 0.2, 1.5);

    public static Material Liner { get; } = Body("liner", 1.2, 6, 60, 1.53);

    public static Ceramic GlassCeramic(int grade) =>
        new("Meadow glass-ceramic", grade,
            Body($"Meadow glass-ceramic, grade {grade}", 0.03, 0.22, 1.6 * Math.Pow(1.5, grade - 1), 1.53));

    public static Ceramic Zirconia(int grade) =>
        new("Granary zirconia", grade,
            Body($"Granary zirconia, grade {grade}", 0.02, 0.14, 5 * Math.Pow(1.4, grade - 1), 2.15));

    public static LayerStack Bonded(Ceramic ceramic, double thicknessMm, Substrate stump) =>
        new([new Layer(ceramic.Material, thicknessMm), Cement], stump);

    public static Target Wish(double l, double a, double b) =>
        Target.FromColor(
            "wish", new Lab(l, a, b), Colorimeter.D65TwoDegree, MeasurementGeometry.DiffuseSpecularIncluded);

    public static Target Like(string name, LayerStack stack) =>
        Target.FromReflectance(name, stack.Reflectance(), MeasurementGeometry.DiffuseSpecularIncluded);

    /// <summary>
    /// Largest difference over the lights to a target, by the public stack; a target known by its colour under D65 has
    /// elsewhere the colour of its smoothest spectrum.
    /// </summary>
    public static double WorstOf(LayerStack stack, Target target, ColorCriterion criterion, params Colorimeter[] lights)
    {
        ReflectanceSpectrum spectrum = stack.Reflectance(), wish =
            target.Spectrum ?? Colorimeter.D65TwoDegree.SmoothestReflectance(ColorOf(target), Grid);
        return (lights.Length == 0 ? Lights : lights).Max(light => criterion.Difference(
            target.Spectrum is null && light == Colorimeter.D65TwoDegree ? ColorOf(target)
                : light.ToLab(wish), light.ToLab(spectrum)));
    }

    private static Lab ColorOf(Target target) =>
        target.ColorsUnder([Colorimeter.D65TwoDegree], Grid, target.Geometry)[0];

    private static Material Body(string name, double floor, double blue, double scattering, double index) => new(
        name,
        TwoFluxModel.Instance,
        new AbsorptionSpectrum(
            Grid, [.. Enumerable.Range(0, Grid.Count).Select(i => floor + (blue * Math.Exp(-(Grid[i] - 400) / 60)))]),
        new ScatteringSpectrum(
            Grid, [.. Enumerable.Range(0, Grid.Count).Select(i => scattering * Math.Pow(Grid[i] / 550, -0.6))]),
        index);

    private static Substrate Stump(string name, double blue, double red) => Substrate.FromInternalReflectance(
        name, new ReflectanceSpectrum(Grid,
            [.. Enumerable.Range(0, Grid.Count).Select(i => blue + ((red - blue) * i / (Grid.Count - 1)))]), 1.54);
}
