using static CeramicOptics.Tests.Repository;

namespace CeramicOptics.Tests.Reference;

public class ColorimetryReferenceTests
{
    /// <summary>
    /// White points of ASTM E308 (360 to 780 nm), 3 decimals, as the public fax codec SpanDSP tables them (t42.c), for
    /// 2 degrees also colormath 3.0.0; X, Z for the 2 degree, then the 10 degree observer. They also tell how a lamp is
    /// interpolated to 1 nm: Lagrange's cubic gives them within 0.001, D65 wants the straight line; a straight line for
    /// all would miss F7 by 0.116, Sprague's formula F2 by 0.0045 (tests/reference/tristimulus_colour.py prints that).
    /// </summary>
    [Theory]
    [InlineData("A", 109.850, 35.585, 111.144, 35.200)]
    [InlineData("C", 98.074, 118.232, 97.285, 116.145)]
    [InlineData("D50", 96.422, 82.521, 96.720, 81.427)]
    [InlineData("D55", 95.682, 92.149, 95.799, 90.926)]
    [InlineData("D65", 95.047, 108.883, 94.811, 107.304)]
    [InlineData("D75", 94.972, 122.638, 94.416, 120.641)]
    [InlineData("F2", 99.186, 67.393, 103.279, 69.027)]
    [InlineData("F7", 95.041, 108.747, 95.792, 107.686)]
    [InlineData("F11", 100.962, 64.350, 103.863, 65.607)]
    public void White_points_have_the_printed_digits(string name, double x2, double z2, double x10, double z10)
    {
        Xyz two = new Colorimeter(Observer.Cie1931TwoDegree, Illuminant.Named(name)).White;
        Xyz ten = new Colorimeter(Observer.Cie1964TenDegree, Illuminant.Named(name)).White;

        // Half a unit of the last printed digit, and as much again for the rounding inside the published calculation.
        Assert.Equal(x2, two.X, 0.001);
        Assert.Equal(z2, two.Z, 0.001);
        Assert.Equal(x10, ten.X, 0.001);
        Assert.Equal(z10, ten.Z, 0.001);
        Assert.Equal(100, two.Y, 1e-9);
        Assert.Equal(100, ten.Y, 1e-9);
    }

    /// <summary>
    /// tests/reference/tristimulus.py: reflectance interpolated to every nanometre, then summed; all lights, all
    /// observers, data at 5, 10 and 20 nm and data that ends at 400 and 700 nm; 9 decimals.
    /// </summary>
    [Fact]
    public void Tristimulus_values_are_those_of_the_definition() =>
        Assert.Equal(4 * 30 * 4 * 6, AssertTristimulus("tristimulus.csv"));

    /// <summary>Weighting factors of a second program, colour-science 0.4.6, at 10 and 20 nm; 9 decimals.</summary>
    [Fact]
    public void Tristimulus_values_are_those_of_a_second_program() =>
        Assert.Equal(2 * 30 * 2 * 6, AssertTristimulus("tristimulus_colour.csv"));

    /// <summary>
    /// CIE 15:2004, fluorescent illuminants, chromaticity for the 2 degree observer, 4 decimals, as carried by
    /// colour-science 0.4.6.
    /// </summary>
    [Theory]
    [InlineData("F1", 0.3131, 0.3371)]
    [InlineData("F2", 0.3721, 0.3751)]
    [InlineData("F3", 0.4091, 0.3941)]
    [InlineData("F4", 0.4402, 0.4031)]
    [InlineData("F5", 0.3138, 0.3452)]
    [InlineData("F6", 0.3779, 0.3882)]
    [InlineData("F7", 0.3129, 0.3292)]
    [InlineData("F8", 0.3458, 0.3586)]
    [InlineData("F9", 0.3741, 0.3727)]
    [InlineData("F10", 0.3458, 0.3588)]
    [InlineData("F11", 0.3805, 0.3769)]
    [InlineData("F12", 0.4370, 0.4042)]
    public void Fluorescent_whites_have_the_printed_digits(string name, double x, double y) =>
        AssertWhite(x, y, Observer.Cie1931TwoDegree, Illuminant.Named(name), 0.00006);

    /// <summary>
    /// Chromaticity of the fluorescent illuminants for the 10 degree observer, as carried by colour-science 0.4.6. They
    /// are of sums at 5 nm; sums at 1 nm depart from them by up to 0.00014, for F10 by 0.0003.
    /// </summary>
    [Theory]
    [InlineData("F1", 0.31811, 0.33559)]
    [InlineData("F2", 0.37925, 0.36733)]
    [InlineData("F3", 0.41761, 0.38324)]
    [InlineData("F4", 0.44920, 0.39074)]
    [InlineData("F5", 0.31975, 0.34246)]
    [InlineData("F6", 0.38660, 0.37847)]
    [InlineData("F7", 0.31569, 0.32960)]
    [InlineData("F8", 0.34902, 0.35939)]
    [InlineData("F9", 0.37829, 0.37045)]
    [InlineData("F10", 0.35090, 0.35444)]
    [InlineData("F11", 0.38541, 0.37123)]
    [InlineData("F12", 0.44256, 0.39717)]
    public void Fluorescent_whites_of_the_wide_field_are_near_the_printed_ones(string name, double x, double y) =>
        AssertWhite(x, y, Observer.Cie1964TenDegree, Illuminant.Named(name), 0.0003);

