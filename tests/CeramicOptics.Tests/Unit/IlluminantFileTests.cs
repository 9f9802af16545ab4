using CeramicOptics.Exchange;

namespace CeramicOptics.Tests.Unit;

public class IlluminantFileTests
{
    [Fact]
    public void A_table_of_the_cie_read_as_a_callers_lamp_gives_its_published_white()
    {
        // The file has the heading wavelength_nm,power; ASTM E308, table 5: 96.422, 82.521.
        using StreamReader reader = new(Repository.PathOf("src", "TableGenerator", "cie", "illuminant-D50.csv"));
        Xyz white = new Colorimeter(Observer.Cie1931TwoDegree, IlluminantFile.ReadCsv(reader, "d50.csv", "lamp")).White;
        Assert.Equal(96.422, white.X, 0.001);
        Assert.Equal(82.521, white.Z, 0.001);
    }

    [Fact]
    public void Spectral_distributions_in_xml_may_be_unequally_spaced()
    {
        string data = string.Concat(
            Enumerable.Range(0,
            62).Select(i => $"<SpectralData wavelength=\"{356 + (i * 7) + (i % 2)}\">1</SpectralData>"));
        string xml = $"<IESTM2714 xmlns=\"iestm2714\" "
            + $"version=\"1.0\"><Header/><SpectralDistribution><SpectralQuantity>radiant</SpectralQuantity>{data}</SpectralDistribution></IESTM2714>";
        Illuminant lamp = IlluminantFile.ReadSpdx(new StringReader(xml), "lamp.spdx", "lamp");
        Assert.Equal(1, lamp.Power.Grid.StepNm);

        // Equal power at all wavelengths is illuminant E.
        Assert.Equal(
            new Colorimeter(Observer.Cie1931TwoDegree, Illuminant.E).White.X,
            new Colorimeter(Observer.Cie1931TwoDegree, lamp).White.X, 1e-9);
    }

    [Theory]
    [InlineData(
        "wavelength,power\n", "lamp.csv, line 1: the heading must be 'wavelength_nm,power' but is 'wavelength,power'.")]
    [InlineData(
        "wavelength_nm,power\n400,1\n410,x\n",
        "lamp.csv, line 3: a wavelength and a power are needed but '410,x' is given.")]
    [InlineData(
        "wavelength_nm,power\n400,1\n410,-1\n",
        "lamp.csv: Relative spectral power at 410 nm (index 1) must be in [0, 1000000000000] but is -1.")]
    [InlineData(
        "wavelength_nm,power\n400,0\n410,0\n", "lamp.csv: Relative spectral power is zero at every wavelength.")]
    [InlineData(
        "wavelength_nm,power\n410,1\n400,1\n",
        "lamp.csv: Wavelengths must increase: 400 nm at index 1 is smaller than the one before.")]
    public void Faults_are_named(string text, string message) =>
        Assert.Equal(
            message,
            Assert.Throws<ExchangeException>(() => IlluminantFile.ReadCsv(new StringReader(text), "lamp.csv",
            "lamp")).Message);

    /// <summary>
    /// Stearns, Stearns 1988: for a parabola seen through a triangle of half width h, the reading is the value plus c
    /// h²/6; the correction takes out 0.083 of the second difference 2 c h², that is all but 0.0007 c h² of it.
    /// </summary>
    [Fact]
    public void Bandpass_correction_takes_a_triangle_out_of_a_parabola()
    {
        WavelengthGrid grid = WavelengthGrid.Range(400, 700, 20);
        const double Curvature = 4e-6;
        double True(double nm) => 0.3 + (Curvature * (nm - 540) * (nm - 540));
        ReflectanceSpectrum measured = new(
            grid, [.. Enumerable.Range(0, grid.Count).Select(i => True(grid[i]) + (Curvature * 400 / 6))]);
        ReflectanceSpectrum corrected = BandpassCorrection.StearnsAndStearns(measured);
        for (int i = 1; i < grid.Count - 1; i++)
        {
            Assert.Equal(True(grid[i]), corrected[i], 0.0007 * Curvature * 400);
        }
    }
}
