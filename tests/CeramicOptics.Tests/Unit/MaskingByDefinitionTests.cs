using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Restorations;
using static CeramicOptics.Tests.WallData;

namespace CeramicOptics.Tests.Unit;

/// <summary>
/// Masking and grades against their own definitions, worked out by brute force with the public stack. Data at four
/// wavelengths keeps that quick.
/// </summary>
public class MaskingByDefinitionTests
{
    private static readonly WallData Data = Coarse("two-flux");

    private static Target Neighbour { get; } = Wish(new ReflectanceSpectrum(Data.Grid, [0.4, 0.5, 0.58, 0.6]));

    private static ColorReference[] References =>
        [MaskingReference.SelfBacked, MaskingReference.Over(Data.Good), Neighbour];

    /// <summary>
    /// The thinnest thickness that masks from there on, all crossings and the least difference, by a scan in steps of
    /// 0.002 mm.
    /// </summary>
    [Fact]
    public void A_scan_over_the_thickness_finds_the_same_crossings()
    {
        ColorCriterion[] both = [ColorCriterion.AcceptabilityThreshold, ColorCriterion.AcceptabilityThresholdCielab];
        foreach (ColorCriterion criterion in both)
        {
            foreach (ColorReference reference in References)
            {
                const double Start = 0.2, Step = 0.002;
                double At(double mm) => Worst(Stack(mm), reference, 1, criterion);
                double[] scan = [.. Enumerable.Range(0, 1401).Select(i => At(Start + (i * Step)))];
                List<(double Mm, bool Into)> crossings = [];
                for (int i = 1; i < scan.Length; i++)
                {
                    if (scan[i] <= criterion.Limit != scan[i - 1] <= criterion.Limit)
                    {
                        crossings.Add((Start + (i * Step), scan[i] <= criterion.Limit));
                    }
                }

                ZoneMasking zone = Find(reference, criterion: criterion, core: Data.Body).Zones[0];
                Assert.Equal(
                    crossings.Select(crossing => crossing.Into),
                    zone.Crossings.Select(crossing => crossing.IntoMasking));
                for (int i = 0; i < crossings.Count; i++)
                {
                    Assert.InRange(zone.Crossings[i].WallMm, crossings[i].Mm - Step - 1e-5, crossings[i].Mm + 1e-5);
                }

                Assert.All(zone.Crossings, crossing => Assert.Equal(criterion.Limit, At(crossing.WallMm), 1e-5));
                Assert.Equal(scan.Min(), zone.Best.Difference, 0.01);
                Assert.Equal(At(zone.Best.WallMm), zone.Best.Difference, 1e-5);
                bool masked = scan[^1] <= criterion.Limit;
                Assert.Equal(
                    masked
                        ? crossings.Count == 0
                        ? MaskingOutcome.MaskedThroughout
                        : MaskingOutcome.MaskedFrom
                        : MaskingOutcome.NotMasked, zone.Outcome);
                Assert.Equal(masked ? zone.Crossings[^1].WallMm : null, zone.Minimum.ByColorMm);
            }
        }
    }

