using CeramicOptics.Characterization;
using CeramicOptics.Decisions.Discs;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Restorations;

namespace CeramicOptics.Tests.Design;

/// <summary>Bad input about discs to be made, for the table of messages.</summary>
public class DiscBadInput
{
    private const MeasurementGeometry Geometry = MeasurementGeometry.DiffuseSpecularIncluded;
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 100);
    private static readonly Substrate White = Substrate.FromInternalReflectance(
        "white tile", ReflectanceSpectrum.Uniform(Grid, 0.85), 1.5);

    internal static Dictionary<string, Action> Cases { get; } = new()
    {
        ["discs of a material that is in no layer"] = () =>
            NextDisc.Find(Crown(), DiscGoal.Difference, Discs("other", Grid)),
        ["discs read at fewer wavelengths than the material has"] = () => NextDisc.Find(
            Crown(), DiscGoal.Difference, Discs("ceramic", WavelengthGrid.Range(400, 600, 100))),
        ["discs over no backing"] = () => NextDisc.Find(Crown(), DiscGoal.Difference, Passing()),
        ["plan of discs over one backing"] = () => NextDisc.FindForNew(
            Crown(), DiscGoal.Difference, [new Backing(White, null)], Geometry),
        ["plan of discs that show nothing of their backings"] = () => NextDisc.FindForNew(
            Crown(scattering: 90), DiscGoal.Difference,
            [new Backing(White, null), new Backing(Substrate.Black, null)], Geometry,
            new DiscPlanOptions { Thicknesses = new ThicknessRange(3, 5) }),
        ["discs to be made in micrometres"] = () => _ =
            new DiscPlanOptions { Thicknesses = new ThicknessRange(50, 100) },
        ["no disc to be made"] = () => _ = new DiscPlanOptions { Discs = 0 },
        ["noise of readings in percent"] = () => _ = new DiscPlanOptions { ReadingStandardUncertainty = 0.2 },
    };

    private static Restoration Crown(double scattering = 4) => new(
        [new Zone("body", White, 1, MaskingReference.SelfBacked)],
        new Ceramic("ceramic", 1, Material("ceramic", scattering)), new Layer(Material("cement", 1), 0.05),
        ColorCriterion.AcceptabilityThreshold);

    private static Material Material(string name, double scattering) => new(
        name, TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(Grid, 0.1),
            ScatteringSpectrum.Uniform(Grid, scattering),
        1.53);

    private static DiscSet Discs(string name, WavelengthGrid grid) => DiscSet.OverBlackAndWhite(
        name, 1.53, 0.8, ReflectanceSpectrum.Uniform(grid, 0.4), ReflectanceSpectrum.Uniform(grid, 0.6),
        new Backing(Substrate.Black, null), new Backing(Substrate.White, null), Geometry, ReadingArea.Large);

    private static DiscSet Passing() => new("ceramic", 1.53, new[] { 0.5, 1.0 }.Select(mm => DiscReading.Transmittance(
        "passing", mm, new TransmittanceSpectrum(Grid, [0.3, 0.3, 0.3, 0.3]), ReadingArea.Large)));
}
