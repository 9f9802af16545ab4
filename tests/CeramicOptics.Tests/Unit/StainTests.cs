using CeramicOptics.Decisions;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Remedies;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Restorations;
using static CeramicOptics.Tests.InventedData;

namespace CeramicOptics.Tests.Unit;

/// <summary>Stains and blocking liners on invented crowns, compared with stacks evaluated directly.</summary>
public class StainTests
{
    // A compiled stack follows the public one to 2e-6 in reflectance.
    private const double Compiled = 2e-4;

    private static readonly ColorCriterion Acceptable = ColorCriterion.AcceptabilityThreshold, Perceptible =
        ColorCriterion.PerceptibilityThreshold;

    internal static Pigment[] Pigments { get; } =
    [
        .. Enumerable.Range(0, 12).Select(i => new Pigment(
            $"pigment {i}",
            TwoFluxModel.Instance,
            new AbsorptionSpectrum(Grid, [.. Enumerable.Range(0, Grid.Count)
                .Select(w => 25 * Math.Exp(-Math.Pow((Grid[w] - 400 - (28 * i)) / 45.0, 2)))]),
            ScatteringSpectrum.Uniform(Grid, i == 0 ? 80 : 4))),
    ];

    /// <summary>A truth hidden in a spectrum is found again: which pigments, and how much of each.</summary>
    [Theory]
    [InlineData(2, 0.3, 7, 0.15)]
    [InlineData(0, 0.2, 4, 0.4)]
    [InlineData(9, 0.5, 3, 0.1)]
    public void A_hidden_stain_recipe_is_found_again(int one, double loadOfOne, int other, double loadOfOther)
    {
        StainLayer layer = new(Glaze, 0.06, firingShrinkage: 0.3);
        StainOptions options = new(layer, Pigments);
        LayerStack bare = Bonded(Zirconia(2), 1.0, BrownTooth);
        Layer hidden = layer.Fired([new(Pigments[one], loadOfOne), new(Pigments[other], loadOfOther)]);
        Target truth = Like("hidden", new LayerStack([hidden, .. bare.Layers], bare.Substrate));
        Restoration Crown(ColorCriterion criterion) =>
            new([new Zone("body", BrownTooth, 1.0, truth)], Zirconia(2), Cement, criterion) { Viewing = ThreeLights };
        StainRecipe recipe = Stain.Find(Crown(Perceptible), options);
        Assert.True(recipe.Meets);
        Assert.True(recipe.Helps);
        Assert.InRange(recipe.WorstWith, 0, 0.8);
        Assert.True(recipe.WorstWithCarrier > 2);

        // Whatever is found gives the colours that are stated, by the public stack.
        LayerStack stained = new([layer.Fired(recipe.Parts), .. bare.Layers], bare.Substrate);
        Assert.Equal(WorstOf(stained, truth, Perceptible), recipe.WorstWith, 1e-9);
        Assert.Equal(WorstOf(new LayerStack([layer.Fired([]), .. bare.Layers], bare.Substrate), truth, Perceptible),
            recipe.WorstWithCarrier, 1e-9);
        Assert.Equal(WorstOf(bare, truth, Perceptible), recipe.WorstWithout, Compiled);
        Assert.Equal(layer.Fired(recipe.Parts).ToString(), recipe.Layer.ToString());

        // With a criterion that only the truth meets, the truth comes out.
        StainRecipe found = Stain.Find(
            Crown(new ColorCriterion("exact", ColorDifferenceFormula.Ciede2000, 1e-3, "this test")), options);
        Assert.Equal(2, found.Parts.Count);
        Assert.Equal(loadOfOne, found.Parts.Single(part => part.Pigment == Pigments[one]).Load, 1e-3);
        Assert.Equal(loadOfOther, found.Parts.Single(part => part.Pigment == Pigments[other]).Load, 1e-3);
        Assert.InRange(found.Metamerism, 0, 1e-3);
        Assert.Equal(found.Starts, found.StartsAgreeing);
    }

