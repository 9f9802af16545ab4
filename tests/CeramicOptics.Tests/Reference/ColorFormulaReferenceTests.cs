using CeramicOptics.Exchange;
using static CeramicOptics.Tests.Repository;

namespace CeramicOptics.Tests.Reference;

/// <summary>
/// Colour formulas against independent programs (tests/reference/README.md names them) and published values.
/// </summary>
public class ColorFormulaReferenceTests
{
    /// <summary>
    /// scikit-image, 6 decimals, 2,000 pairs at distances of 0.5 to 15 units. Its CMC takes the hue angle of the first
    /// colour, as the standard does.
    /// </summary>
    [Fact]
    public void Differences_of_2000_pairs_agree_with_an_independent_program()
    {
        int pairs = 0;
        foreach (string[] row in ReferenceRows("color_differences.csv"))
        {
            Lab one = new(Number(row[0]), Number(row[1]), Number(row[2])), two = new(
                Number(row[3]), Number(row[4]), Number(row[5]));
            Assert.Equal(Number(row[6]), ColorDifference.Cie94(one, two), 2e-6);
            Assert.Equal(Number(row[7]), ColorDifference.Cmc(one, two), 2e-6);
            Assert.Equal(Number(row[8]), ColorDifference.Cmc(one, two, l: 1), 2e-6);
            Assert.Equal(Number(row[9]), ColorDifference.Ciede2000(one, two), 2e-6);
            pairs++;
        }

        Assert.Equal(2000, pairs);
    }

    /// <summary>
    /// npm culori and colorjs.io, 6 decimals. Beside opposite hues the two programs part from each other, where the
    /// formula itself jumps; there one of them must agree. Their CMC uses the rounded constants of the standard, as
    /// here.
    /// </summary>
    [Fact]
    public void Differences_and_colours_of_3000_pairs_agree_with_two_more_programs()
    {
        Xyz white = new(100 * 0.3127 / 0.3290, 100, 100 * (1 - 0.3127 - 0.3290) / 0.3290);
        List<Lab> references = [], samples = [];
        List<double> published = [];
        foreach (string[] row in ReferenceRows("color_programs.csv"))
        {
            double[] v = [.. row.Select(Number)];
            Lab one = new(v[0], v[1], v[2]), two = new(v[3], v[4], v[5]);
            Xyz xyz = one.ToXyz(white);
            Assert.Equal(v[6], xyz.X, 1e-4);
            Assert.Equal(v[7], xyz.Y, 1e-4);
            Assert.Equal(v[8], xyz.Z, 1e-4);
            Assert.Equal(v[9], ColorDifference.Cie76(one, two), 1e-6);
            Assert.Equal(v[10], ColorDifference.Cie94(one, two), 1e-6);
            double ours = ColorDifference.Ciede2000(one, two);
            Assert.True(
                Math.Min(Math.Abs(v[11] - ours), Math.Abs(v[12] - ours)) < 1e-6,
                $"{one} {two}: {ours} against {v[11]} and {v[12]}");
            Assert.Equal(v[13], ColorDifference.Cmc(one, two), 1e-6);
            references.Add(one);
            samples.Add(two);
            published.Add(Math.Abs(v[11] - ours) < Math.Abs(v[12] - ours) ? v[11] : v[12]);
        }

        Assert.Equal(3000, published.Count);
        double[] batch = new double[3000];
        ColorDifference.Ciede2000(references.ToArray(), samples.ToArray(), batch);
        Assert.All(
            batch.Zip(published, (actual, expected) => Math.Abs(actual - expected)),
            gap => Assert.InRange(gap, 0, 1e-6));
    }

