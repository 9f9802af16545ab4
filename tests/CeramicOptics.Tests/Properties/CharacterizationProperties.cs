using CeramicOptics.Characterization;
using CeramicOptics.Layers.TwoFlux;
using FsCheck.Xunit;

namespace CeramicOptics.Tests.Properties;

[Properties(MaxTest = Cases.Many, Arbitrary = [typeof(Generators)])]
public class CharacterizationProperties
{
    /// <summary>
    /// A disc is simulated from K and S with real (not ideal) tiles, surfaces and coupling; the inversion must return
    /// them.
    /// </summary>
    [Property]
    public void K_and_S_come_back_from_simulated_discs(CeramicInput ceramic, Fraction choice)
    {
        Material truth = ceramic.Material();
        WavelengthGrid grid = truth.Grid;
        MeasurementGeometry geometry = (MeasurementGeometry)(int)Math.Min(4, choice.Value * 5);
        CouplingMedium? film = choice.Value < 0.5 ? CouplingMedium.Glycerine : null;
        Backing black = new(
            Substrate.FromInternalReflectance("black", ReflectanceSpectrum.Uniform(grid, 0.01), 1.5), film);
        Backing white = new(
            Substrate.FromInternalReflectance("white", ReflectanceSpectrum.Uniform(grid, 0.93), 1.5), film);
        ReflectanceSpectrum Read(Backing backing) =>
            new LayerStack([new Layer(truth, ceramic.DiscMm)], backing.Substrate, backing.Coupling)
                .Reflectance(geometry);

        CharacterizationResult result = DiscCharacterization.Find(
            DiscSet.OverBlackAndWhite("disc", ceramic.Index, ceramic.DiscMm, Read(black), Read(white), black, white,
            geometry, ReadingArea.Large, readingStandardUncertainty: 1e-9),
            new CharacterizationOptions { Model = TwoFluxModel.Instance });
        foreach (Finding finding in result.Findings)
        {
            // Nothing but opacity may stand in the way of noiseless data.
            Assert.Equal(FindingKind.TooOpaque, finding.Kind);
        }

        if (!result.IsComplete)
        {
            return;
        }

        Material found = result.ToMaterial();
        for (int i = 0; i < grid.Count; i++)
        {
            // Double rounding in the readings (1e-16) grows with the stated uncertainty per unit of reading noise.
            double growthK = found.Uncertainty!.AbsorptionPerMm[i] / 1e-9,
                growthS = found.Uncertainty.ScatteringPerMm[i] / 1e-9;
            Assert.Equal(truth.Absorption[i], found.Absorption[i], (1e-9 * truth.Absorption[i]) + (2e-14 * growthK));
            Assert.Equal(truth.Scattering[i], found.Scattering[i], (1e-9 * truth.Scattering[i]) + (2e-14 * growthS));
        }
    }
}