    /// <summary>
    /// CIE 15:2004, chromaticities of D50, D55, D65, D75, 2 degrees, as carried by colour-science 0.4.6; 9300 K is the
    /// chromaticity aimed at, by the formula of CIE 15:2004, 3.1, by hand, which its spectrum misses by 0.0001. The
    /// nominal temperatures are older than the present c2.
    /// </summary>
    [Theory]
    [InlineData(5000 * 1.4388 / 1.4380, 0.34570, 0.35850)]
    [InlineData(5500 * 1.4388 / 1.4380, 0.33243, 0.34744)]
    [InlineData(6500 * 1.4388 / 1.4380, 0.31270, 0.32900)]
    [InlineData(7500 * 1.4388 / 1.4380, 0.29903, 0.31488)]
    [InlineData(9300, 0.28315, 0.29711)]
    public void Daylight_of_any_temperature_has_the_printed_chromaticity(double kelvin, double x, double y) =>
        AssertWhite(x, y, Observer.Cie1931TwoDegree, Illuminant.Daylight(kelvin), 0.00012);

    /// <summary>
    /// The tables of D50, D55 and D75 of CIE 15:2018 (3 decimals) against the formula of CIE 15:2004, 3.1, at the
    /// actual temperatures.
    /// </summary>
    [Theory]
    [InlineData("D50", 5000)]
    [InlineData("D55", 5500)]
    [InlineData("D75", 7500)]
    public void Daylight_by_formula_is_the_table(string name, double nominalKelvin)
    {
        PowerSpectrum table = Illuminant.Named(name).Power;
        PowerSpectrum formula = Illuminant.Daylight(nominalKelvin * 1.4388 / 1.4380).Power;
        for (int i = 0; i < table.Grid.Count; i++)
        {
            Assert.Equal(table[i], formula[formula.Grid.IndexOf(table.Grid[i])], 0.002);
        }
    }

    [Fact]
    public void Equal_energy_is_neutral_by_construction_of_the_observers()
    {
        // ISO/CIE 11664-1, CIE 170-2:2015: the functions are scaled to equal sums; chromaticity 1/3, 1/3 to 4 decimals.
        Observer[] observers =
            [Observer.Cie1931TwoDegree, Observer.Cie1964TenDegree, Observer.Cie2015TwoDegree,
                Observer.Cie2015TenDegree];
        foreach (Observer observer in observers)
        {
            AssertWhite(1.0 / 3, 1.0 / 3, observer, Illuminant.Named("E"), 0.00005);
        }
    }

    /// <summary>tests/reference/tristimulus.py, Lab by scikit-image; 9 decimals; agreement is to rounding.</summary>
    [Fact]
    public void Lab_of_60_spectra_agrees_with_an_independent_program()
    {
        Dictionary<string, ReflectanceSpectrum> spectra = Spectra();
        int rows = 0;
        foreach (string[] row in ReferenceRows("spectra_lab.csv"))
        {
            Lab lab = ColorimeterFor(row).ToLab(spectra[row[0]]);
            Assert.Equal(Number(row[3]), lab.L, 2e-6);
            Assert.Equal(Number(row[4]), lab.A, 2e-6);
            Assert.Equal(Number(row[5]), lab.B, 2e-6);
            rows++;
        }

        Assert.Equal(60 * 6 * 2, rows);
    }

    /// <summary>
    /// argyll's spec2cie interpolates in its own way, sums over its own range and has its own tables (D50 of another
    /// edition); so agreement is within 0.25 CIELAB units at worst, for the most saturated bands, and 0.05 on average.
    /// That is not an error of either.
    /// </summary>
    [Fact]
    public void Lab_of_60_spectra_is_near_a_second_program()
    {
        Dictionary<string, ReflectanceSpectrum> spectra = Spectra();
        List<double> differences = [];
        foreach (string[] row in ReferenceRows("spectra_lab_argyll.csv"))
        {
            Lab expected = new(Number(row[3]), Number(row[4]), Number(row[5]));
            differences.Add(ColorDifference.Cie76(expected, ColorimeterFor(row).ToLab(spectra[row[0]])));
        }

        Assert.Equal(60 * 3 * 2, differences.Count);
        Assert.InRange(differences.Max(), 0, 0.25);
        Assert.InRange(differences.Average(), 0, 0.05);
    }

