using CeramicOptics.Characterization;
using CeramicOptics.Layers.TwoFlux;
using static CeramicOptics.Tests.Repository;

namespace CeramicOptics.Tests.Reference;

/// <summary>Surface terms from readings of another program (tests/reference/surface.py).</summary>
public class SurfaceFitTests
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 100);

    /// <summary>
    /// Readings without noise give back the terms, and corrected readings K and S; twelve printed digits.
    /// </summary>
    [Theory]
    [InlineData("0.35", "0.5")]
    [InlineData("0.1", "0.42")]
    public void Three_thicknesses_over_three_backings_tell_the_surface(string share, string inside)
    {
        string[][] rows = [.. ReferenceRows("surface.csv").Where(row => row[0] == share && row[1] == inside)];
        SurfaceFitResult result = SurfaceFit.Find(Discs(rows, _ => true));
        Assert.True(result.IsDetermined, result.ToString());
        Assert.Equal(Number(share), result.SpecularShare!.Value, 1e-8);
        Assert.Equal(Number(inside), result.InternalReflectance!.Value, 1e-8);
        Assert.Equal(0, result.ChiSquare, 1e-12);
        Material material = DiscCharacterization.Find(
            result.ToCorrected(), new CharacterizationOptions { Model = TwoFluxModel.Instance }).ToMaterial();
        foreach (string[] row in rows)
        {
            Assert.Equal(Number(row[3]), material.Absorption[Grid.IndexOf(Number(row[2]))], 1e-3);
            Assert.Equal(Number(row[4]), material.Scattering[Grid.IndexOf(Number(row[2]))], 1e-3);
        }
    }

    /// <summary>
    /// With noise drawn as stated the terms lie within two stated standard uncertainties in 95.4 %, here of 120 values
    /// (three standard errors are 6 %).
    /// </summary>
    [Fact]
    public void Stated_uncertainties_cover_the_terms()
    {
        string[][] rows = [.. ReferenceRows("surface.csv").Where(row => row[0] == "0.35")];
        Random random = new(8);
        int within = 0;
        for (int run = 0; run < 60; run++)
        {
            SurfaceFitResult result = SurfaceFit.Find(Discs(rows, _ => true, random));
            within += Math.Abs(result.SpecularShare!.Value - 0.35) < 2 * result.SpecularShareUncertainty ? 1 : 0;
            within += Math.Abs(result.InternalReflectance!.Value - 0.5) < 2 * result.InternalReflectanceUncertainty
                ? 1
                : 0;
        }

        Assert.InRange(within / 120.0, 0.89, 1);
    }

    [Fact]
    public void Too_few_readings_are_a_finding_and_no_guess()
    {
        string[][] rows = [.. ReferenceRows("surface.csv").Where(row => row[0] == "0.35")];
        SurfaceFitResult two = SurfaceFit.Find(Discs(rows, row => row[5] == "0.8" && row[6] != "0.3"));
        Assert.Equal(FindingKind.TooFewReadings, Assert.Single(two.Findings).Kind);
        Assert.Null(two.SpecularShare);
        SurfaceFitResult one = SurfaceFit.Find(Discs(rows, row => row[6] == "0.0", noise: 0.01));
        Assert.Equal(FindingKind.Undetermined, Assert.Single(one.Findings).Kind);
        Assert.Null(one.InternalReflectance);
        Assert.Throws<InvalidOperationException>(one.ToCorrected);
    }

    /// <summary>
    /// Three readings at two wavelengths are six numbers for six unknowns: no degree of freedom is left, which says
    /// nothing of the fit and does not make the terms worse known than their readings do.
    /// </summary>
    [Fact]
    public void Without_a_degree_of_freedom_uncertainties_are_those_of_the_readings()
    {
        WavelengthGrid two = WavelengthGrid.Range(400, 500, 100);
        DiscSet all = Discs(
            [.. ReferenceRows("surface.csv").Where(row => row[0] == "0.35")],
            row => row is [.., "0.4", "0.0", _] or [.., "0.8", "0.3", _] or [.., "1.6", "0.85", _]);
        DiscSet few = new("disc", 1.5, all.Readings.Select(reading => DiscReading.Reflectance(
            reading.Name, reading.ThicknessMm, new ReflectanceSpectrum(two, reading.Values.Values[..2]),
            new Backing(Substrate.FromInternalReflectance("tile", ReflectanceSpectrum.Uniform(
                two, reading.Backing!.Substrate.InternalReflectanceAt(0)), 1.5), null),
            reading.Geometry, ReadingArea.Large, 1e-4, 0)));
        SurfaceFitResult result = SurfaceFit.Find(few);
        Assert.Equal(0, result.DegreesOfFreedom);
        Assert.DoesNotContain(result.Findings, finding => finding.Kind == FindingKind.PoorFit);
        Assert.True(double.IsFinite(result.SpecularShareUncertainty!.Value), result.ToString());
        Assert.True(double.IsFinite(result.InternalReflectanceUncertainty!.Value));
    }

    private static DiscSet Discs(
        string[][] rows, Func<string[], bool> taken, Random? random = null, double noise = 0.0005) => new(
        "disc", 1.5, rows.Where(taken).GroupBy(row => (Mm: row[5], Backing: row[6])).Select(reading =>
            DiscReading.Reflectance(
                $"{reading.Key.Mm} mm over {reading.Key.Backing}", Number(reading.Key.Mm),
                new ReflectanceSpectrum(Grid, [.. reading.OrderBy(row => Number(row[2])).Select(row =>
                    Number(row[7]) + (random is null ? 0 : noise * WallData.Gauss(random)))]),
                new Backing(Substrate.FromInternalReflectance(
                    "tile", ReflectanceSpectrum.Uniform(Grid, Number(reading.Key.Backing)), 1.5), null),
                MeasurementGeometry.DiffuseSpecularIncluded, ReadingArea.Large, noise, 0)));
}
