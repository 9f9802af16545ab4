using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Restorations;

namespace CeramicOptics.Tests.Unit;

/// <summary>Invented materials and stumps for maps, and the difference of a wall by plain evaluation of its
/// stack.</summary>
internal static class MapData
{
    public static WavelengthGrid Grid { get; } = WavelengthGrid.Range(400, 700, 10);

    public static Colorimeter[] Lights { get; } = [Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree];

    public static Layer Cement { get; } = new(Body("cement", 0.05, 1, 1.52), 0.05);

    public static Material Zirconia { get; } = Body("zirconia", 0.5, 22, 2.1);

    public static Material Glass { get; } = Body("glass", 0.3, 4, 1.53);

    public static Substrate Light { get; } = Stump("light tooth", 0.35);

    public static Substrate Brown { get; } = Stump("brown tooth", 0.18);

    public static Substrate Black { get; } = Stump("nearly black tooth", 0.08);

    public static Material Body(string name, double absorption, double scattering, double index) => new(
        name,
        TwoFluxModel.Instance,
        new AbsorptionSpectrum(Grid,
        [.. Enumerable.Range(0, Grid.Count).Select(i => 0.03 + (absorption * Math.Exp(-i / 8.0)))]),
        new ScatteringSpectrum(Grid,
        [.. Enumerable.Range(0, Grid.Count).Select(i => scattering * (1.15 - (0.01 * i)))]),
        index,
        CoefficientUncertainty.OfScale(Grid, 0.03));

    public static Restoration Crown(
        Substrate stump, Material core, double? strengthMm, ColorCriterion? criterion = null) => new(
        [new Zone("body", stump, 1, MaskingReference.SelfBacked)],
        new Ceramic("invented", 1,
        core) { Strength = strengthMm is double mm ? StrengthLimit.Of(mm) : StrengthLimit.NotGiven },
        Cement,
        criterion ?? ColorCriterion.AcceptabilityThreshold)
    {
        WallRange = new ThicknessRange(0.3, 2),
        Viewing = new ViewingConditions { Colorimeters = Lights },
    };

    /// <summary>Colour under the first light and largest CIEDE2000 over both, from stacks made and evaluated
    /// here.</summary>
    public static (Lab Color, double Difference) Plain(
        Substrate stump, ColorReference reference, ColorCriterion criterion, params Layer[] wall) =>
        PlainOn(Cement, stump, reference, criterion, wall);

    /// <summary>The same with a cement of one's own.</summary>
    public static (Lab Color, double Difference) PlainOn(
        Layer cement, Substrate stump, ColorReference reference, ColorCriterion criterion, params Layer[] wall)
    {
        LayerStack stack = new([.. wall, cement], stump);
        ReflectanceSpectrum own = stack.Reflectance(), other = reference is Target target ? target.Spectrum!
            : ((MaskingReference)reference).Substrate is { } good ? stack.WithSubstrate(good).Reflectance()
            : stack.InfiniteReflectance(wall.Length - 1);
        return (Lights[0].ToLab(own), Lights.Max(light => criterion.Difference(light.ToLab(other), light.ToLab(own))));
    }

    private static Substrate Stump(string name, double reflectance) => Substrate.FromMeasuredReflectance(
        name,
        new ReflectanceSpectrum(Grid,
        [.. Enumerable.Range(0, Grid.Count).Select(i => reflectance * (0.7 + (0.02 * i)))]), 1.54,
        MeasurementGeometry.DiffuseSpecularIncluded);
}
