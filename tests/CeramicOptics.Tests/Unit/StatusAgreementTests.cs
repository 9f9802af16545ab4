using CeramicOptics.Decisions.Masking;
using CeramicOptics.Exchange;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;

namespace CeramicOptics.Tests.Unit;

/// <summary>What a map says of a point never contradicts the thicknesses that its zone asks for, nor the colours of the
/// wall.</summary>
public class StatusAgreementTests
{
    private static readonly MaskingOptions Quick = new() { Samples = 256 };

    private static readonly PointStatus[] Met =
        [PointStatus.MaskedReliably, PointStatus.MaskedByColorOnly, PointStatus.BelowStructuralMinimum];

    [Fact]
    public void Statuses_and_missing_thicknesses_agree_with_the_answer_and_the_colours()
    {
        int recommended = 0, reliableTargets = 0, tooThick = 0;
        for (int number = 0; number < 150; number++)
        {
            Restoration crown = RandomWalls.Of(number);
            ThicknessResponse response = ThicknessResponse.Compile(crown, crown.Zones[0], Quick);
            MinimumThickness minimum = response.Requirement.Minimum;
            ThicknessMap map = new([response]);
            if (minimum.RecommendedMm is double mm)
            {
                recommended++;
                double[] walls = [mm, (float)mm, Math.Min(MinimumThickness.RoundedUp(mm), response.Range.MaxMm)];
                Assert.All(Statuses(map, walls), status => Assert.Equal(PointStatus.MaskedReliably, status));
                Assert.Equal([0, 0, 0], Missing(map, ThicknessGoal.Recommended, walls));
            }

            if (minimum.ByColorMm is double from)
            {
                double[] walls = [from, (float)from, minimum.ByColorUpToMm ?? from + response.ErrorBound,
                    (float)(minimum.ByColorUpToMm ?? response.Range.MaxMm)];
                Assert.All(Statuses(map, walls), status => Assert.Contains(status, Met));
            }

            reliableTargets += minimum.ReliableUpToMm is null ? 0 : 1;
            Random random = new(number);
            double[] points = [.. Enumerable.Range(0, 60).Select(_ => 0.2 + (2.3 * random.NextDouble()))];
            PointStatus[] statuses = Statuses(map, points);
            foreach (ThicknessGoal goal in Enum.GetValues<ThicknessGoal>())
            {
                double[] missing = Missing(map, goal, points);
                for (int i = 0; i < points.Length; i++)
                {
                    Agrees(response, goal, points[i], statuses[i], missing[i]);
                }
            }

            // Some walls by plain evaluation.
            for (int i = 0; i < 2; i++)
            {
                ThicknessRange range = response.Range;
                double wall = range.MinMm + ((range.MaxMm - range.MinMm) * random.NextDouble());
                double above = RandomWalls.Difference(crown, wall) - crown.Criterion.Limit;
                PointStatus status = Statuses(map, [wall])[0];
                Assert.True(above <= response.ErrorBound || status == PointStatus.Shows, $"{number}: {wall} shows");
                Assert.True(above >= -response.ErrorBound || Met.Contains(status), $"{number}: {wall} is masked");
                tooThick += status == PointStatus.Shows && wall > minimum.ByColorUpToMm ? 1 : 0;
            }
        }

        Assert.True(
            recommended > 45 && reliableTargets > 10 && tooThick > 5, $"{recommended}, {reliableTargets}, {tooThick}");
    }

    /// <summary>A float that is the end of a range rounded is that end.</summary>
    [Fact]
    public void Ends_of_the_range_in_single_precision_are_inside()
    {
        for (int number = 0; number < 40; number++)
        {
            Restoration crown = RandomWalls.Of(number);
            ThicknessResponse response = ThicknessResponse.Compile(
                number == 0 ? crown with { WallRange = new ThicknessRange(0.7, 2.2) } : crown, crown.Zones[0], Quick);
            ThicknessRange range = response.Range;
            double[] ends = [range.MinMm, range.MaxMm], singles = [(float)range.MinMm, (float)range.MaxMm];
            float[] buffer = [(float)range.MinMm, (float)range.MaxMm], single = new float[2];
            ThicknessMap map = new([response]);
            double[] expected = [.. ends.Select(response.DifferenceAt)], actual = new double[2];
            map.Differences(singles, actual);
            map.Differences(buffer, single);
            for (int i = 0; i < 2; i++)
            {
                Assert.Equal(expected[i], actual[i], 1e-5);
                Assert.Equal(expected[i], single[i], 1e-5);
                Assert.Equal(actual[i], response.DifferenceAt(singles[i]));
            }

            Lab[] colors = new Lab[2];
            Srgb[] shown = new Srgb[2];
            map.Colors(singles, colors);
            map.DisplayColors(singles, shown);
            Assert.All(
                ends.Zip(colors),
                pair => Assert.Equal(0, ColorDifference.Cie76(response.ColorAt(pair.First), pair.Second), 1e-5));
            Assert.All(shown, color => Assert.False(double.IsNaN(color.R)));
            Assert.Equal(Statuses(map, ends), Statuses(map, singles));
            Assert.Equal(
                [PointStatus.BelowRange, PointStatus.AboveRange, PointStatus.BelowRange, PointStatus.AboveRange],
                Statuses(map, [range.MinMm - 1e-6, range.MaxMm + 1e-6, -1, double.PositiveInfinity]));
        }
    }

