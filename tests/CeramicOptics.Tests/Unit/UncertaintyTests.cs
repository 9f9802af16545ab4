using CeramicOptics.Selection;
using MathNet.Numerics.Distributions;
using static CeramicOptics.Tests.DemoData;

namespace CeramicOptics.Tests.Unit;

public class UncertaintyTests
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 10);

    private static readonly ViewingConditions TwoLights = new() { Colorimeters = [Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree] };

    /// <summary>
    /// Closed form: with nothing uncertain but the target, L*, a*, b* each by u, the CIELAB difference over u is distributed as noncentral chi with three
    /// degrees of freedom; for no offset, P(difference ≤ d) = erf(x/√2) - √(2/π) x exp(-x²/2), x = d/u (Maxwell).
    /// </summary>
    [Theory]
    [InlineData(0.5)]
    [InlineData(1.5)]
    [InlineData(3)]
    public void A_closed_form_is_met(double u)
    {
        LayerStack stack = new([new Layer(Ceramic(null), 1)], Stump(0.2));
        MaskingReference target = MaskingReference.Target("itself", Colorimeter.D65TwoDegree.ToLab(stack.Reflectance()), Colorimeter.D65TwoDegree);
        InputUncertainty inputs = new([0]) { StumpReflectance = 0, RefractiveIndex = 0, TargetColor = u };
        ColorCriterion criterion = ColorCriterion.AcceptableMatchCielab;
        UncertaintyResult result = PredictionUncertainty.Sample(stack, 0, target, criterion, inputs, samples: 16384);
        double x = criterion.Limit / u;
        double expected = MathNet.Numerics.SpecialFunctions.Erf(x / Math.Sqrt(2)) - (Math.Sqrt(2 / Math.PI) * x * Math.Exp(-x * x / 2));
        Assert.InRange(result.Meets.Value, expected - (4 * result.Meets.StandardError) - 1e-3, expected + (4 * result.Meets.StandardError) + 1e-3);
        Assert.InRange(result.Meets.StandardError, 0, 0.01);
        Assert.Equal(2 * u * Math.Sqrt(2 / Math.PI), result.MeanDifference, 0.02 * u);
    }

    /// <summary>Where the difference is large against its uncertainty, first order and sampling agree.</summary>
    [Theory]
    [InlineData(0.02)]
    [InlineData(0.05)]
    public void First_order_and_sampling_agree_where_both_hold(double thicknessMm)
    {
        LayerStack stack = Bonded(GlassCeramic(2), 1.0, NearlyBlackTooth);
        InputUncertainty inputs = new([thicknessMm, 0.01]);
        UncertaintyResult first = PredictionUncertainty.FirstOrder(stack, 0, MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch, inputs, TwoLights);
        UncertaintyResult sampled = PredictionUncertainty.Sample(stack, 0, MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch, inputs, TwoLights);
        Assert.Equal(first.Difference, sampled.Difference, 1e-12);
        Assert.InRange(sampled.StandardUncertainty / first.StandardUncertainty, 0.95, 1.05);
        Assert.Equal(first.Difference, sampled.MeanDifference, 0.1 * first.StandardUncertainty);

        // The same uncertainty from the masking answer, which has its own code: stump, and K and S, but no thickness, film or index.
        MaskingResult masking = MaskingThickness.Find(stack, 0, (1.0, 1.0), MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch, TwoLights);
        UncertaintyResult alone = PredictionUncertainty.FirstOrder(
            stack.WithMaterialUncertaintyOnlyInLayer0(), 0, MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch, new InputUncertainty([0, 0]) { RefractiveIndex = 0 }, TwoLights);
        Assert.InRange(alone.StandardUncertainty / masking.DifferenceStandardUncertainty, 0.97, 1.03);
    }

    /// <summary>
    /// Truth is drawn with the stated uncertainties, with System.Random and the public stack, noise at every wavelength on its own; the stated 95 % interval
    /// must hold 93 to 97 % of the truths, and the stated probability of a match must be their share.
    /// </summary>
    [Fact]
    public void Stated_probabilities_are_kept_in_simulation()
    {
        const int Worlds = 3000;
        Random random = new(7);
        double Gauss() => Normal.InvCDF(0, 1, (random.NextDouble() * (1 - 2e-9)) + 1e-9);
        Material ceramic = Ceramic(new CoefficientUncertainty(Many(0.01), Many(0.15), Many(0.5), 0.04));
        LayerStack stack = new([new Layer(ceramic, 1.2), new Layer(Cement(), 0.05)], Stump(0.2));
        InputUncertainty inputs = new([0.06, 0.02]) { StumpReflectance = 0.02, TargetColor = 0.4, RefractiveIndex = 0.02 };
        Lab target = Colorimeter.D65TwoDegree.ToLab(stack.Reflectance());
        target = new Lab(target.L + 1.5, target.A, target.B + 0.5);
        ColorCriterion criterion = ColorCriterion.AcceptableMatch;
        UncertaintyResult stated = PredictionUncertainty.Sample(stack, 0, MaskingReference.Target("neighbour", target, Colorimeter.D65TwoDegree), criterion, inputs);
        int inside = 0, meets = 0;
        for (int world = 0; world < Worlds; world++)
        {
            double scale = 1 + (0.04 * Gauss());
            double[] k = new double[Grid.Count], s = new double[Grid.Count];
            for (int i = 0; i < k.Length; i++)
            {
                double one = Gauss(), other = Gauss();
                k[i] = Math.Max(0, scale * (ceramic.Absorption[i] + (0.01 * one)));
                s[i] = Math.Max(0, scale * (ceramic.Scattering[i] + (0.15 * ((0.5 * one) + (Math.Sqrt(0.75) * other)))));
            }

            Material made = new("made", new AbsorptionSpectrum(Grid, k), new ScatteringSpectrum(Grid, s), 1.53 + (0.02 * Gauss()));
            Material film = new("film", Cement().Absorption, Cement().Scattering, 1.52 + (0.02 * Gauss()));
            LayerStack truth = new(
                [new Layer(made, 1.2 + (0.06 * Gauss())), new Layer(film, Math.Max(0, 0.05 + (0.02 * Gauss())))], Stump(0.2 + (0.02 * Gauss())));
            Lab read = new(target.L + (0.4 * Gauss()), target.A + (0.4 * Gauss()), target.B + (0.4 * Gauss()));
            double difference = criterion.Difference(read, Colorimeter.D65TwoDegree.ToLab(truth.Reflectance()));
            inside += difference >= stated.Interval95.Low && difference <= stated.Interval95.High ? 1 : 0;
            meets += difference <= criterion.Limit ? 1 : 0;
        }

        Assert.InRange(inside / (double)Worlds, 0.93, 0.97);
        double share = meets / (double)Worlds;
        Assert.InRange(stated.Meets.Value, 0.1, 0.9);
        Assert.InRange(stated.Meets.Value - share, -0.03, 0.03);
    }

    [Fact]
    public void A_seed_gives_the_same_result_and_another_one_a_like_one()
    {
        LayerStack stack = Bonded(GlassCeramic(2), 1.0, BrownTooth);
        UncertaintyResult Run(ulong seed) => PredictionUncertainty.Sample(stack, 0, MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch, new InputUncertainty([0.05, 0.02]), TwoLights, 2048, seed);
        Assert.Equal(Run(3).Meets, Run(3).Meets);
        Assert.Equal(Run(3).Interval95, Run(3).Interval95);
        Assert.NotEqual(Run(3).MeanDifference, Run(4).MeanDifference);
        Assert.Equal(Run(3).Meets.Value, Run(4).Meets.Value, 6 * Math.Max(0.003, Run(3).Meets.StandardError));
        Assert.Equal(1, Run(3).Contributions.Sum(item => item.Share), 1e-12);
        Assert.Throws<ArgumentException>(() => PredictionUncertainty.Sample(stack, 0, MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch, new InputUncertainty([0.05])));
    }

    /// <summary>Stated for 95 % of pieces: of pieces made anew at that thickness so many meet the criterion.</summary>
    [Fact]
    public void A_tolerance_is_kept_by_the_pieces()
    {
        LayerStack stack = new([new Layer(Ceramic(CoefficientUncertainty.OfScale(Grid, 0.04)), 1), new Layer(Cement(), 0.05)], Stump(0.2));
        InputUncertainty inputs = new([0.05, 0.02]) { RefractiveIndex = 0, StumpReflectance = 0.02 };
        ToleranceResult result = ToleranceThickness.Find(stack, 0, (0.3, 3), MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch, inputs);
        double mm = result.OpticalMinimumMm!.Value;
        Assert.True(mm > MaskingThickness.Find(stack, 0, (0.3, 3), MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch).OpticalMinimumMm);
        Random random = new(11);
        double Gauss() => Normal.InvCDF(0, 1, (random.NextDouble() * (1 - 2e-9)) + 1e-9);
        int meets = 0;
        const int Pieces = 4000;
        for (int i = 0; i < Pieces; i++)
        {
            double scale = 1 + (0.04 * Gauss()), t = (mm + (0.05 * Gauss())) * scale;
            LayerStack piece = new([new Layer(Ceramic(null), t), new Layer(Cement(), Math.Max(0, 0.05 + (0.02 * Gauss())))], Stump(0.2 + (0.02 * Gauss())));
            Lab infinite = Colorimeter.D65TwoDegree.ToLab(piece.Sweep(0).InfiniteReflectance());
            meets += ColorCriterion.AcceptableMatch.Difference(infinite, Colorimeter.D65TwoDegree.ToLab(piece.Reflectance())) <= 1.8 ? 1 : 0;
        }

        Assert.InRange(meets / (double)Pieces, 0.935, 0.965);
        Assert.Matches(@"^\d\.\d\d mm or more, for 95 % of pieces$", result.ToString());
        Assert.Contains(result.Cautions, caution => caution.Kind == CautionKind.ToothReduction);
        ToleranceResult stronger = ToleranceThickness.Find(
            stack, 0, (0.3, 3), MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch, inputs, new ViewingConditions { StructuralMinimumMm = mm + 0.3 });
        Assert.Equal(mm + 0.3, stronger.RecommendedMinimumMm!.Value, 1e-12);
    }

    /// <summary>Against the general routine of MathNet.Numerics.</summary>
    [Fact]
    public void Normal_quantiles_agree_with_the_mathematics_library()
    {
        foreach (double p in (double[])[1e-12, 1e-7, 0.001, 0.0749, 0.0751, 0.3, 0.5, 0.6, 0.9249, 0.9251, 0.999, 1 - 1e-9])
        {
            Assert.Equal(Normal.InvCDF(0, 1, p), NormalQuantile.Of(p), 1e-9);
        }
    }

    private static double[] Many(double value) => [.. Enumerable.Repeat(value, Grid.Count)];

    private static Material Ceramic(CoefficientUncertainty? uncertainty) => new(
        "ceramic", new AbsorptionSpectrum(Grid, [.. Enumerable.Range(0, Grid.Count).Select(i => 0.03 + (0.2 * Math.Exp(-i / 8.0)))]), ScatteringSpectrum.Uniform(Grid, 4), 1.53, uncertainty);

    private static Material Cement() => new("cement", AbsorptionSpectrum.Uniform(Grid, 0.05), ScatteringSpectrum.Uniform(Grid, 2), 1.52);

    private static Substrate Stump(double reflectance) =>
        Substrate.FromInternalReflectance("stump", ReflectanceSpectrum.Uniform(Grid, Math.Min(1, Math.Max(0, reflectance))), 1.54);
}

internal static class StackWithUncertainty
{
    /// <summary>The stack with the uncertainty of all materials but that of the first layer taken off.</summary>
    public static LayerStack WithMaterialUncertaintyOnlyInLayer0(this LayerStack stack) => new(
        stack.Layers.Select((layer, i) => i == 0 ? layer : new Layer(
            new Material(layer.Material.Name, layer.Material.Absorption, layer.Material.Scattering, layer.Material.RefractiveIndex), layer.ThicknessMm)),
        stack.Substrate);
}
