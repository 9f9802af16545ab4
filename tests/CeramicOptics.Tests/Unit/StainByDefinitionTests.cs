using CeramicOptics.Decisions;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Restorations;
using static CeramicOptics.Tests.CoarseData;

namespace CeramicOptics.Tests.Unit;

/// <summary>Stains against brute force with the public stack.</summary>
public class StainByDefinitionTests
{
    // A compiled stack follows the public one to 2e-6 in reflectance.
    private const double Compiled = 2e-4;

    private static readonly ColorCriterion Criterion = ColorCriterion.AcceptabilityThreshold;

    private static readonly Pigment Yellow =
        new("yellow", TwoFluxModel.Instance, new(Grid, [60, 8, 1, 0.5]), new(Grid, [5, 5, 5, 5]));

    private static readonly Pigment Red =
        new("red", TwoFluxModel.Instance, new(Grid, [10, 40, 4, 0.5]), new(Grid, [2, 2, 2, 2]));

    private static readonly Pigment White =
        new("white", TwoFluxModel.Instance, new(Grid, [0.5, 0.2, 0.1, 0.1]), new(Grid, [90, 80, 70, 60]));

    private static readonly Layer Thin = new(Film, 0.05);

    /// <summary>
    /// Two zones, two lights: a grid over the loads of all pairs of pigments finds nothing better; what is stated is
    /// what the public stack gives.
    /// </summary>
    [Theory]
    [InlineData(ColorDifferenceFormula.Ciede2000, 0.36, 0.42, 0.50, 0.54, 0.3, StainPlacement.Surface)]
    [InlineData(ColorDifferenceFormula.Cie76, 0.36, 0.42, 0.50, 0.54, 0.3, StainPlacement.UnderVeneer)]
    [InlineData(ColorDifferenceFormula.Ciede2000, 0.45, 0.451, 0.4505, 0.45, 0, StainPlacement.UnderVeneer)]
    public void No_grid_of_loads_beats_a_recipe_for_two_zones(
        ColorDifferenceFormula formula, double blue, double green, double yellow, double red, double shrinkage,
        StainPlacement placement)
    {
        Target target = Wish("wish", blue, green, yellow, red);
        StainLayer layer = new(Glaze, 0.06, shrinkage);
        ColorCriterion criterion = new("strict", formula, 0.05, "this test");
        Restoration restoration = new([new Zone("body", Good, 2, target), new Zone("cervical", Dark, 1.2, target)],
            new Ceramic("family", 1, Body), Thin, criterion)
        {
            Viewing = TwoLights, Glaze = new Layer(Glaze, 0.02), Veneer = Veneer.OfThickness(Film, 0.1),
        };
        Pigment[] palette = [Yellow, Red, White];
        StainRecipe recipe = Stain.Find(restoration,
            new StainOptions(layer, palette) { MaximumLoad = 0.6, MaximumPigments = 2, Placement = placement });

        LayerStack StackOf(Zone zone, params Layer[] stain)
        {
            (Layer glaze, Layer veneer, Layer core) =
                (new(Glaze, 0.02), new(Film, 0.1), new(Body, zone.AvailableMm - 0.1));
            return new LayerStack(placement == StainPlacement.Surface ? [.. stain, glaze, veneer, core, Thin]
                : [glaze, veneer, .. stain, core, Thin], zone.Stump);
        }

        double[] ZonesWith(params Layer[] stain) =>
            [.. restoration.Zones.Select(zone => WorstOf(StackOf(zone, stain), target, criterion))];

        double best = double.PositiveInfinity;
        for (int i = 0; i <= 60; i++)
        {
            for (int j = 0; j <= 60; j++)
            {
                foreach ((Pigment p, Pigment q) in ((Pigment, Pigment)[])[(Yellow, Red), (Yellow, White), (Red, White)])
                {
                    best = Math.Min(best, ZonesWith(layer.Fired([new(p, 0.01 * i), new(q, 0.01 * j)])).Max());
                }
            }
        }

        // Residuals are in units near the target, so what is far from it is found less exactly.
        Layer mixed = layer.Fired(recipe.Parts);
        Assert.InRange(recipe.WorstWith, 0, (1.001 * best) + 0.005);
        Assert.Equal(ZonesWith(mixed), recipe.Zones.Select(zone => zone.With.Difference), (one, other) =>
            Math.Abs(one - other) < 1e-9);
        Assert.Equal(ZonesWith(layer.Fired([])), recipe.Zones.Select(zone => zone.WithCarrier.Difference),
            (one, other) => Math.Abs(one - other) < 1e-9);
        Assert.Equal(ZonesWith(), recipe.Zones.Select(zone => zone.Without.Difference), (one, other) =>
            Math.Abs(one - other) < Compiled);
        Assert.Equal(ZonesWith(mixed).Max(), recipe.WorstWith, 1e-9);
        Assert.Equal(ZonesWith(layer.Fired([])).Max(), recipe.WorstWithCarrier, 1e-9);
        Assert.Equal(recipe.WorstWith <= 0.05, recipe.Meets);
        Assert.Equal(recipe.WorstWith < recipe.WorstWithout, recipe.Helps);
        Assert.Equal(3 + 3, recipe.Mixtures);
        Assert.Equal(8, recipe.Starts);
        Assert.InRange(recipe.StartsAgreeing, 1, 8);
        Assert.Equal(recipe.Parts.OrderByDescending(part => part.Load), recipe.Parts);
        Assert.All(recipe.Parts, part => Assert.InRange(part.Load, 1e-6, 0.6));
        Assert.Same(Good, recipe.Zones[0].With.Stump);

        // Metamerism: how far the offset from the target under one light is from that under another, at the worse zone.
        double Metamerism(LayerStack stack)
        {
            (double L, double A, double B)[] offsets = [.. Lights.Select(light =>
            {
                (Lab color, Lab wish) = (light.ToLab(stack.Reflectance()), light.ToLab(target.Spectrum!));
                return (color.L - wish.L, color.A - wish.A, color.B - wish.B);
            })];
            return Math.Sqrt(Math.Pow(offsets[1].L - offsets[0].L, 2) + Math.Pow(
                offsets[1].A - offsets[0].A, 2) + Math.Pow(offsets[1].B - offsets[0].B, 2));
        }

        Assert.Equal(restoration.Zones.Max(zone => Metamerism(StackOf(zone, mixed))), recipe.Metamerism, 1e-9);
    }