    /// <summary>Masked at the end of the range stays masked above it; what a target says above it is not
    /// known.</summary>
    [Fact]
    public void Above_the_range_nothing_is_missing_where_its_end_is_masked()
    {
        Restoration crown = RandomWalls.Of(4), matched = RandomWalls.Of(12);
        Assert.Equal(MaskingReference.SelfBacked, crown.Zones[0].Reference);
        Assert.IsType<Target>(matched.Zones[0].Reference);
        ThicknessMap masks = new([ThicknessResponse.Compile(crown, crown.Zones[0], Quick)]);
        Assert.NotNull(masks.Zones[0].Requirement.Minimum.RecommendedMm);
        Assert.Equal([0], Missing(masks, ThicknessGoal.Recommended, [5]));

        ThicknessResponse target = ThicknessResponse.Compile(matched, matched.Zones[0], Quick);
        Assert.NotNull(target.Requirement.Minimum.ByColorMm);
        Assert.Equal([double.NaN], Missing(new ThicknessMap([target]), ThicknessGoal.ByColor, [5]));
        ThicknessRange thin = new(0.2, 0.3);
        ThicknessResponse never = ThicknessResponse.Compile(
            crown.WithZones([crown.Zones[0].WithWall(0.25)]) with { WallRange = thin },
            crown.Zones[0].WithWall(0.25), Quick);
        Assert.Null(never.Requirement.Minimum.ByColorMm);
        Assert.Equal([double.NaN], Missing(new ThicknessMap([never]), ThicknessGoal.ByColor, [5]));
    }

    /// <summary>The answer for a target, by a scan of plain evaluations, is the same wherever the range of the wall
    /// ends above it.</summary>
    [Fact]
    public void A_target_asks_for_the_same_wall_whatever_the_range()
    {
        int between = 0;
        for (int number = 0; number < 300; number += 6)
        {
            Restoration crown = RandomWalls.Of(number);
            ThicknessRange range = crown.WallRange;
            const double Step = 0.01;
            double[] scan = [.. range.Steps(Step)];
            bool[] met = [.. scan.Select(mm => RandomWalls.Difference(crown, mm) <= crown.Criterion.Limit)];
            int first = Array.IndexOf(met, true), after = Array.IndexOf(met, false, Math.Max(first, 0));
            if (first < 0 || after < 0 || met.AsSpan(after).Contains(true))
            {
                continue;
            }

            between++;
            MaskingResult result = MaskingThickness.Find(crown, Quick);
            ZoneMasking whole = result.Zones[0];
            Assert.InRange(whole.Minimum.ByColorMm!.Value, scan[Math.Max(first - 1, 0)], scan[first] + 1e-4);
            Assert.InRange(whole.Minimum.ByColorUpToMm!.Value, scan[after - 1] - 1e-4, scan[after]);
            Assert.Equal(MaskingOutcome.MaskedBetween, whole.Outcome);
            Restoration cut = crown with { WallRange = new ThicknessRange(range.MinMm, scan[after - 1]) };
            cut = cut.WithZones([crown.Zones[0].WithWall(range.MinMm)]);
            ZoneMasking part = MaskingThickness.Find(cut, Quick).Zones[0];
            Assert.Equal(whole.Minimum.ByColorMm.Value, part.Minimum.ByColorMm!.Value, 1e-4);
            string text = ResultJson.ToJson(result);
            Assert.Equal(text, ResultDocument.Parse(text).ToJson());
            Assert.Contains(
                result.Cautions,
                caution => caution.Kind == CautionKind.TooThickForTarget
                    && caution.Value <= whole.Minimum.ByColorUpToMm);
            Assert.Equal(
                whole.Minimum.ReliableMm <= 0.7 && 0.7 <= whole.Minimum.ReliableUpToMm
                    && !(whole.Minimum.StructuralMm > 0.7), whole.IsReliable);
            Assert.True(whole.MarginMm is null || whole.MarginMm <= whole.Minimum.ReliableUpToMm - 0.7);
        }

        Assert.True(between >= 4, $"{between}");
    }

