using CeramicOptics.Decisions.Masking;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using static CeramicOptics.Tests.Unit.MapData;

namespace CeramicOptics.Tests.Unit;

public class MappingTests
{
    private static readonly ThicknessResponse OnBrown = Response(Brown, 0.6), OnBlack = Response(MapData.Black, 0.6),
        OnLight = Response(Light, 0.4);

    private static readonly double Needed = OnBrown.Requirement.Minimum.RecommendedMm!.Value;

    private static readonly double[] Wall = [0.3, 0.5, double.NaN, 1.5, 2.0, 2.1, 0.2, Needed];

    [Fact]
    public void Tables_reach_the_wanted_error_and_meet_their_ends()
    {
        Assert.InRange(OnBrown.ErrorBound, 0, ThicknessResponse.WantedError);
        foreach (double mm in (double[])[0.3, 0.30001, 1.23456, 1.99999, 2.0])
        {
            (Lab color, double difference) = Plain(
                Brown, MaskingReference.SelfBacked, ColorCriterion.AcceptabilityThreshold, new Layer(Zirconia, mm));
            Assert.Equal(difference, OnBrown.DifferenceAt(mm), OnBrown.ErrorBound);
            Assert.Equal(0, ColorDifference.Cie76(color, OnBrown.ColorAt(mm)), OnBrown.ErrorBound);
        }

        Assert.Throws<ArgumentOutOfRangeException>(() => OnBrown.DifferenceAt(0.29));
        Assert.Throws<ArgumentOutOfRangeException>(() => OnBrown.ColorAt(double.NaN));
    }

    [Fact]
    public void The_requirement_is_the_masking_answer_of_the_zone()
    {
        Restoration crown = Crown(Brown, Zirconia, 0.6);
        MaskingResult masking = MaskingThickness.Find(crown);
        Assert.Equal(masking.Zones[0].Minimum, OnBrown.Requirement.Minimum);
        Assert.Equal(
            masking.Cautions.OrderBy(caution => $"{caution}"),
            OnBrown.Requirement.Cautions.OrderBy(caution => $"{caution}"));
        Assert.Equal(masking.Zones[0].AtAvailable.Difference, OnBrown.DifferenceAt(1), OnBrown.ErrorBound);
        Assert.Equal(masking.Zones[0].AtAvailable.Difference, Compiled(crown, 1), 1e-6);

        static double Compiled(Restoration crown, double mm) =>
            MaskingThickness.FindCurve(crown, crown.Zones[0], [mm])[0].Difference;
    }

    [Fact]
    public void Statuses_tell_why_there_is_no_answer()
    {
        PointStatus[] statuses = new PointStatus[Wall.Length];
        double[] differences = new double[Wall.Length];
        new ThicknessMap([OnBrown]).Statuses(Wall, statuses);
        new ThicknessMap([OnBrown]).Differences(Wall, differences);
        Assert.True(OnBrown.Requirement.Minimum.ByColorMm > 0.6 && Needed < 1.5);
        Assert.Equal(
            [PointStatus.Shows, PointStatus.Shows, PointStatus.NoData, PointStatus.MaskedReliably,
            PointStatus.MaskedReliably, PointStatus.AboveRange, PointStatus.BelowRange, PointStatus.MaskedReliably],
            statuses);
        Assert.Equal([false, false, true, false, false, true, true], differences[..7].Select(double.IsNaN));

        PointStatus[] thin = new PointStatus[1];
        new ThicknessMap([Response(Light, 1.5)]).Statuses([1.4], thin);
        Assert.Equal(PointStatus.BelowStructuralMinimum, thin[0]);
    }