    /// <summary>scipy's HiGHS on the same linear programs, 6 decimals; the method stops 0.001 short at most.</summary>
    [Fact]
    public void Extremes_of_metamers_agree_with_linear_programming()
    {
        SpectralTable spectra = SpectralTable.Read(PathOf("tests", "reference", "spectra.csv"));
        WeightingTable d65 = Colorimeter.D65TwoDegree.Weighting(spectra.Grid), a = Colorimeter.ATwoDegree.Weighting(
            spectra.Grid);
        foreach (string[] row in ReferenceRows("metamers.csv"))
        {
            ReflectanceSpectrum start = Colorimeter.D65TwoDegree.SmoothestReflectance(
                Colorimeter.D65TwoDegree.ToLab(spectra[row[0]]), spectra.Grid);
            LinearExtreme search = new(start.Values, 1, d65.X, d65.Y, d65.Z);
            double Extreme(ReadOnlySpan<double> weights, int sign)
            {
                double[] objective = [.. weights.ToArray().Select(weight => sign * weight)], values = search.Maximize(
                    objective);
                Assert.Equal(0, ColorDifference.Cie76(Colorimeter.D65TwoDegree.ToLab(start), d65.ToLab(values)), 1e-6);
                Assert.All(values, value => Assert.InRange(value, 0, 1));
                return values.Zip(weights.ToArray(), (value, weight) => value * weight).Sum();
            }

            double[] found = [Extreme(a.X, -1), Extreme(a.X, 1), Extreme(a.Y, -1), Extreme(a.Y, 1), Extreme(a.Z, -1),
                Extreme(a.Z, 1)];
            for (int i = 0; i < 6; i++)
            {
                Assert.Equal(Number(row[i + 1]), found[i], 0.0015);
            }
        }
    }

    [Fact]
    public void Metamers_part_less_the_nearer_they_are()
    {
        WavelengthGrid grid = WavelengthGrid.Range(380, 780, 10);
        Lab tooth = new(75, 2, 18);
        MetamerSpread any = MetamerSpread.Find(tooth, Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree, grid);
        MetamerSpread near = MetamerSpread.Find(
            tooth, Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree, grid, within: 0.03);
        MetamerSpread same = MetamerSpread.Find(tooth, Colorimeter.D65TwoDegree, Colorimeter.D65TwoDegree, grid);
        Assert.InRange(near.LargestDifference, 0.2, any.LargestDifference / 3);
        Assert.InRange(same.LargestDifference, 0, 1e-6);
        Assert.Equal(
            any.LargestDifference, ColorDifference.Ciede2000(any.Expected, Colorimeter.ATwoDegree.ToLab(any.Farthest)),
            1e-12);
        Assert.Equal(0, ColorDifference.Cie76(tooth, Colorimeter.D65TwoDegree.ToLab(any.Farthest)), 1e-6);
        Assert.Throws<ArgumentOutOfRangeException>(
            () => MetamerSpread.Find(tooth, Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree, grid, within: 0));
    }

    /// <summary>
    /// scikit-image, 6 decimals; its D65 white is 0.95047, 1, 1.08883 and its lightness constants are the rounded
    /// 0.008856 and 903.3.
    /// </summary>
    [Fact]
    public void Luv_of_500_colours_agrees_with_an_independent_program()
    {
        Xyz white = new(95.047, 100, 108.883);
        foreach (string[] row in ReferenceRows("luv.csv"))
        {
            Xyz xyz = new(Number(row[0]), Number(row[1]), Number(row[2]));
            if (xyz.Z <= 0)
            {
                // Fifteen of the random L*a*b* are no colours; that program clips them.
                continue;
            }

            Luv luv = Luv.FromXyz(xyz, white);
            Assert.Equal(Number(row[3]), luv.L, 4e-5);
            Assert.Equal(Number(row[4]), luv.U, 6e-4);
            Assert.Equal(Number(row[5]), luv.V, 6e-4);
            Xyz back = luv.ToXyz(white);
            Assert.Equal(xyz.X, back.X, 1e-9);
            Assert.Equal(xyz.Z, back.Z, 1e-9);
        }
    }