    /// <summary>
    /// Sharma, Wu, Dalal 2005, Color Res. Appl. 30:21-30, table 1: 34 pairs, 4 decimals, both orders.
    /// </summary>
    [Fact]
    public void Ciede2000_has_the_published_pairs_in_both_orders()
    {
        int pairs = 0;
        foreach (string[] row in ReferenceRows("ciede2000_pairs.csv"))
        {
            Lab one = new(Number(row[1]), Number(row[2]), Number(row[3])), two = new(
                Number(row[4]), Number(row[5]), Number(row[6]));
            Assert.Equal(Number(row[7]), ColorDifference.Ciede2000(one, two), 0.00005);
            Assert.Equal(Number(row[7]), ColorDifference.Ciede2000(two, one), 0.00005);
            pairs++;
        }

        Assert.Equal(34, pairs);
    }

    /// <summary>
    /// IEC 61966-2-1: D65 white is (1, 1, 1) and the primaries have the chromaticities of ITU-R BT.709.
    /// </summary>
    [Fact]
    public void Srgb_white_and_primaries_are_those_of_the_standard()
    {
        Srgb white = Srgb.FromXyz(new Xyz(95.047, 100, 108.883));
        Assert.Equal("#ffffff", white.ToHex());
        Assert.True(white.IsInGamut);
        (double X, double Y, double Luminance, string Hex)[] primaries =
            [(0.64, 0.33, 21.26, "#ff0000"), (0.30, 0.60, 71.52, "#00ff00"), (0.15, 0.06, 7.22, "#0000ff")];
        foreach ((double x, double y, double luminance, string hex) in primaries)
        {
            Assert.Equal(hex, Srgb.FromXyz(new Xyz(luminance * x / y, luminance, luminance * (1 - x - y) / y)).ToHex());
        }

        Assert.False(Srgb.FromXyz(new Xyz(20, 60, 10)).IsInGamut);
    }

    /// <summary>
    /// Against a general optimiser (scipy SLSQP) on the objective of Burns 2020; 6 decimals printed, optimiser good to
    /// about 1e-4.
    /// </summary>
    [Fact]
    public void Smoothest_reflectance_agrees_with_a_general_optimiser()
    {
        WavelengthGrid grid = WavelengthGrid.Range(380, 780, 5);
        foreach (string[] row in ReferenceRows("smoothest.csv"))
        {
            Lab color = new(Number(row[0]), Number(row[1]), Number(row[2]));
            ReflectanceSpectrum spectrum = Colorimeter.D65TwoDegree.SmoothestReflectance(color, grid);
            for (int i = 0; i < grid.Count; i++)
            {
                Assert.Equal(Number(row[3 + i]), spectrum[i], 5e-4);
            }

            Assert.Equal(0, ColorDifference.Cie76(color, Colorimeter.D65TwoDegree.ToLab(spectrum)), 1e-6);
        }
    }

    private static int AssertTristimulus(string file)
    {
        Dictionary<string, ReflectanceSpectrum> spectra = Spectra();
        Dictionary<string, Colorimeter> colorimeters = [];
        int rows = 0;
        foreach (string[] row in ReferenceRows(file))
        {
            WavelengthGrid grid = WavelengthGrid.Range(Number(row[3]), Number(row[4]), Number(row[5]));
            ReflectanceSpectrum whole = spectra[row[0]];
            double[] values = [.. Enumerable.Range(0, grid.Count).Select(i => whole[whole.Grid.IndexOf(grid[i])])];
            ReflectanceSpectrum sample = new(grid, values);
            if (!colorimeters.TryGetValue(row[1] + row[2], out Colorimeter? colorimeter))
            {
                colorimeters[row[1] + row[2]] = colorimeter = new(ObserverOf(row[2]), Illuminant.Named(row[1]));
            }

            Xyz xyz = colorimeter.ToXyz(sample);
            Assert.Equal(Number(row[6]), xyz.X, 2e-9);
            Assert.Equal(Number(row[7]), xyz.Y, 2e-9);
            Assert.Equal(Number(row[8]), xyz.Z, 2e-9);
            rows++;
        }

        return rows;
    }

    private static Observer ObserverOf(string name) => name switch
    {
        "1931" => Observer.Cie1931TwoDegree,
        "1964" => Observer.Cie1964TenDegree,
        "2015/2" => Observer.Cie2015TwoDegree,
        _ => Observer.Cie2015TenDegree,
    };

    private static void AssertWhite(double x, double y, Observer observer, Illuminant light, double tolerance)
    {
        Xyz white = new Colorimeter(observer, light).White;
        Assert.Equal(x, white.ChromaticityX, tolerance);
        Assert.Equal(y, white.ChromaticityY, tolerance);
    }

    private static Colorimeter ColorimeterFor(string[] row) =>
        new(row[2] == "2" ? Observer.Cie1931TwoDegree : Observer.Cie1964TenDegree, Illuminant.Named(row[1]));

    private static Dictionary<string, ReflectanceSpectrum> Spectra()
    {
        using StreamReader reader = new(PathOf("tests", "reference", "spectra.csv"));
        Exchange.SpectralTable table = Exchange.SpectralTable.Read(reader, "spectra.csv");
        return table.Names.ToDictionary(name => name, name => table[name]);
    }
}