    /// <summary>A coarse table that is above the limit where the exact answer is just within it must not say that the
    /// stump shows.</summary>
    [Fact]
    public void Points_at_the_recommended_thickness_never_show_by_an_error_of_the_table()
    {
        MinimumThickness minimum = new(1, 1, 0.9, 2, 0.95, 0.01);
        Caution[] cautions = [new(CautionKind.StrengthNotAssessed), new(CautionKind.ToothReduction)];
        ThicknessRequirement requirement = new("body", minimum, 2, ColorCriterion.AcceptabilityThreshold, cautions);
        Lab[] colors = new Lab[5];
        ThicknessMap map = new(
            [new ThicknessResponse(new ThicknessRange(0.5, 2), colors, [1.801, 1.801, 1.801, 1.801], 0.004,
            requirement, [new ThicknessRange(1, 2)])]);
        PointStatus[] statuses = new PointStatus[3];
        map.Statuses([0.95, 1.0, 1.5], statuses);
        Assert.Equal([PointStatus.Shows, PointStatus.MaskedReliably, PointStatus.MaskedReliably], statuses);

        foreach (ThicknessResponse response in (ThicknessResponse[])[OnBrown, OnBlack, OnLight])
        {
            double[] mm = [.. (double[])[response.Requirement.Minimum.ByColorMm!.Value,
                response.Requirement.Minimum.RecommendedMm!.Value]];
            PointStatus[] own = new PointStatus[2];
            new ThicknessMap([response]).Statuses(mm, own);
            Assert.DoesNotContain(PointStatus.Shows, own);
        }
    }

    [Fact]
    public void Missing_thickness_brings_every_point_to_its_recommended_minimum()
    {
        double[] missing = new double[Wall.Length];
        new ThicknessMap([OnBrown]).MissingThicknesses(Wall, missing);
        Assert.Equal([Needed - 0.3, Needed - 0.5, double.NaN, 0, 0, 0, Needed - 0.2, 0], missing);

        // Strength takes precedence, and where no thickness is enough there is no number.
        double[] stronger = new double[1], none = new double[1];
        new ThicknessMap([Response(Brown, Needed + 0.2)]).MissingThicknesses([Needed], stronger);
        Assert.Equal(0.2, stronger[0], 1e-12);
        ThicknessResponse hopeless = Hopeless();
        foreach (ThicknessGoal goal in Enum.GetValues<ThicknessGoal>())
        {
            new ThicknessMap([hopeless]).MissingThicknesses([0.5], none, goal: goal);
            Assert.True(double.IsNaN(none[0]));
        }
    }

    [Fact]
    public void Without_a_strength_limit_nothing_is_recommended_and_other_goals_are_an_explicit_choice()
    {
        ThicknessResponse unlimited = Response(Brown, null);
        MinimumThickness minimum = unlimited.Requirement.Minimum;
        Assert.Contains(unlimited.Requirement.Cautions, caution => caution.Kind == CautionKind.StrengthLimitNotGiven);
        ThicknessMap map = new([unlimited]);
        double[] missing = new double[2];
        map.MissingThicknesses([0.4, 1.9], missing);
        Assert.Equal([double.NaN, double.NaN], missing);
        map.MissingThicknesses([0.4, 1.9], missing, goal: ThicknessGoal.Reliable);
        Assert.Equal([minimum.ReliableMm!.Value - 0.4, 0], missing);
        map.MissingThicknesses([0.4, 1.9], missing, goal: ThicknessGoal.ByColor);
        Assert.Equal([minimum.ByColorMm!.Value - 0.4, 0], missing);
        Assert.True(minimum.ReliableMm > minimum.ByColorMm);

        // A limit that was given counts for every goal.
        ThicknessRequirement strong = Response(Brown, 1.7).Requirement;
        Assert.All(Enum.GetValues<ThicknessGoal>(), goal => Assert.Equal(1.7, strong.ThicknessMm(goal)));
        Assert.All(
            Enum.GetValues<ThicknessGoal>(), goal => Assert.Null(Response(Brown, 2.1).Requirement.ThicknessMm(goal)));
        Assert.Throws<ArgumentOutOfRangeException>(() => strong.ThicknessMm((ThicknessGoal)3));

        WallSuggestion suggestion = WallSuggestion.Find(
            map, MapMesh.FromEdges(2, [new MeshEdge(0, 1, 1)]), [0.4, 1.9], 0.3);
        Assert.Equal(2, suggestion.Count(WallStatus.NoAnswer));
        Assert.Equal([double.NaN, double.NaN], suggestion.ThicknessesMm.ToArray());
        Assert.Contains(suggestion.Cautions, caution => caution.Kind == CautionKind.StrengthLimitNotGiven);
        Assert.Contains(suggestion.Cautions, caution => caution.Kind == CautionKind.NoWallMeetsGoal);
        Assert.DoesNotContain(suggestion.Cautions, caution => caution.Kind == CautionKind.EachPointAlone);
    }