    [Fact]
    public void Recommended_is_the_larger_of_reliable_and_structural_and_never_beyond_the_range()
    {
        ZoneMasking free = Find().Zones[0];
        double byColor = free.Minimum.ByColorMm!.Value, reliable = free.Minimum.ReliableMm!.Value;
        Assert.True(reliable > byColor + 0.02, "with uncertain inputs a share of pieces needs more than half of them");
        Assert.Null(free.Minimum.RecommendedMm);
        Assert.Null(free.MarginMm);
        Assert.Equal(byColor, free.Limiting.WallMm);

        MaskingResult strong = Find(structural: reliable + 0.5);
        Assert.Equal(
            (byColor, reliable, reliable + 0.5),
            (strong.Zones[0].Minimum.ByColorMm, strong.Zones[0].Minimum.ReliableMm,
            strong.Zones[0].Minimum.RecommendedMm));
        Assert.Contains(
            strong.Cautions,
            caution => caution.Kind == CautionKind.StructuralMinimumGoverns && caution.Value == reliable + 0.5);
        Assert.Contains(
            strong.Cautions,
            caution => caution.Kind == CautionKind.BelowStructuralMinimum && caution.Subject == "cervical");
        Assert.False(strong.IsReliable);

        MaskingResult weak = Find(structural: reliable - 0.1, available: reliable + 0.3);
        Assert.Equal(reliable, weak.Zones[0].Minimum.RecommendedMm!.Value, 1e-9);
        Assert.Equal(0.3, weak.Zones[0].MarginMm!.Value, 1e-9);
        Assert.True(weak.IsReliable);
        Assert.DoesNotContain(
            weak.Cautions,
            caution =>
                caution.Kind is CautionKind.StructuralMinimumGoverns or CautionKind.BelowStructuralMinimum
                    or CautionKind.StrengthLimitNotGiven);
        Assert.False(Find(structural: reliable - 0.1, available: reliable - 0.001).IsReliable);
        Assert.True(Find(structural: reliable - 0.1, available: reliable).IsReliable);
        Assert.Equal(3, Find(structural: 3).Zones[0].Minimum.RecommendedMm);
        Assert.Null(Find(structural: 3.1).Zones[0].Minimum.RecommendedMm);

        ZoneMasking throughout = Find(min: reliable + 0.1, available: 2).Zones[0];
        Assert.Equal(
            (MaskingOutcome.MaskedThroughout, reliable + 0.1, reliable + 0.1),
            (throughout.Outcome, throughout.Minimum.ByColorMm, throughout.Minimum.ReliableMm));
        Assert.Null(throughout.Minimum.StandardUncertaintyMm);
        MaskingResult never = Find(max: byColor - 0.1, structural: 0.5, available: 0.5);
        MinimumThickness none = never.Zones[0].Minimum;
        Assert.Equal(
            (MaskingOutcome.NotMasked, null, null, null),
            (never.Zones[0].Outcome, none.ByColorMm, none.ReliableMm, none.RecommendedMm));
        Assert.Equal(byColor - 0.1, never.Zones[0].Limiting.WallMm);
        Assert.DoesNotContain(never.Cautions, caution => caution.Kind == CautionKind.StructuralMinimumGoverns);
        Assert.Contains(never.Cautions, caution => caution.Kind == CautionKind.NotReliable);
        MaskingResult unsure = Find(max: (byColor + reliable) / 2, structural: 0.5, available: 0.5);
        Assert.Equal(
            (MaskingOutcome.MaskedFrom, null, null),
            (unsure.Zones[0].Outcome, unsure.Zones[0].Minimum.ReliableMm, unsure.Zones[0].Minimum.RecommendedMm));
        Assert.Contains(unsure.Cautions, caution => caution.Kind == CautionKind.NotReliable && caution.Value == 0.95);
    }

    /// <summary>
    /// The thickness that a share of pieces needs, against the stated probability at that thickness and a little below.
    /// </summary>
    [Theory]
    [MemberData(nameof(Models), MemberType = typeof(WallData))]
    public void The_reliable_thickness_is_the_thinnest_that_samples_accept(string model)
    {
        WallData data = Coarse(model);
        Restoration At(double mm) =>
            data.Crown(Zone(data.Dark, MaskingReference.SelfBacked, mm), data.Dense) with { Viewing = TwoLights,
                Uncertainty = OfInputs };
        foreach (double share in (double[])[0.5, 0.8, 0.95, 0.99])
        {
            MaskingOptions options = new() { Share = share, Samples = 512 };
            MinimumThickness minimum = MaskingThickness.Find(At(1.2), options).Zones[0].Minimum;
            double Meets(double mm) => MaskingThickness.Find(At(mm), options).Zones[0].MasksAtAvailable.Value;
            double mm = minimum.ReliableMm!.Value;
            Assert.Equal(share, minimum.Share);
            Assert.True(Meets(mm) >= share);
            Assert.True(Meets(mm - 0.0011) < share || mm == minimum.ByColorMm);
            Assert.Equal(
                Meets(mm),
                PredictionUncertainty.Find(At(mm), new SamplingOptions { Samples = 512 }).Zones[0].Meets.Value);
        }

        // Without any uncertainty every piece is the one meant.
        Restoration sure = At(1.2).WithCore(new Ceramic("sure", 1, data.Make("sure", 0.02, 0.14, 9, 2.15)))
            .WithCement(new Layer(data.Plain, 0.02)) with { Uncertainty = Sure };
        MinimumThickness exact = MaskingThickness.Find(sure).Zones[0].Minimum;
        Assert.InRange(exact.ReliableMm!.Value, exact.ByColorMm!.Value, exact.ByColorMm.Value + 0.001);
    }

