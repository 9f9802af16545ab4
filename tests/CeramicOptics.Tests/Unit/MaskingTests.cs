using CeramicOptics.Selection;
using static CeramicOptics.Tests.DemoData;

namespace CeramicOptics.Tests.Unit;

public class MaskingTests
{
    [Fact]
    public void All_crossings_of_a_curve_that_turns_back_are_found()
    {
        // A thin layer passes a mid-grey target on its way from a dark stump to its own light colour: outside, inside, outside.
        Substrate stump = Grey("stump", 0.05);
        LayerStack stack = new([new Layer(GlassCeramic(2).Material, 1)], stump);
        MaskingReference target = MaskingReference.Target("grey on the way", stack.WithThickness(0, 0.8).Reflectance());
        MaskingResult result = MaskingThickness.Find(stack, 0, (0.1, 3), target, ColorCriterion.AcceptableMatch);
        Assert.Equal(MaskingOutcome.NotMasked, result.Outcome);
        Assert.Equal([true, false], result.Crossings.Select(crossing => crossing.IntoMasking));
        Assert.InRange(result.Crossings[0].ThicknessMm, 0.1, 0.8);
        Assert.InRange(result.Crossings[1].ThicknessMm, 0.8, 3);
        Assert.Equal(0.8, result.Best.ThicknessMm, 0.01);

        // Ending the range inside the good part makes it masked from the first crossing on.
        MaskingResult shorter = MaskingThickness.Find(stack, 0, (0.1, 0.8), target, ColorCriterion.AcceptableMatch);
        Assert.Equal(MaskingOutcome.MaskedFrom, shorter.Outcome);
        Assert.Equal(result.Crossings[0].ThicknessMm, shorter.OpticalMinimumMm!.Value, 1e-6);
    }

    [Fact]
    public void The_answer_meets_the_criterion_and_a_hair_less_does_not()
    {
        MaskingResult result = Find(Zirconia(2), NearlyBlackTooth, null);
        double t = result.OpticalMinimumMm!.Value;
        Assert.Equal(MaskingOutcome.MaskedFrom, result.Outcome);
        Assert.InRange(DifferenceAt(Zirconia(2), NearlyBlackTooth, t), 0, result.Criterion.Limit);
        Assert.True(DifferenceAt(Zirconia(2), NearlyBlackTooth, t - 1e-7) > result.Criterion.Limit);
    }

    [Fact]
    public void The_structural_minimum_always_wins()
    {
        double optical = Find(Zirconia(3), BrownTooth, null).OpticalMinimumMm!.Value;
        MaskingResult stronger = Find(Zirconia(3), BrownTooth, optical + 0.2);
        Assert.Equal(optical + 0.2, stronger.RecommendedMinimumMm!.Value, 1e-12);
        Assert.Contains(stronger.Cautions, caution => caution.Kind == CautionKind.StructuralMinimumGoverns);
        Assert.False(stronger.MasksAt(optical + 0.1));

        MaskingResult weaker = Find(Zirconia(3), BrownTooth, optical / 2);
        Assert.Equal(optical, weaker.RecommendedMinimumMm!.Value, 1e-12);

        MaskingResult impossible = Find(Zirconia(3), BrownTooth, 50);
        Assert.Null(impossible.RecommendedMinimumMm);
    }

    [Fact]
    public void Every_thickness_advice_carries_the_cautions_on_strength_and_reduction()
    {
        CautionKind[] kinds = [.. Find(Zirconia(3), BrownTooth, null).Cautions.Select(caution => caution.Kind)];
        Assert.Contains(CautionKind.StrengthNotAssessed, kinds);
        Assert.Contains(CautionKind.ToothReduction, kinds);
    }

    [Fact]
    public void Several_stumps_and_illuminants_give_the_largest_of_the_single_answers()
    {
        Colorimeter[] colorimeters = [Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree, new Colorimeter(Observer.Cie1931TwoDegree, Illuminant.F11)];
        Substrate[] stumps = [LightTooth, BrownTooth, NearlyBlackTooth, MetalPost];
        LayerStack stack = Bonded(Zirconia(2), 1, LightTooth);
        MaskingResult all = MaskingThickness.Find(
            stack, 0, (0.1, 5), MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch, stumps, new ViewingConditions { Colorimeters = colorimeters });
        var single = (from stump in stumps
                      from colorimeter in colorimeters
                      let result = MaskingThickness.Find(stack, 0, (0.1, 5), MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch, [stump], new ViewingConditions { Colorimeters = [colorimeter] })
                      orderby result.OpticalMinimumMm descending
                      select (stump, colorimeter, result.OpticalMinimumMm)).First();
        Assert.Equal(single.OpticalMinimumMm!.Value, all.OpticalMinimumMm!.Value, 1e-7);
        Assert.Same(single.stump, all.Limiting.Substrate);
        Assert.Same(single.colorimeter, all.Limiting.Colorimeter);
    }