    [Fact]
    public void Zones_floats_strides_and_every_length_agree()
    {
        ThicknessMap map = new([OnBrown, OnBlack]);
        Random random = new(5);
        for (int length = 0; length <= 70; length++)
        {
            double[] mm = [.. Enumerable.Range(0, length).Select(
                _ => Math.Round(0.3 + (1.7 * random.NextDouble()), 4))];
            byte[] zones = [.. Enumerable.Range(0, length).Select(_ => (byte)random.Next(2))];
            double[] expected = [.. mm.Select((value, i) => map.Zones[zones[i]].DifferenceAt(value))],
                actual = new double[length];
            map.Differences(mm, actual, zones);
            Assert.Equal(expected, actual);
            float[] buffer = [.. Enumerable.Range(0, 4 * length).Select(i => i % 4 == 2 ? (float)mm[i / 4] : -1f)],
                single = new float[length];
            map.Differences(buffer, single, zones, stride: 4, offset: 2);
            Assert.All(single.Zip(expected), pair => Assert.Equal(pair.Second, pair.First, 2e-5));
            Srgb[] shown = new Srgb[length];
            Lab[] colors = new Lab[length];
            map.DisplayColors(mm, shown, zones);
            map.Colors(mm, colors, zones);
            Assert.All(
                shown.Zip(colors),
                pair => Assert.Equal(Srgb.FromXyz(pair.Second.ToXyz(Colorimeter.D65TwoDegree.White)), pair.First));
        }

        Assert.Throws<ArgumentOutOfRangeException>(() => map.Differences(new double[1], new double[1], [2]));
        Assert.Contains(
            "2 zones", Assert.Throws<ArgumentException>(() => map.Differences([0.5], new double[1])).Message,
            StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => map.Differences(new double[2], new double[1]));
        Assert.Throws<ArgumentException>(() => map.Differences(new float[7], new float[2], stride: 3));
        Assert.Throws<ArgumentOutOfRangeException>(
            () => map.Differences(new float[6], new float[2], stride: 3, offset: 3));
    }

    [Fact]
    public void Long_work_reports_and_stops()
    {
        Restoration crown = Crown(Brown, Zirconia, 0.6);
        List<double> done = [];
        ThicknessResponse.Compile(crown, crown.Zones[0], progress: new Immediate(done.Add));
        Assert.Equal(done.Order(), done);
        Assert.Equal(1, done[^1]);
        Assert.ThrowsAny<OperationCanceledException>(() =>
            ThicknessResponse.Compile(crown, crown.Zones[0], cancellation: new CancellationToken(true)));
    }

    private static ThicknessResponse Hopeless()
    {
        Restoration crown = Crown(MapData.Black, Glass, 0.5,
            ColorCriterion.PerceptibilityThreshold) with { WallRange = new ThicknessRange(0.3, 1) };
        return ThicknessResponse.Compile(crown, crown.Zones[0]);
    }

    private static ThicknessResponse Response(Substrate stump, double? strengthMm)
    {
        Restoration crown = Crown(stump, Zirconia, strengthMm);
        return ThicknessResponse.Compile(crown, crown.Zones[0]);
    }
}