    /// <summary>
    /// Where the wall meets its target exactly either sign of every input makes it worse, so that half the change
    /// between both signs is nothing. Whether pieces mask is uncertain all the same.
    /// </summary>
    [Theory]
    [MemberData(nameof(Models), MemberType = typeof(WallData))]
    public void A_wall_that_meets_its_target_exactly_is_not_sure_for_that(string model)
    {
        WallData data = Coarse(model);
        Restoration crown = data.Crown(Zone(data.Dark, MaskingReference.SelfBacked)) with
        {
            WallRange = new ThicknessRange(1.2, 1.2), Uncertainty = Sure with { ModelColor = 2 },
        };
        Target itself = Wish(crown.StackOver(data.Dark, 1.2).Reflectance());
        ZoneMasking zone = MaskingThickness.Find(crown.WithZones([crown.Zones[0].ComparedWith(itself)])).Zones[0];
        Assert.InRange(zone.AtAvailable.Difference, 0, 1e-3);
        Assert.InRange(zone.StandardUncertainty, 0.5, 3);
        Assert.InRange(zone.MasksAtAvailable.Value, 0.05, 0.6);
        Assert.Equal(1.2, zone.Minimum.ByColorMm);
        Assert.Null(zone.Minimum.ReliableMm);
    }

    /// <summary>
    /// Once nothing of the stump is left, wall and reference are one body, whatever the theory misses: all pieces mask.
    /// </summary>
    [Theory]
    [MemberData(nameof(Models), MemberType = typeof(WallData))]
    public void A_wall_that_hides_all_masks_whatever_the_model_misses(string model)
    {
        WallData data = Coarse(model);
        Restoration crown = data.Crown(
            Zone(data.Dark, MaskingReference.SelfBacked, 2.9), data.Times(1, 12).Material) with
        {
            Uncertainty = new InputUncertainty { ModelColor = 2 },
        };
        ZoneMasking zone = MaskingThickness.Find(crown).Zones[0];
        Assert.InRange(zone.AtAvailable.Difference, 0, 0.05);
        Assert.InRange(zone.MasksAtAvailable.Value, 0.999, 1);
        Assert.NotNull(zone.Minimum.ReliableMm);
    }

