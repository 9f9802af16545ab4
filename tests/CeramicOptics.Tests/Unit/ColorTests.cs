namespace CeramicOptics.Tests.Unit;

/// <summary>
/// Colour spaces, criteria and indices where a formula has branches, limits or signs; expected values by hand from the
/// formula named.
/// </summary>
public class ColorTests
{
    private static readonly Xyz White = Colorimeter.D65TwoDegree.White;

    /// <summary>
    /// Paravina et al. 2015 and ISO/TR 28642:2016: 50:50 % thresholds of perceptibility and acceptability.
    /// </summary>
    [Fact]
    public void Criteria_carry_the_published_thresholds()
    {
        (ColorCriterion Criterion, string Text)[] published =
        [
            (ColorCriterion.AcceptabilityThreshold, "acceptability threshold (CIEDE2000 at most 1.8)"),
            (ColorCriterion.PerceptibilityThreshold, "perceptibility threshold (CIEDE2000 at most 0.8)"),
            (ColorCriterion.AcceptabilityThresholdCielab, "acceptability threshold (CIELAB at most 2.7)"),
            (ColorCriterion.PerceptibilityThresholdCielab, "perceptibility threshold (CIELAB at most 1.2)"),
        ];
        foreach ((ColorCriterion criterion, string text) in published)
        {
            Assert.Equal(text, criterion.ToString());
            Assert.Contains("ISO/TR 28642:2016", criterion.Source);
        }

        Assert.Same(
            ColorCriterion.AcceptabilityThreshold, ColorCriterion.AcceptabilityBy(ColorDifferenceFormula.Ciede2000));
        Assert.Same(
            ColorCriterion.AcceptabilityThresholdCielab, ColorCriterion.AcceptabilityBy(ColorDifferenceFormula.Cie76));
        Assert.Same(
            ColorCriterion.PerceptibilityThreshold, ColorCriterion.PerceptibilityBy(ColorDifferenceFormula.Ciede2000));
        Assert.Same(
            ColorCriterion.PerceptibilityThresholdCielab,
            ColorCriterion.PerceptibilityBy(ColorDifferenceFormula.Cie76));
    }

    [Fact]
    public void A_criterion_judges_many_pairs_by_its_own_formula()
    {
        // Sharma, Wu, Dalal 2005, pair 1: CIEDE2000 2.0425; the CIELAB distance is the root of squares.
        Lab[] one = [new(50, 2.6772, -79.7751)], other = [new(50, 0, -82.7485)];
        double[] result = new double[1];
        ColorCriterion.AcceptabilityThreshold.Differences(one, other, result);
        Assert.Equal(2.0425, result[0], 0.00005);
        ColorCriterion.AcceptabilityThresholdCielab.Differences(one, other, result);
        Assert.Equal(Math.Sqrt((2.6772 * 2.6772) + (2.9734 * 2.9734)), result[0], 1e-9);
    }

    [Fact]
    public void Differences_of_many_pairs_need_as_many_samples_as_references()
    {
        Lab[] labs = new Lab[3];
        Assert.Equal(
            "references (3), samples (3) and destination (4) must be equally long.",
            Assert.Throws<ArgumentException>(() => ColorDifference.Ciede2000(labs, labs, new double[4])).Message);
    }

    /// <summary>A grey has no hue, on either side; values by scikit-image 0.19.</summary>
    [Fact]
    public void A_grey_on_either_side_has_no_hue()
    {
        Lab grey = new(55, 0, 0), blue = new(50, 12, -7);
        Assert.Equal(14.30151083, ColorDifference.Ciede2000(grey, blue), 1e-8);
        Assert.Equal(14.30151083, ColorDifference.Ciede2000(blue, grey), 1e-8);
        Assert.Equal(4.91015339, ColorDifference.Ciede2000(grey, new Lab(50, 0, 0)), 1e-8);
    }

