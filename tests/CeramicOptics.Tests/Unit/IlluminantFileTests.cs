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
    public void The_ending_of_a_file_says_how_it_is_read()
    {
        string table = Repository.PathOf("src", "TableGenerator", "cie", "illuminant-D50.csv");
        using StreamReader reader = new(table);
        Assert.Equal(
            IlluminantFile.ReadCsv(reader, "illuminant-D50.csv", "lamp").Power,
            IlluminantFile.Read(table, "lamp").Power);
        string other = Repository.PathOf("README.md");
        Assert.Equal(
            $"{other}: files ending in '.md' are not known; allowed: .csv, .spdx.",
            Assert.Throws<ExchangeException>(() => IlluminantFile.Read(other, "lamp")).Message);
    }

    [Fact]
    public void Spectral_distributions_in_xml_may_be_unequally_spaced()
    {
        string data = string.Concat(
            Enumerable.Range(0,
            62).Select(i => $"<SpectralData wavelength=\"{356 + (i * 7) + (i % 2)}\">1</SpectralData>"));
        string xml = $"<IESTM2714 xmlns=\"iestm2714\" "
            + $"version=\"1.0\"><Header/><SpectralDistribution><SpectralQuantity>radiant</SpectralQuantity>"
            + $"{data}</SpectralDistribution></IESTM2714>";
        Illuminant lamp = IlluminantFile.ReadSpdx(new StringReader(xml), "lamp.spdx", "lamp");
        Assert.Equal(1, lamp.Power.Grid.StepNm);

        // Equal power at all wavelengths is illuminant E.
        Assert.Equal(
            new Colorimeter(Observer.Cie1931TwoDegree, Illuminant.Named("E")).White.X,
            new Colorimeter(Observer.Cie1931TwoDegree, lamp).White.X, 1e-9);
    }

    [Theory]
    [InlineData(
        "wavelength,power\n",
        "lamp.csv: no line holds two numbers. Tried: tab, semicolon, comma, bar, space between fields and decimal "
            + "point, comma; the first line is 'wavelength,power'.")]
    [InlineData(
        "wavelength_nm,power\n400,1\n410,x\n420,1\n",
        "lamp.csv, line 3: 'x' in column 'power' is not a finite number; read as comma, decimal point, wavelengths "
            + "down, headings in line 1.")]
    [InlineData(
        "wavelength_nm,power\n400,1\n410,-1\n",
        "lamp.csv: Relative spectral power at 410 nm (index 1) must be in [0, 1000000000000] but is -1.")]
    [InlineData(
        "wavelength_nm,power\n400,0\n410,0\n", "lamp.csv: Relative spectral power is zero at every wavelength.")]
    [InlineData(
        "wavelength_nm,power\n400,1\n410,1\n405,1\n",
        "lamp.csv, line 4: wavelength 405 nm of 'power' follows 410 nm, where the others rise.")]
    public void Faults_are_named(string text, string message) =>
        Assert.Equal(
            message,
            Assert.Throws<ExchangeException>(() => IlluminantFile.ReadCsv(new StringReader(text), "lamp.csv",
            "lamp")).Message);

    [Fact]
    public void A_lamp_may_be_written_in_another_dialect()
    {
        const string Text = "λ (nm)\tW\n780\t2,5\n680\t250,5\n580\t1000,5\n480\t400\n380\t300\n";
        Illuminant lamp = IlluminantFile.ReadCsv(new StringReader(Text), "lamp.txt", "lamp");
        Assert.Equal(WavelengthGrid.Range(380, 780, 100), lamp.Power.Grid);
        Assert.Equal([300, 400, 1000.5, 250.5, 2.5], lamp.Power.Values.ToArray());
    }

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