    /// <summary>
    /// npm colorjs.io (adaptation) and culori (display colours), 300 colours. sRGB: the standard's four-decimal matrix
    /// against exact primaries, hence 5e-4.
    /// </summary>
    [Fact]
    public void Adaptation_and_display_colours_agree_with_independent_programs()
    {
        Xyz d65 = new(95.047, 100, 108.883), a = new(109.85, 100, 35.585);
        foreach (string[] row in ReferenceRows("color_spaces.csv"))
        {
            double[] v = [.. row.Select(Number)];
            Xyz xyz = new(v[0], v[1], v[2]);
            foreach (
                (AdaptationMethod method, int at) in ((AdaptationMethod, int)[])[(AdaptationMethod.Bradford, 3),
                (AdaptationMethod.Cat02, 6), (AdaptationMethod.Cat16, 9)])
            {
                Xyz adapted = ChromaticAdaptation.Adapt(xyz, d65, a, method);

                // Inverse matrices are rounded to 7 digits there.
                Assert.Equal(v[at], adapted.X, 1e-4);
                Assert.Equal(v[at + 1], adapted.Y, 1e-4);
                Assert.Equal(v[at + 2], adapted.Z, 1e-4);
                Xyz back = ChromaticAdaptation.Adapt(adapted, a, d65, method);
                Assert.Equal(xyz.X, back.X, 1e-10);
            }

            // culori extends the curve as an odd function below zero; here it stays linear, so out-of-gamut negatives
            // are left out.
            Srgb srgb = Srgb.FromXyz(xyz);
            DisplayP3 p3 = DisplayP3.FromXyz(xyz);
            foreach ((double expected, double actual, double tolerance) in ((double, double, double)[])[
                (v[12], srgb.R, 5e-4), (v[13], srgb.G, 5e-4), (v[14], srgb.B, 5e-4), (v[15], p3.R, 1e-4),
                (v[16], p3.G, 1e-4), (v[17], p3.B, 1e-4)])
            {
                if (expected > 0.05)
                {
                    Assert.Equal(expected, actual, tolerance);
                }
            }
        }
    }

    [Fact]
    public void Indices_of_the_perfect_diffuser_are_those_of_their_definitions()
    {
        foreach (Observer observer in (Observer[])[Observer.Cie1931TwoDegree, Observer.Cie1964TenDegree])
        {
            Colorimeter d65 = new(observer, Illuminant.D65), c = new(observer, Illuminant.Named("C"));
            Assert.Equal(100, ColorIndices.WhitenessCie(d65.White, d65).Whiteness, 1e-9);
            Assert.Equal(0, ColorIndices.WhitenessCie(d65.White, d65).Tint, 1e-9);

            // ASTM E313: 0 for the perfect diffuser of ASTM E308, whose Z for D65 and 10 degrees is 107.304 where the
            // CIE sum gives 107.32.
            Assert.Equal(0, ColorIndices.YellownessE313(d65.White, d65), 0.025);
            Assert.Equal(0, ColorIndices.YellownessE313(c.White, c), 0.025);
        }

        Assert.Equal(51.1, ColorIndices.WhitenessForDentistry(new Lab(100, 0, 0)), 1e-12);
        Assert.Equal(5, ColorIndices.Opalescence(new Lab(80, 4, 3), new Lab(60, 0, 0)), 1e-12);
    }

    /// <summary>
    /// CIE 15:2004, 9.4, by hand: Y 90, x 0.3000, y 0.3150 under D65/10° (white 0.31381, 0.33098 from the same table).
    /// </summary>
    [Fact]
    public void Whiteness_follows_its_formula_by_hand()
    {
        Colorimeter d65 = Colorimeter.D65TenDegree;
        (double whiteness, double tint, bool inRange) = ColorIndices.WhitenessCie(
            new Xyz(90 * 0.3000 / 0.3150, 90, 90 * (1 - 0.3000 - 0.3150) / 0.3150), d65);
        Assert.Equal(90 + (800 * (0.31382 - 0.3)) + (1700 * (0.33100 - 0.315)), whiteness, 0.02);
        Assert.Equal((900 * (0.31382 - 0.3)) - (650 * (0.33100 - 0.315)), tint, 0.01);
        Assert.True(inRange);
    }