    [Fact]
    public void Stated_uncertainty_of_the_thickness_is_that_of_simulated_repeats()
    {
        // K and S are drawn from their stated covariance and scale, the stump from its reading error; the masking thickness is found anew.
        Material material = Zirconia(2).Material;
        ViewingConditions conditions = new() { StumpStandardUncertainty = 0.01 };
        MaskingResult stated = Find(Zirconia(2), NearlyBlackTooth, null, conditions);
        Random random = new(7);
        double Gauss() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
        CoefficientUncertainty u = material.Uncertainty!;
        ReflectanceSpectrum inside = InternalReflectanceOf(NearlyBlackTooth, material.Grid);
        List<double> thicknesses = [];
        for (int repeat = 0; repeat < 400; repeat++)
        {
            double scale = 1 + (u.RelativeScale * Gauss()), shift = 0.01 * Gauss();
            double[] k = new double[material.Grid.Count], s = new double[k.Length], stump = new double[k.Length];
            for (int i = 0; i < k.Length; i++)
            {
                double first = Gauss(), second = Gauss();
                k[i] = Math.Max(0, (material.Absorption[i] + (u.AbsorptionPerMm[i] * first)) * scale);
                double independent = Math.Sqrt(1 - (u.Correlation[i] * u.Correlation[i]));
                s[i] = Math.Max(0, (material.Scattering[i] + (u.ScatteringPerMm[i] * ((u.Correlation[i] * first) + (independent * second)))) * scale);
                stump[i] = Math.Clamp(inside[i] + shift, 0, 1);
            }

            Material drawn = new("drawn", new AbsorptionSpectrum(material.Grid, k), new ScatteringSpectrum(material.Grid, s), material.RefractiveIndex);
            LayerStack stack = new([new Layer(drawn, 1), Cement], Substrate.FromInternalReflectance("drawn", new ReflectanceSpectrum(material.Grid, stump), 1.54));
            thicknesses.Add(MaskingThickness.Find(stack, 0, (0.1, 5), MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch, conditions).OpticalMinimumMm!.Value);
        }

        double mean = thicknesses.Average(), sd = Math.Sqrt(thicknesses.Average(t => (t - mean) * (t - mean)));
        Assert.Equal(mean, stated.OpticalMinimumMm!.Value, 0.02);
        Assert.InRange(stated.ThicknessStandardUncertaintyMm!.Value / sd, 0.85, 1.18);
    }

    [Fact]
    public void A_target_known_only_as_a_colour_is_used_as_it_is_and_estimated_elsewhere()
    {
        Lab target = new(75, 1, 15);
        Colorimeter d65 = Colorimeter.D65TwoDegree;
        MaskingResult one = MaskingThickness.Find(
            Bonded(Zirconia(3), 1, BrownTooth), 0, (0.3, 2), MaskingReference.Target("neighbour", target, d65), ColorCriterion.AcceptableMatch);
        Assert.Equal(target, one.Limiting.Reference);
        Assert.DoesNotContain(one.Cautions, caution => caution.Kind == CautionKind.EstimatedSpectrum);

        MaskingResult two = MaskingThickness.Find(
            Bonded(Zirconia(3), 1, BrownTooth), 0, (0.3, 2), MaskingReference.Target("neighbour", target, d65), ColorCriterion.AcceptableMatch,
            new ViewingConditions { Colorimeters = [d65, Colorimeter.ATwoDegree] });
        Assert.Contains(two.Cautions, caution => caution.Kind == CautionKind.EstimatedSpectrum);
    }

    [Fact]
    public void Grade_choice_takes_the_most_translucent_that_masks()
    {
        Ceramic[] ceramics = [.. Enumerable.Range(1, 4).SelectMany(grade => (Ceramic[])[GlassCeramic(grade), Zirconia(grade)])];
        RestorationCase restoration = new(
            [new Zone("neck", BrownTooth, 0.9, MaskingReference.SelfBacked), new Zone("body", NearlyBlackTooth, 1.2, MaskingReference.SelfBacked)],
            ColorCriterion.AcceptableMatch)
        {
            LayersBelow = [Cement],
        };
        GradeRanking ranking = GradeChoice.Rank(ceramics, restoration);
        GradeAssessment[] masking = [.. ranking.Assessments.Where(assessment => assessment.Masks)];
        Assert.NotEmpty(masking);
        Assert.NotEqual(ceramics.Length, masking.Length);
        Assert.Same(masking.MaxBy(assessment => assessment.Translucency), ranking.Recommended);
        foreach (GradeAssessment assessment in ranking.Assessments)
        {
            Assert.Equal(assessment.Masks, assessment.Zones.All(zone => zone.AtAvailable.Difference <= 1.8 && zone.MarginMm >= 0));
        }
    }

    private static MaskingResult Find(Ceramic ceramic, Substrate stump, double? structuralMm, ViewingConditions? conditions = null) => MaskingThickness.Find(
        Bonded(ceramic, 1, stump), 0, (0.1, 5), MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch,
        (conditions ?? ViewingConditions.Default) with { StructuralMinimumMm = structuralMm });

    private static double DifferenceAt(Ceramic ceramic, Substrate stump, double thicknessMm)
    {
        LayerStack stack = Bonded(ceramic, thicknessMm, stump);
        return ColorDifference.Ciede2000(
            Colorimeter.D65TwoDegree.ToLab(stack.Sweep(0).InfiniteReflectance()), Colorimeter.D65TwoDegree.ToLab(stack.Reflectance()));
    }

    private static Substrate Grey(string name, double reflectance) =>
        Substrate.FromInternalReflectance(name, ReflectanceSpectrum.Uniform(GlassCeramic(1).Material.Grid, reflectance), 1.54);

    // Seen through a clear layer of its own index the stump shows its internal reflectance.
    private static ReflectanceSpectrum InternalReflectanceOf(Substrate stump, WavelengthGrid grid) => new LayerStack(
        [new Layer(new Material("clear", AbsorptionSpectrum.Uniform(grid, 0), ScatteringSpectrum.Uniform(grid, 0), 1.54), 0)], stump).Reflectance(MeasurementGeometry.Internal);
}