    /// <summary>
    /// Ceramics that mask reliably come first, the most translucent leading; the others follow by their worst zone. The
    /// zone with the least to spare limits.
    /// </summary>
    [Theory]
    [MemberData(nameof(Models), MemberType = typeof(WallData))]
    public void Grades_are_ranked_by_translucency_and_then_by_what_is_missing(string model)
    {
        WallData data = Coarse(model);
        Ceramic[] ceramics = [.. ((double[])[4, 1, 9, 2, 6, 3]).Select((factor, i) => data.Times(i + 1, factor))];
        Restoration restoration = data.Crown(Zone(data.Good, MaskingReference.SelfBacked, 0.5))
            .WithZones(
                [new Zone("cervical", data.Good, 0.5, MaskingReference.SelfBacked),
                new Zone("body", data.Dark, 0.9, MaskingReference.SelfBacked)]) with { Viewing = TwoLights };
        GradeRanking ranking = GradeChoice.Find(restoration, ceramics);
        GradeAssessment[] masking = [.. ranking.Assessments.TakeWhile(item => item.Masking.IsReliable)],
            others = [.. ranking.Assessments.Skip(masking.Length)];
        Assert.Equal(ceramics.Length, ranking.Assessments.Count);
        Assert.InRange(masking.Length, 1, 4);
        Assert.All(others, item => Assert.False(item.Masking.IsReliable));
        Assert.Equal(masking.OrderByDescending(item => item.DiscTranslucency), masking);
        Assert.Equal(others.OrderBy(item => item.Masking.WorstDifference), others);
        Assert.Null(ranking.Suggested);
        GradeRanking limited = GradeChoice.Find(
            restoration, ceramics.Select(ceramic => ceramic with { Strength = StrengthLimit.Of(0.25) }));
        Assert.Equal(masking[0].Ceramic.Grade, limited.Suggested!.Ceramic.Grade);
        foreach (GradeAssessment assessment in ranking.Assessments)
        {
            double At(double mm, Substrate under) => Worst(
                new LayerStack([new Layer(assessment.Ceramic.Material, mm), new Layer(data.Film, 0.05)], under),
                MaskingReference.SelfBacked, 0, restoration.Criterion);
            double[] differences = [At(0.5, data.Good), At(0.9, data.Dark)];
            MaskingResult found = assessment.Masking;
            Assert.Equal(differences[0], found.Zones[0].AtAvailable.Difference, 2e-3);
            Assert.Equal(differences[1], found.Zones[1].AtAvailable.Difference, 2e-3);
            Assert.Equal(found.Zones.Max(zone => zone.AtAvailable.Difference), found.WorstDifference);
            Assert.True(!found.IsReliable || differences.All(value => value <= 1.8));
            Assert.Equal(
                0.5 >= found.Zones[0].Minimum.ReliableMm && 0.9 >= found.Zones[1].Minimum.ReliableMm, found.IsReliable);
            double?[] spare = [0.5 - found.Zones[0].Minimum.ReliableMm, 0.9 - found.Zones[1].Minimum.ReliableMm];
            int limiting = spare[0] is null && spare[1] is null
                ? (differences[0] >= differences[1] ? 0 : 1)
                : (spare[0] ?? -9) <= (spare[1] ?? -9)
                ? 0
                : 1;
            Assert.Same(found.Zones[limiting], found.Limiting);

            Lab Over(Substrate ideal) =>
                Colorimeter.D65TwoDegree.ToLab(
                    new LayerStack([new Layer(assessment.Ceramic.Material, 0.5)], ideal).Reflectance());
            Assert.Equal(
                ColorDifference.Ciede2000(Over(Substrate.Black), Over(Substrate.White)),
                assessment.DiscTranslucency, 1e-9);
        }

        Assert.Null(GradeChoice.Find(restoration, [ceramics[1]]).Suggested);
        Assert.Contains(
            ranking.Cautions,
            caution => caution.Kind == CautionKind.StrengthLimitNotGiven
                && caution.Subject == ceramics[0].Material.Name);
        Assert.Equal(ranking.Cautions.Distinct(), ranking.Cautions);
    }

    /// <summary>
    /// A limit that leaves no room: a grade that hides well but cannot be made so thick is not suggested.
    /// </summary>
    [Fact]
    public void A_ceramic_that_strength_leaves_no_room_for_is_not_suggested()
    {
        Ceramic opaque = Data.Times(1, 30) with { Strength = StrengthLimit.Of(0.3) };
        Ceramic tooWeak = new("weak", 1, Data.Make("weak", 0.9, 8.1, 90, 1.53)) { Strength = StrengthLimit.Of(1.3) };
        Restoration crown = Data.Crown(Zone(Data.Dark, MaskingReference.SelfBacked, 1));
        GradeRanking ranking = GradeChoice.Find(crown, [tooWeak, opaque]);
        Assert.Same(opaque, ranking.Suggested!.Ceramic);
        Assert.Null(GradeChoice.Find(crown, [tooWeak]).Suggested);
        Assert.Contains(
            ranking.Cautions, caution => caution.Kind == CautionKind.BelowStructuralMinimum && caution.Value == 1.3);
    }

    private static LayerStack Stack(double mm) =>
        new([new Layer(Data.Glaze, 0.1), new Layer(Data.Body, mm), new Layer(Data.Film, 0.05)], Data.Dark);

    private static MaskingResult Find(
        ColorReference? reference = null, double min = 0.2, double max = 3, double? structural = null,
        double available = 1.2, ColorCriterion? criterion = null, Material? core = null) => MaskingThickness.Find(
        new Restoration(
            [Zone(Data.Dark, reference ?? MaskingReference.SelfBacked, available)],
            new Ceramic("made up", 1,
            core ?? Data.Dense) { Strength = structural is double mm ? StrengthLimit.Of(mm) : StrengthLimit.NotGiven },
            new Layer(Data.Film, 0.05),
            criterion ?? ColorCriterion.AcceptabilityThreshold)
        {
            Glaze = new Layer(Data.Glaze, 0.1), Viewing = TwoLights, Uncertainty = OfInputs,
                WallRange = new ThicknessRange(min, max),
        });
}