    [Fact]
    public void Metamers_show_under_the_test_light_only()
    {
        WavelengthGrid grid = WavelengthGrid.Range(380, 780, 5);
        ReflectanceSpectrum stepped = new(
            grid,
            [.. Enumerable.Range(0,
            grid.Count).Select(i => grid[i] < 480 ? 0.25 : grid[i] < 560 ? 0.4 : grid[i] < 600 ? 0.35 : 0.5)]);
        Colorimeter d65 = Colorimeter.D65TwoDegree, a = Colorimeter.ATwoDegree;
        ReflectanceSpectrum metamer = d65.SmoothestReflectance(d65.ToLab(stepped), grid);
        Assert.Equal(0, ColorIndices.Metamerism(stepped, metamer, d65, d65), 1e-6);
        Assert.Equal(
            ColorDifference.Ciede2000(a.ToLab(stepped), a.ToLab(metamer)),
            ColorIndices.Metamerism(stepped, metamer, d65, a), 1e-5);
        Assert.True(ColorIndices.Metamerism(stepped, metamer, d65, a) > 0.5);
    }

    [Fact]
    public void A_swatch_outside_the_gamut_keeps_lightness_and_hue()
    {
        Lab green = new(70, -90, 60);
        Srgb mapped = Srgb.FromLabReducingChroma(green);
        Assert.True(mapped.IsInGamut);

        // Back to Lab by the inverse of the standard's curve and matrix (colours of IEC 61966-2-1, primaries of
        // BT.709).
        double Linear(double v) => v <= 0.04045 ? v / 12.92 : Math.Pow((v + 0.055) / 1.055, 2.4);
        (double r, double g, double b) = (Linear(mapped.R), Linear(mapped.G), Linear(mapped.B));
        Lab shown = Lab.FromXyz(
            new Xyz(100 * ((0.4124 * r) + (0.3576 * g) + (0.1805 * b)),
            100 * ((0.2126 * r) + (0.7152 * g) + (0.0722 * b)), 100 * ((0.0193 * r) + (0.1192 * g) + (0.9505 * b))),
            Colorimeter.D65TwoDegree.White);
        Assert.Equal(green.L, shown.L, 0.05);
        Assert.Equal(green.HueDegrees, shown.HueDegrees, 0.3);
        Assert.True(shown.Chroma < green.Chroma && shown.Chroma > 50);
        Assert.Equal(
            Srgb.FromXyz(new Lab(60, 5, 10).ToXyz(Colorimeter.D65TwoDegree.White)),
            Srgb.FromLabReducingChroma(new Lab(60, 5, 10)));
    }

    [Fact]
    public void A_mixture_of_measured_bodies_has_the_colour_asked_for()
    {
        WavelengthGrid grid = WavelengthGrid.Range(380, 780, 10);
        ReflectanceSpectrum Tooth(double low, double high, double middle) =>
            new(grid, [.. Enumerable.Range(0, grid.Count).Select(
                i => low + ((high - low) / (1 + Math.Exp(-(grid[i] - middle) / 40))))]);
        ReflectanceSpectrum[] teeth = [Tooth(0.3, 0.7, 480), Tooth(0.1, 0.5, 550), Tooth(0.3, 0.45, 600)];
        Colorimeter d65 = Colorimeter.D65TwoDegree;
        ReflectanceSpectrum between = new(
            grid,
            [.. Enumerable.Range(0,
            grid.Count).Select(i => (0.5 * teeth[0][i]) + (0.3 * teeth[1][i]) + (0.2 * teeth[2][i]))]);
        ReflectanceSpectrum found = d65.ReflectanceFromBasis(d65.ToLab(between), teeth);
        for (int i = 0; i < grid.Count; i++)
        {
            Assert.Equal(between[i], found[i], 1e-9);
        }

        Assert.Throws<ArgumentOutOfRangeException>(() => d65.ReflectanceFromBasis(new Lab(50, -40, -40), teeth));
        Assert.StartsWith(
            "The colours of the basis lie in one plane under D65/2°",
            Assert.Throws<ArgumentException>(
                () => d65.ReflectanceFromBasis(new Lab(60, 2, 15),
                [teeth[0], teeth[1], teeth[0]])).Message, StringComparison.Ordinal);
    }
}
