using CeramicOptics.Characterization;
using CeramicOptics.Decisions.Appearance;
using CeramicOptics.Layers.TwoFlux;

namespace CeramicOptics.Tests.Design;

/// <summary>Bad input about the look of stacks, for the table of messages.</summary>
internal static class AppearanceBadInput
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 100), Other =
        WavelengthGrid.Range(400, 700, 50);

    private static readonly AppearanceOptions Options = new(
        Colorimeter.D65TwoDegree, MeasurementGeometry.DiffuseSpecularIncluded);

    public static Dictionary<string, Action> Cases { get; } = new()
    {
        ["uncertain stack with too few thicknesses"] = () => _ = new UncertainStack(Stack(Grid), []),
        ["uncertain stack in micrometres"] = () => _ = new UncertainStack(Stack(Grid), [30]),
        ["uncertain stack with a thickness that is not a number"] = () =>
            _ = new UncertainStack(Stack(Grid), [double.NaN]),
        ["look in no geometry"] = () => _ = new AppearanceOptions(
            Colorimeter.D65TwoDegree, (MeasurementGeometry)99),
        ["look with uncertain backings in percent"] = () => _ = Options with { BackingReflectance = 2 },
        ["look over a backing of another grid"] = () => StackAppearance.Find(
            new UncertainStack(Stack(Grid), [0.03]), Options with
            {
                White = new Backing(
                    Substrate.FromMeasuredReflectance("tile", ReflectanceSpectrum.Uniform(Other, 0.85), 1.5,
                        MeasurementGeometry.DiffuseSpecularIncluded), null),
            }),
        ["look of a stack read from 450 nm"] = () => StackAppearance.Find(
            new UncertainStack(Stack(WavelengthGrid.Range(450, 700, 50)), [0.03]), Options),
        ["look of what reflects nothing"] = () => StackAppearance.Find(
            new UncertainStack(Stack(Grid, 1e6), [0.03]),
            new AppearanceOptions(Colorimeter.D65TwoDegree, MeasurementGeometry.Internal)),
        ["difference of stacks of two grids"] = () => StackAppearance.FindDifference(
            new UncertainStack(Stack(Grid), [0.03]), new UncertainStack(Stack(Other), [0.03]), Options),
        ["difference by no formula"] = () => StackAppearance.FindDifference(
            new UncertainStack(Stack(Grid), [0.03]), new UncertainStack(Stack(Grid), [0.03]), Options,
            (ColorDifferenceFormula)99),
    };

    private static LayerStack Stack(WavelengthGrid grid, double k = 0) => new(
        [new Layer(new Material(
            "body", TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(grid, k),
            ScatteringSpectrum.Uniform(grid, k > 0 ? 0 : 2), 1.5), 1)], Substrate.Black);
}
