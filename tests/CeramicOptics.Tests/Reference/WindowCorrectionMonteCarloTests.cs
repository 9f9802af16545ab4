using CeramicOptics.Characterization;
using CeramicOptics.Layers.Transport;

namespace CeramicOptics.Tests.Reference;

/// <summary>
/// Thick bodies of photons read through a window: the correction compared with all the light that comes out.
/// </summary>
public class WindowCorrectionMonteCarloTests
{
    private const MeasurementGeometry Di8 = MeasurementGeometry.DiffuseSpecularIncluded;
    private const int Photons = 20_000;

    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 500, 100);

    /// <summary>
    /// Absorption, reduced scattering, anisotropy, radius of spot and window. Known scattering: within 0.01 and what
    /// the counting of both readings makes uncertain. Unknown anisotropy: within twice the stated uncertainty.
    /// </summary>
    [Theory]
    [InlineData(0.05, 2.0, 0.8, 2.0)]
    [InlineData(0.2, 1.0, 0.5, 2.0)]
    [InlineData(0.1, 3.0, 0.9, 1.5)]
    [InlineData(0.02, 6.0, 0.0, 3.0)]
    public void A_thick_body_is_corrected_to_what_a_large_area_reads(
        double absorption, double reduced, double anisotropy, double radiusMm)
    {
        LateralMonteCarlo photons = new(
            [new TransportLayer(absorption, reduced / (1 - anisotropy), anisotropy, 20, 1.54)], 1.54, _ => 0, 11);
        RadialShares shares = photons.Pencil(Photons, 8);
        Estimate through = shares.Reading(radiusMm, radiusMm), large = shares.Total();
        Assert.True(through.Value < large.Value - 0.03);
        double noise = Math.Max(1e-4, through.StandardError);
        LargeAreaReading Found(BodyScattering body) => WindowCorrection.Find(
            "body", ReflectanceSpectrum.Uniform(Grid, through.Value), Di8, ReadingArea.Circular(radiusMm, radiusMm),
            body, noise);
        LargeAreaReading known = Found(new BodyScattering(1.54, reduced, 0, anisotropy));
        Assert.Equal(
            large.Value, known.Values[0], 0.01 + (4 * large.StandardError) + (4 * known.StandardUncertainty[0]));
        LargeAreaReading unknown = Found(new BodyScattering(1.54, reduced, 0));
        Assert.Equal(
            large.Value, unknown.Values[0], (4 * large.StandardError) + (2 * unknown.StandardUncertainty[0]));
        Assert.InRange(known.StandardUncertainty[0], 0, 0.02);
    }
}