    /// <summary>A wall that something lifts above what its target allows does not meet the goal.</summary>
    [Fact]
    public void A_suggested_wall_too_thick_for_its_target_says_so()
    {
        ThicknessResponse response = Enumerable.Range(0, 300).Select(RandomWalls.Of)
            .Where(crown => crown.Zones[0].Reference is Target)
            .Select(crown => ThicknessResponse.Compile(crown, crown.Zones[0], Quick))
            .First(made => made.Requirement.Minimum.ByColorUpToMm < made.Range.MaxMm - 0.05
                && !(made.Requirement.Minimum.StructuralMm > made.Requirement.Minimum.ByColorUpToMm - 0.001));
        double most = response.Requirement.Minimum.ByColorUpToMm!.Value;
        WallSuggestion walls = WallSuggestion.Find(
            new ThicknessMap([response]), MapMesh.FromEdges(2, []), [1, 1], 0.3, goal: ThicknessGoal.ByColor,
            limits: WallLimits.None.WithPoints([most - 0.0005, most + 0.05], []));
        Assert.Equal([most - 0.0005, most + 0.05], walls.ThicknessesMm.ToArray());
        Assert.Equal([WallStatus.MeetsGoal, WallStatus.TooThickForTarget], walls.Statuses.ToArray());
        Assert.Contains(walls.Cautions, caution => caution.Kind == CautionKind.TooThickForTarget);
    }

    /// <summary>A spot that is the stump itself asks for what its zone asks for, also of a target.</summary>
    [Fact]
    public void A_spot_without_contrast_has_the_answer_of_its_zone()
    {
        Restoration crown = Enumerable.Range(0, 50).Select(number => RandomWalls.Of(6 * number)).First(
            one => MaskingThickness.Find(one, Quick).Zones[0].Outcome == MaskingOutcome.MaskedBetween);
        Zone zone = crown.Zones[0];
        MinimumThickness own = MaskingThickness.Find(crown, Quick).Zones[0].Minimum,
            spot = SpotMasking.Find(crown, zone, zone.Stump, 2, Quick).Minimum;
        Assert.Equal(own.ByColorMm!.Value, spot.ByColorMm!.Value, 0.02);
        Assert.Equal(own.ByColorUpToMm!.Value, spot.ByColorUpToMm!.Value, 0.02);
        Assert.Equal(spot.ReliableMm is null, spot.ReliableUpToMm is null);
        Assert.False(spot.ReliableUpToMm > spot.ByColorUpToMm);
    }

    [Fact]
    public void A_saved_target_has_the_same_statuses()
    {
        for (int number = 0; number < 30; number += 3)
        {
            Restoration crown = RandomWalls.Of(number);
            ThicknessResponse response = ThicknessResponse.Compile(crown, crown.Zones[0], Quick);
            using MemoryStream stream = new();
            ResponseJson.Write(response, stream);
            stream.Position = 0;
            ThicknessResponse read = ResponseJson.Read(stream, "r.json");
            Assert.Equal(response.Requirement, read.Requirement);
            double[] walls = [.. Enumerable.Range(0, 500).Select(i => 0.25 + (0.005 * i))];
            Assert.Equal(
                Statuses(new ThicknessMap([response]), walls), Statuses(new ThicknessMap([read]), walls));
        }
    }

    private static void Agrees(
        ThicknessResponse response, ThicknessGoal goal, double mm, PointStatus status, double missing)
    {
        MinimumThickness minimum = response.Requirement.Minimum;
        double? needed = response.Requirement.ThicknessMm(goal);
        if (mm < response.Range.MinMm)
        {
            Assert.Equal((PointStatus.BelowRange, needed is null), (status, double.IsNaN(missing)));
            Assert.Equal(needed - mm ?? double.NaN, missing);
        }
        else if (mm > response.Range.MaxMm)
        {
            Assert.Equal((PointStatus.AboveRange, needed is null || minimum.ByColorUpToMm is not null),
                (status, double.IsNaN(missing)));
            Assert.False(missing > 0);
        }
        else if (goal != ThicknessGoal.ByColor && missing == 0)
        {
            Assert.Equal(PointStatus.MaskedReliably, status);
        }
        else if (missing == 0)
        {
            Assert.Contains(status, Met[..2]);
        }
        else if (goal != ThicknessGoal.Recommended || minimum.StructuralMm is not null)
        {
            Assert.True(status != PointStatus.MaskedReliably || goal == ThicknessGoal.Recommended && needed is null);
        }
    }

    private static PointStatus[] Statuses(ThicknessMap map, double[] mm)
    {
        PointStatus[] statuses = new PointStatus[mm.Length];
        map.Statuses(mm, statuses);
        return statuses;
    }

    private static double[] Missing(ThicknessMap map, ThicknessGoal goal, double[] mm)
    {
        double[] missing = new double[mm.Length];
        map.MissingThicknesses(mm, missing, goal: goal);
        return missing;
    }
}