    [Fact]
    public void A_stain_that_is_not_needed_is_not_mixed()
    {
        LayerStack bare = new([new Layer(Body, 2), Thin], Good);
        StainLayer layer = new(Glaze, 0.06);
        Target itself = Like("itself", new LayerStack([layer.Fired([]), .. bare.Layers], Good));
        Restoration restoration = new([new Zone("body", Good, 2, itself)], new Ceramic("family", 1, Body), Thin,
            Criterion) { Viewing = TwoLights };
        StainRecipe recipe = Stain.Find(restoration, new StainOptions(layer, [Yellow, Red]));
        Assert.Empty(recipe.Parts);
        Assert.Equal((true, 0, 0, 0), (recipe.Meets, recipe.Mixtures, recipe.Starts, recipe.StartsAgreeing));
        Assert.Equal(0, recipe.WorstWith, 1e-9);
        Assert.Equal("glaze", layer.Fired([]).Material.Name);
        Assert.Equal("glaze + yellow + red", layer.Fired([new(Yellow, 0.25), new(Red, 0.5)]).Material.Name);
        Assert.Contains("lay it on the surface", Assert.Throws<ArgumentException>(() =>
            Stain.Find(restoration, new StainOptions(layer, [Yellow]) { Placement = StainPlacement.UnderVeneer }))
                .Message);
    }

    /// <summary>
    /// The smooth response follows the public stack within its stated bound, and its slopes are those of small steps.
    /// </summary>
    [Theory]
    [InlineData(0.3, 1.0)]
    [InlineData(0.0, 0.01)]
    [InlineData(0.6, 3.0)]
    public void The_response_to_stain_follows_the_stack(double shrinkage, double strongest)
    {
        StainLayer layer = new(Glaze, 0.06, shrinkage);
        double[] mostK = [90 * strongest, 40 * strongest, 6 * strongest, 0], mostS =
            [120 * strongest, 90 * strongest, 10 * strongest, 5 * strongest];
        LayerStack StackWith(Layer stain) => new([stain, new Layer(Body, 1.1), Thin], Dark);
        StainResponse response =
            StainResponse.Of(StackWith, layer, mostK, mostS, MeasurementGeometry.DiffuseSpecularIncluded, default);
        Assert.InRange(response.ErrorBound, 0, 1e-5);
        Random random = new(4);
        for (int round = 0; round < 200; round++)
        {
            double[] k = [.. mostK.Select(most => most * Math.Pow(random.NextDouble(), 2))], s =
                [.. mostS.Select(most => most * Math.Pow(random.NextDouble(), 2))];
            double[] Direct(double moreK, double moreS) => StackWith(layer.Fired(
                "carrier",
                [.. k.Select((value, i) => Glaze.Absorption[i] + value + moreK)],
                [.. s.Select((value, i) => Glaze.Scattering[i] + value + moreS)])).Reflectance().Values.ToArray();
            (double[] at, double[] upK, double[] upS) = (Direct(0, 0), Direct(1e-4, 0), Direct(0, 1e-4));
            for (int i = 0; i < 4; i++)
            {
                Assert.Equal(at[i], response.At(i, k[i], s[i], out double byK, out double byS),
                    Math.Max(response.ErrorBound, 1e-12));
                Assert.Equal((upS[i] - at[i]) / 1e-4, byS, 1e-4 + (100 * response.ErrorBound));
                if (mostK[i] > 0)
                {
                    Assert.Equal((upK[i] - at[i]) / 1e-4, byK, 1e-4 + (100 * response.ErrorBound));
                }
            }
        }
    }
}