    /// <summary>For one and two pigments a fine scan over the loads finds nothing better.</summary>
    [Fact]
    public void No_scan_over_loads_beats_the_recipe()
    {
        StainLayer layer = new(Glaze, 0.05);
        LayerStack bare = Bonded(GlassCeramic(3), 1.0, LightTooth);
        Target target = Wish(77, 1, 16);
        Pigment[] palette = [Pigments[0], Pigments[2], Pigments[5]];
        Restoration crown = new([new Zone("body", LightTooth, 1.0, target)], GlassCeramic(3), Cement,
            Perceptible) { Viewing = ThreeLights };
        StainRecipe recipe =
            Stain.Find(crown, new StainOptions(layer, palette) { MaximumLoad = 0.5, MaximumPigments = 2 });
        double best = double.PositiveInfinity;
        for (int p = 0; p < 3; p++)
        {
            for (int q = p + 1; q < 3; q++)
            {
                for (int i = 0; i <= 25; i++)
                {
                    for (int j = 0; j <= 25; j++)
                    {
                        LayerStack stained = new([layer.Fired([new(palette[p], 0.02 * i), new(palette[q], 0.02 * j)]),
                            .. bare.Layers], bare.Substrate);
                        best = Math.Min(best, WorstOf(stained, target, Perceptible));
                    }
                }
            }
        }

        Assert.InRange(recipe.WorstWith, 0, best + 0.02);
        Assert.All(recipe.Parts, part => Assert.InRange(part.Load, 0, 0.5));
    }

    [Fact]
    public void Firing_keeps_the_pigment_and_thins_the_layer()
    {
        StainLayer layer = new(Glaze, 0.1, 0.4);
        Layer fired = layer.Fired([new(Pigments[3], 0.5)]);
        Assert.Equal(0.06, fired.ThicknessMm, 1e-12);
        Assert.Equal(0.1 * 0.5 * Pigments[3].Absorption[20],
            (fired.Material.Absorption[20] - Glaze.Absorption[20]) * fired.ThicknessMm, 1e-9);
    }

    [Fact]
    public void The_blocking_liner_is_the_thinnest_that_works()
    {
        Zone zone = new("body", NearlyBlackTooth, 1.0, MaskingReference.SelfBacked);
        Restoration restoration = new([zone], GlassCeramic(2), Cement, Acceptable);
        BlockingLinerResult result = BlockingLiner.Find(restoration, Liner);
        double mm = result.ThicknessMm!.Value;

        // The same zone as a masking question at its wall, with the liner as a layer of it.
        double With(double liner)
        {
            Restoration lined = restoration with { Liner = new Layer(Liner, liner) };
            return MaskingThickness.FindCurve(lined, lined.Zones[0], [1 - liner])[0].Difference;
        }

        Assert.InRange(With(mm), 0, Acceptable.Limit + 1e-9);
        Assert.True(With(mm - 0.001) > Acceptable.Limit);
        Assert.Equal(With(mm), result.WorstDifference, 1e-9);
        Assert.InRange(result.TranslucencyWith, 0, result.TranslucencyWithout - 1);
        Assert.Equal(MaskingThickness.Find(restoration).WorstDifference, result.WorstWithout, 1e-9);
        Assert.Equal(1 - mm, result.Lined!.Zones[0].AvailableMm, 1e-12);
    }

    /// <summary>
    /// A liner that adds to a wall does not make a wall of 0.40 mm strong enough where 0.8 mm are asked for; nor does
    /// one that takes from it.
    /// </summary>
    [Theory]
    [InlineData(true, 0.4, 0.8, false)]
    [InlineData(false, 0.4, 0.8, false)]
    [InlineData(false, 0.8, 0.8, true)]
    [InlineData(true, 0.8, 0.8, false)]
    [InlineData(true, 1.0, 0.8, true)]
    public void A_liner_never_leaves_less_than_strength_asks(
        bool takesFromCeramic, double availableMm, double minimumMm, bool isAllowed)
    {
        Zone zone = new("body", NearlyBlackTooth, availableMm, MaskingReference.SelfBacked);
        Restoration restoration =
            new([zone], GlassCeramic(2) with { Strength = StrengthLimit.Of(minimumMm) }, Cement, Acceptable);
        BlockingLinerResult result = BlockingLiner.Find(
            restoration, Liner, new BlockingLinerOptions { MaximumMm = 0.15, TakesFromCeramic = takesFromCeramic });
        Assert.Equal(isAllowed, result.Lined is not null);
        Assert.Equal(isAllowed, result.BestMm is not null);
        if (isAllowed)
        {
            Assert.All(result.Lined!.Zones, lined => Assert.True(lined.AvailableMm >= minimumMm - 1e-12));
        }
        else
        {
            Assert.False(result.Meets);
            Assert.Equal("no room for a liner beside the thinnest wall that strength and range allow",
                result.ToString());
            Assert.Contains(result.Cautions, caution =>
                caution.Kind == (availableMm < minimumMm ? CautionKind.BelowStructuralMinimum
                    : CautionKind.StructuralMinimumGoverns) && caution.Value == minimumMm);
        }
    }
}