    /// <summary>Squares of such values overflow; no formula may answer with NaN.</summary>
    [Theory]
    [InlineData(1e200)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void No_difference_is_told_of_what_is_no_colour(double value)
    {
        Lab grey = new(50, 0, 0), other = new(50, value, 0);
        foreach (Func<Lab, Lab, double> formula in (Func<Lab, Lab, double>[])
            [ColorDifference.Cie76, (a, b) => ColorDifference.Cie94(a, b), (a, b) => ColorDifference.Cmc(a, b),
                (a, b) => ColorDifference.Ciede2000(a, b)])
        {
            Assert.Equal("sample.A", Assert.Throws<ArgumentOutOfRangeException>(() => formula(grey, other)).ParamName);
            Assert.Equal(
                "reference.A", Assert.Throws<ArgumentOutOfRangeException>(() => formula(other, grey)).ParamName);
        }
    }

    [Fact]
    public void Parametric_factors_divide_their_own_term()
    {
        // Two greys differ in lightness alone: CIE94 is dL/kL, CMC dL/(l SL) with SL 0.511 below L* 16 and 0.040975
        // L/(1 + 0.01765 L) from there.
        Assert.Equal(5, ColorDifference.Cie94(new Lab(50, 0, 0), new Lab(60, 0, 0), 2), 1e-12);
        Assert.Equal(1 / (3 * 0.511), ColorDifference.Cmc(new Lab(15, 0, 0), new Lab(16, 0, 0), 3), 1e-12);
        Assert.Equal(
            1 / (3 * 0.040975 * 17 / (1 + (0.01765 * 17))),
            ColorDifference.Cmc(new Lab(17, 0, 0), new Lab(16, 0, 0), 3), 1e-12);
    }

    [Fact]
    public void Black_has_no_chromaticity_and_hues_stay_below_360()
    {
        Assert.Equal((0, 0), (default(Xyz).ChromaticityX, default(Xyz).ChromaticityY));
        Assert.Equal(default, Luv.FromXyz(default, White));
        Assert.Equal(default, default(Luv).ToXyz(White));
        Assert.Equal((0.125, 0.25), (new Xyz(1, 2, 5).ChromaticityX, new Xyz(1, 2, 5).ChromaticityY));
        Assert.Equal(0, new Lab(50, -0.0, 0).HueDegrees);
        Assert.Equal(0, new Lab(50, 10, -1e-300).HueDegrees);
        Assert.Equal(180, new Lab(50, -10, 0).HueDegrees);
        Assert.Equal(270, new Lab(50, 0, -10).HueDegrees);
    }

    /// <summary>
    /// IEC 61966-2-1: 12.92 times the linear value up to 0.0031308; grey of the D65 white has equal channels.
    /// </summary>
    [Fact]
    public void Dark_display_colours_follow_the_straight_line()
    {
        Srgb dark = Srgb.FromXyz(new Xyz(0.95047e-1, 0.1, 1.08883e-1)), grey = Srgb.FromXyz(
            new Xyz(0.95047 * 50, 50, 1.08883 * 50));
        Assert.Equal(12.92 * 0.001, dark.R, 1e-6);
        Assert.Equal((1.055 * Math.Pow(0.5, 1 / 2.4)) - 0.055, grey.G, 5e-5);
    }

    [Theory]
    [InlineData(0.5, 0.5, 0.5, true)]
    [InlineData(0, 1, 0.5, true)]
    [InlineData(-0.00009, 0.5, 1.00009, true)]
    [InlineData(-0.0002, 0.5, 0.5, false)]
    [InlineData(0.5, -0.0002, 0.5, false)]
    [InlineData(0.5, 0.5, -0.0002, false)]
    [InlineData(1.0002, 0.5, 0.5, false)]
    [InlineData(0.5, 1.0002, 0.5, false)]
    [InlineData(0.5, 0.5, 1.0002, false)]
    public void One_channel_outside_is_outside_the_gamut(double r, double g, double b, bool isInside)
    {
        Assert.Equal(isInside, new Srgb(r, g, b).IsInGamut);
        Assert.Equal(isInside, new DisplayP3(r, g, b).IsInGamut);
    }

    /// <summary>Against central differences of L*, whose function is the one of the standard.</summary>
    [Theory]
    [InlineData(0.001)]
    [InlineData(0.008)]
    [InlineData(0.01)]
    [InlineData(0.2)]
    [InlineData(0.9)]
    public void Slope_of_lightness_is_that_of_its_curve(double t)
    {
        double L(double at) => Lab.FromXyz(new Xyz(50, 100 * at, 50), new Xyz(100, 100, 100)).L;
        const double Step = 1e-5;
        Assert.Equal(1, Lab.FSlope(t) * 116 / ((L(t + Step) - L(t - Step)) / (2 * Step)), 1e-5);
    }

    [Fact]
    public void Directions_are_spread_evenly_over_the_sphere()
    {
        (double L, double A, double B)[] directions = [.. EvenDirections.OnSphere(60)];
        Assert.All(directions, d => Assert.Equal(1, (d.L * d.L) + (d.A * d.A) + (d.B * d.B), 1e-12));
        Assert.All(
            (double[])[directions.Average(d => d.L), directions.Average(d => d.A), directions.Average(d => d.B)],
            mean => Assert.Equal(0, mean, 0.02));
        Assert.All(
            (double[])[directions.Average(d => d.L * d.L), directions.Average(d => d.A * d.A),
            directions.Average(d => d.B * d.B)], square => Assert.Equal(1.0 / 3, square, 0.02));

        // Sixty caps of equal area that covered the sphere would each reach 14.8 degrees; no point may be farther than
        // twice that from its nearest.
        Assert.All(
            directions,
            d =>
                Assert.InRange(
                    directions.Max(other => other == d ? -1 : (d.L * other.L) + (d.A * other.A) + (d.B * other.B)),
                    Math.Cos(29.6 * Math.PI / 180), Math.Cos(14.8 * Math.PI / 180)));
    }

    /// <summary>
    /// Each extreme goes farther in its own direction than any other does; the directions of XYZ by differences of the
    /// L*a*b* formula.
    /// </summary>
    [Fact]
    public void Extremes_of_metamers_are_the_farthest_in_their_directions()
    {
        WavelengthGrid grid = WavelengthGrid.Range(380, 780, 10);
        Colorimeter a = Colorimeter.ATwoDegree;
        MetamerSpread spread = MetamerSpread.Find(new Lab(60, 8, 20), Colorimeter.D65TwoDegree, a, grid);
        Xyz white = a.Weighting(grid).White, center = spread.Expected.ToXyz(white);
        Xyz[] bodies = [.. spread.Extremes.Select(a.ToXyz)];
        (double L, double A, double B)[] directions = [.. EvenDirections.OnSphere(bodies.Length)];
        for (int k = 0; k < bodies.Length; k++)
        {
            double Along(Xyz xyz)
            {
                Lab lab = Lab.FromXyz(xyz, white);
                return (directions[k].L * lab.L) + (directions[k].A * lab.A) + (directions[k].B * lab.B);
            }

            const double Step = 1e-4;
            double x = (Along(center with { X = center.X + Step }) - Along(center with { X = center.X - Step })) / (
                2 * Step);
            double y = (Along(center with { Y = center.Y + Step }) - Along(center with { Y = center.Y - Step })) / (
                2 * Step);
            double z = (Along(center with { Z = center.Z + Step }) - Along(center with { Z = center.Z - Step })) / (
                2 * Step);
            double[] reach = [.. bodies.Select(body => (x * body.X) + (y * body.Y) + (z * body.Z))];
            Assert.InRange(reach[k], reach.Max() - 0.001, reach.Max());
        }

        Assert.Equal(
            spread.Extremes.Max(extreme => ColorDifference.Ciede2000(spread.Expected, a.ToLab(extreme))),
            spread.LargestDifference, 1e-12);
        Assert.True(
            spread.Extremes.Min(extreme => ColorDifference.Ciede2000(spread.Expected,
            a.ToLab(extreme))) < 0.5 * spread.LargestDifference);
    }

    /// <summary>Pérez et al. 2016; Lee 2016; the formulas by hand.</summary>
    [Fact]
    public void Indices_follow_their_formulas_by_hand()
    {
        Assert.Equal(
            (0.511 * 80) - (2.324 * 3) - (1.1 * 20), ColorIndices.WhitenessForDentistry(new Lab(80, 3, 20)), 1e-12);
        Assert.Equal(13, ColorIndices.Opalescence(new Lab(80, 6, 8), new Lab(60, 1, -4)), 1e-12);
        Assert.Equal(0.25, Translucency.ContrastRatio(new Xyz(1, 20, 3), new Xyz(4, 80, 6)), 1e-15);

        // ASTM E313 with its printed coefficients for D65 and 2 degrees.
        Assert.Equal(
            100 * ((1.2985 * 90) - (1.1335 * 80)) / 95,
            ColorIndices.YellownessE313(new Xyz(90, 95, 80), Colorimeter.D65TwoDegree), 1e-12);
    }

    /// <summary>
    /// CIE 15:2004, 9.4, D65 and 2 degrees at Y 90: W is meant from 40 to 5 Y - 280 = 170 and for a tint of -3 to 3.
    /// Moves of y by d and of x by 0.65 d leave the tint 0 and change W by 2220 d.
    /// </summary>
    [Theory]
    [InlineData(0.0, 0.0, true)]
    [InlineData(0.0355, 0.0, true)]
    [InlineData(0.0365, 0.0, false)]
    [InlineData(-0.0220, 0.0, true)]
    [InlineData(-0.0230, 0.0, false)]
    [InlineData(0.0, 0.00295, true)]
    [InlineData(0.0, 0.00305, false)]
    [InlineData(0.0, -0.00295, true)]
    [InlineData(0.0, -0.00305, false)]
    public void Whiteness_tells_where_it_is_meant_to_hold(double d, double offX, bool inRange)
    {
        double x = White.ChromaticityX - (0.65 * d) - offX, y = White.ChromaticityY - d;
        (double whiteness, double tint, bool isInRange) = ColorIndices.WhitenessCie(
            new Xyz(90 * x / y, 90, 90 * (1 - x - y) / y), Colorimeter.D65TwoDegree);
        Assert.Equal(90 + (2220 * d) + (800 * offX), whiteness, 1e-9);
        Assert.Equal(1000 * offX, tint, 1e-9);
        Assert.Equal(inRange, isInRange);
    }

    [Theory]
    [InlineData(double.NaN, 10, 20, "l")]
    [InlineData(double.NegativeInfinity, 10, 20, "l")]
    [InlineData(50, -0.1, 20, "chroma")]
    [InlineData(50, double.NaN, 20, "chroma")]
    [InlineData(50, double.PositiveInfinity, 20, "chroma")]
    [InlineData(50, 10, double.NaN, "hueDegrees")]
    [InlineData(50, 10, double.PositiveInfinity, "hueDegrees")]
    public void Lightness_chroma_and_hue_of_no_colour_are_refused(double l, double chroma, double hue, string name)
    {
        Assert.Equal(
            name, Assert.Throws<ArgumentOutOfRangeException>(() => Lab.FromLch(l, chroma, hue)).ParamName);
        Assert.Equal(new Lab(50, 0, 0), Lab.FromLch(50, 0, -400));
    }

    [Fact]
    public void Lights_and_observers_carry_their_names()
    {
        foreach (
            string name in (string[])["A", "C", "D50", "D55", "D65", "D75", "E", "F1", "F2", "F3", "F4", "F5", "F6",
            "F7", "F8", "F9", "F10", "F11", "F12",
            "LED-B1", "LED-B2", "LED-B3", "LED-B4", "LED-B5", "LED-BH1", "LED-RGB1", "LED-V1", "LED-V2", "ID50",
            "ID65"])
        {
            Assert.Equal(name + "/10°", new Colorimeter(Observer.Cie1964TenDegree, Illuminant.Named(name)).Name);
        }

        Assert.All(Illuminant.All, it => Assert.Same(it, Illuminant.Named(it.Name.ToLowerInvariant())));
        Assert.Same(Illuminant.F11, Illuminant.Named("fl11"));

        Assert.Equal(30, Illuminant.All.Count);
        Assert.Same(Illuminant.F11, Illuminant.Named("FL11"));
        Assert.Throws<ArgumentException>(() => Illuminant.Named("FLD65"));
        Assert.Equal("D65/2°", Colorimeter.D65TwoDegree.Name);
        Assert.Equal("illuminant D65, 2° observer", Colorimeter.D65TwoDegree.ToString());
        Assert.Equal("ID65/2° (2015)", new Colorimeter(Observer.Cie2015TwoDegree, Illuminant.Named("ID65")).Name);
        Assert.Equal("10° (2015)", Observer.Cie2015TenDegree.ToString());
    }

    /// <summary>Planck's law with c2 of CIE 15:2004, 1.4388e-2 m K, relative to 560 nm, by hand.</summary>
    [Fact]
    public void A_black_body_radiates_by_plancks_law()
    {
        PowerSpectrum power = Illuminant.Planckian(3000).Power;
        double Planck(double nm) => Math.Pow(nm, -5) / (Math.Exp(1.4388e7 / (nm * 3000)) - 1);
        foreach (double nm in (double[])[400, 500, 560, 700])
        {
            Assert.Equal(Planck(nm) / Planck(560), power[power.Grid.IndexOf(nm)], 1e-9);
        }
    }
}
