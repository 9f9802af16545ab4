using CeramicOptics.Characterization;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;

namespace CeramicOptics.Tests.Design;

/// <summary>Bad input about pigments and surfaces, for the table of messages.</summary>
internal static class PigmentBadInput
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 100);
    private static readonly Material Glaze = new(
        "glaze", TransportModel.Default, AbsorptionSpectrum.Uniform(Grid, 0.1), ScatteringSpectrum.Uniform(Grid, 2),
        1.5);

    public static Dictionary<string, Action> Cases { get; } = new()
    {
        ["drawdown with a negative load"] = () => _ = new Drawdown(-1, Layer(Grid)),
        ["drawdown with a load that is not a number"] = () => _ = new Drawdown(double.NaN, Layer(Grid)),
        ["drawdown without readings"] = () => _ = new Drawdown(1, null!),
        ["drawdown with carrier in percent"] = () => _ = new Drawdown(1, Layer(Grid)) { CarrierShare = 98 },
        ["drawdown that lost all in firing"] = () => _ = new Drawdown(1, Layer(Grid)) { FiringShrinkage = 1 },
        ["drawdown with an uncertain load in percent"] = () =>
            _ = new Drawdown(1, Layer(Grid)) { LoadRelativeUncertainty = 2 },
        ["pigment from no layer"] = () => PigmentCharacterization.Find("ochre", []),
        ["pigment from layers without it"] = () => PigmentCharacterization.Find("ochre",
            [new Drawdown(0, Layer(Grid))]),
        ["pigment from one ratio to its carrier"] = () => PigmentCharacterization.Find(
            "ochre", [new Drawdown(2, Layer(Grid)), new Drawdown(1, Layer(Grid)) { CarrierShare = 0.5 }]),
        ["pigment from layers of two grids"] = () => PigmentCharacterization.Find(
            "ochre", [new Drawdown(0, Layer(Grid)), new Drawdown(1, Layer(WavelengthGrid.Range(400, 700, 50)))]),
        ["pigment in a carrier of another grid"] = () => PigmentCharacterization.Find(
            "ochre", [new Drawdown(1, Layer(WavelengthGrid.Range(400, 700, 50)))], Glaze),
        ["pigment in a carrier of another theory"] = () => PigmentCharacterization.Find(
            "ochre", [new Drawdown(1, Layer(Grid))], Glaze,
            new CharacterizationOptions { Model = TwoFluxModel.Instance }),
        ["pigment that its layers leave open"] = () => Open().ToPigment(),
        ["carrier that the layers leave open"] = () => Open().ToCarrier(),
        ["pigment on wavelengths that were not read"] = () => Open().ToPigment(WavelengthGrid.Range(450, 550, 50)),
        ["surface from readings at 45:0"] = () => SurfaceFit.Find(Surface(MeasurementGeometry.FortyFiveZero)),
        ["surface from readings in two geometries"] = () => SurfaceFit.Find(
            Surface(MeasurementGeometry.DiffuseSpecularExcluded)),
        ["surface of no discs"] = () => SurfaceFit.Find(null!),
        ["readings corrected by a surface that is not known"] = () => SurfaceFit.Find(Layer(Grid)).ToCorrected(),
        ["pigment with too few uncertainties"] = () => _ = new Pigment(
            "ochre", TransportModel.Default, Glaze.Absorption, Glaze.Scattering,
            CoefficientUncertainty.OfScale(WavelengthGrid.Range(400, 600, 100), 0.1)),
    };

    private static PigmentResult Open() => PigmentCharacterization.Find(
        "ochre", [new Drawdown(0, Layer(Grid, 0.8)), new Drawdown(1, Layer(Grid, 0.8))]);

    private static DiscSet Surface(MeasurementGeometry other) => new(
        "disc", 1.5,
        [
            .. Layer(Grid).Readings,
            DiscReading.Reflectance(
                "grey", 0.1, ReflectanceSpectrum.Uniform(Grid, 0.4), new Backing(Substrate.Black, null), other,
                ReadingArea.Large),
        ]);

    private static DiscSet Layer(WavelengthGrid grid, double overBlack = 0.3) => DiscSet.OverBlackAndWhite(
        "layer", 1.5, 0.1, ReflectanceSpectrum.Uniform(grid, overBlack), ReflectanceSpectrum.Uniform(grid, 0.8),
        new Backing(Substrate.Black, null), new Backing(Substrate.White, null),
        MeasurementGeometry.DiffuseSpecularIncluded, ReadingArea.Large);
}
