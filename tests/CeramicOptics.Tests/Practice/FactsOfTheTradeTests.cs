using CeramicOptics.Decisions.Masking;
using CeramicOptics.Restorations;
using static CeramicOptics.Tests.DemoData;

namespace CeramicOptics.Tests.Practice;

/// <summary>
/// What every ceramist knows must come out of the model. Common practice, no source; the materials are invented.
/// </summary>
public class FactsOfTheTradeTests
{
    private static readonly double Acceptable = ColorCriterion.AcceptabilityThreshold.Limit;

    [Theory]
    [InlineData(0.3)]
    [InlineData(0.6)]
    public void A_thin_veneer_of_a_translucent_grade_does_not_hide_a_nearly_black_stump(double thicknessMm)
    {
        ZoneMasking result = MaskingThickness.Find(Over(NearlyBlackTooth, GlassCeramic(1), thicknessMm,
            thicknessMm)).Zones[0];
        Assert.Equal(MaskingOutcome.NotMasked, result.Outcome);
        Assert.True(result.Best.Difference > 3 * Acceptable);
    }

    [Fact]
    public void A_metal_post_shows_through_a_millimetre_of_translucent_zirconia()
    {
        Lab overMetal = ColorOf(Bonded(Zirconia(1), 1.0, MetalPost)), overTooth = ColorOf(
            Bonded(Zirconia(1), 1.0, LightTooth));
        Assert.True(ColorDifference.Ciede2000(overTooth, overMetal) > Acceptable);
    }

    [Fact]
    public void The_same_crown_is_lighter_on_the_light_model_than_bonded_on_the_dark_stump()
    {
        // Visibly so for translucent grades; for opaque ones by little.
        foreach (
            (Ceramic ceramic, double atLeast) in ((Ceramic, double)[])[(GlassCeramic(1), 5), (GlassCeramic(3), 1),
            (Zirconia(1), 2), (Zirconia(3), 0)])
        {
            LayerStack onModel = new([new Layer(ceramic.Material, 1.0)], LightTooth, CouplingMedium.Air);
            Assert.True(
                ColorOf(onModel).L > ColorOf(Bonded(ceramic, 1.0, NearlyBlackTooth)).L + atLeast, ceramic.ToString());
        }
    }

    [Fact]
    public void A_crown_that_looks_right_on_the_model_drops_in_value_when_cemented_on_the_same_stump()
    {
        // Only the coupling medium changes: air, glycerine at try-in, then none (optical contact by cement).
        double LightnessOn(CouplingMedium? coupling) =>
            ColorOf(new LayerStack([new Layer(GlassCeramic(2).Material, 1.0)], BrownTooth, coupling)).L;
        double dry = LightnessOn(CouplingMedium.Air), tryIn = LightnessOn(CouplingMedium.Glycerine),
            bonded = LightnessOn(null);
        Assert.True(dry > tryIn + 1, $"{dry} {tryIn}");
        Assert.True(tryIn >= bonded, $"{tryIn} {bonded}");
    }

    [Fact]
    public void A_thick_shade_tab_and_a_crown_of_one_ceramic_differ_visibly_over_a_dark_stump()
    {
        foreach (double crownMm in (double[])[1.0, 1.2])
        {
            Lab tab = ColorOf(Bonded(GlassCeramic(2), 3.5, NearlyBlackTooth)), crown = ColorOf(
                Bonded(GlassCeramic(2), crownMm, NearlyBlackTooth));
            Assert.True(ColorDifference.Ciede2000(tab, crown) > ColorCriterion.PerceptibilityThreshold.Limit);
        }
    }

    [Fact]
    public void Higher_grades_are_less_translucent_and_need_less_thickness_to_mask()
    {
        foreach (Func<int, Ceramic> family in (Func<int, Ceramic>[])[GlassCeramic, Zirconia])
        {
            double[] minima = [.. Enumerable.Range(1, 4).Select(
                grade => MaskingThickness.Find(Over(BrownTooth, family(grade), 0.1,
                10)).Zones[0].Minimum.ByColorMm!.Value)];
            Assert.Equal(minima.OrderDescending(), minima);
        }
    }

    [Fact]
    public void Zirconia_masks_better_than_glass_ceramic_when_thin()
    {
        // Direction only, as reported for light-shade milled ceramics of 0.5 to 1.0 mm over a dark backing (limit
        // CIEDE2000 1.8).
        foreach (int grade in (int[])[1, 2, 3, 4])
        {
            double Difference(Ceramic ceramic)
            {
                Restoration crown = Over(NearlyBlackTooth, ceramic, 0.2, 3);
                return MaskingThickness.FindCurve(crown, crown.Zones[0], [0.5])[0].Difference;
            }

            Assert.True(Difference(Zirconia(grade)) < Difference(GlassCeramic(grade)));
        }
    }

    private static Restoration Over(Substrate stump, Ceramic ceramic, double minMm, double maxMm) => new(
        [new Zone("body", stump, Math.Min(1, maxMm), MaskingReference.SelfBacked)], ceramic, Cement,
        ColorCriterion.AcceptabilityThreshold)
    {
        WallRange = new ThicknessRange(minMm, maxMm),
    };

    private static Lab ColorOf(LayerStack stack) => Colorimeter.D65TwoDegree.ToLab(stack.Reflectance());
}
