using System.Globalization;
using System.Text.Json.Nodes;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Exchange;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using static CeramicOptics.Tests.Unit.MapData;

namespace CeramicOptics.Tests.Unit;

/// <summary>Suggested walls: by definition on small graphs, then one rule at a time.</summary>
public class WallSuggestionTests
{
    internal const double Slope = 0.3;

    internal static readonly ThicknessResponse OnBrown = Response(Brown, 0.6), OnBlack = Response(MapData.Black, 0.6),
        OnLight = Response(Light, 0.4), Hopeless = OfGlass(0.5);

    internal static readonly ThicknessMap Map = new([OnBrown, OnBlack, OnLight, Hopeless]);

    /// <summary>
    /// Random graphs with points without data, a zone without an answer, limits, locked walls and a margin, compared
    /// with the definition over all shortest paths (Floyd and Warshall).
    /// </summary>
    [Fact]
    public void Walls_are_those_of_the_definition()
    {
        for (int seed = 0; seed < 40; seed++)
        {
            Random random = new(seed);
            const int Count = 60;
            MeshEdge[] edges = [.. Enumerable.Range(0, 40 + (3 * seed)).Select(
                _ => new MeshEdge(random.Next(Count), random.Next(Count), seed % 5 == 0 ? 0 : random.NextDouble()))];
            byte[] zones = [.. Enumerable.Range(0, Count).Select(_ => (byte)random.Next(4))];
            double[] available = [.. zones.Select(_ => random.Next(6) == 0 ? double.NaN : 2 * random.NextDouble())],
                minima = [.. zones.Select(_ => random.Next(5) == 0 ? 2 * random.NextDouble() : double.NaN)];
            double[] maxima = [.. minima.Select(mm => random.Next(8) > 0 ? double.NaN
                : double.IsNaN(mm) ? 2 * random.NextDouble() : random.Next(2) == 0 ? mm : mm + random.NextDouble())];
            int[] margin = [.. Enumerable.Range(0, seed % 3).Select(_ => random.Next(Count))];
            bool limited = seed % 4 > 0;
            WallLimits limits = limited
                ? WallLimits.None.WithPoints(minima, maxima).WithMargin(margin, 0.2, 1.5)
                : WallLimits.None;
            WallSuggestion actual = WallSuggestion.Find(
                Map, MapMesh.FromEdges(Count, edges), available, Slope, zones, limits: limits);

            double[,] away = Distances(Count, edges);
            double[] asked = new double[Count], ceiling = new double[Count];
            for (int i = 0; i < Count; i++)
            {
                (double own, double most) = limited ? (minima[i], maxima[i]) : (double.NaN, double.NaN);
                double zone = zones[i] == 3 ? 0.5 : Map.Zones[zones[i]].Requirement.Minimum.RecommendedMm!.Value;
                ceiling[i] = !limited ? double.PositiveInfinity : Enumerable.Range(0, Count)
                    .Where(j => !double.IsNaN(maxima[j])).Select(j => maxima[j] + (Slope * away[i, j]))
                    .Concat(margin.Select(j => 0.2 + (1.5 * away[i, j]))).Append(double.PositiveInfinity).Min();
                asked[i] = own == most ? own : Math.Min(
                    ceiling[i],
                    Math.Max(double.IsNaN(available[i]) ? 0 : zone, double.IsNaN(own) ? 0 : own));
            }

            for (int i = 0; i < Count; i++)
            {
                bool locked = limited && minima[i] == maxima[i];
                double wall = locked ? minima[i] : Math.Min(
                    ceiling[i], Enumerable.Range(0, Count).Max(j => asked[j] - (Slope * away[i, j])));
                bool hasData = !double.IsNaN(available[i]);
                Assert.Equal(hasData ? wall : double.NaN, actual.ThicknessesMm[i], 1e-6);
                Assert.Equal(
                    hasData ? Math.Max(0, wall - available[i]) : double.NaN, actual.ReductionsMm[i], 1e-6);
                Assert.Equal(!hasData, actual.Statuses[i] == WallStatus.NoData);
                double structural = zones[i] < 2 ? 0.6 : zones[i] == 2 ? 0.4 : 0.5;
                if (hasData && Math.Abs(wall - structural) > 1e-6)
                {
                    Assert.Equal(wall < structural, actual.Statuses[i] == WallStatus.BelowStructuralMinimum);
                }
            }
        }
    }

    [Fact]
    public void Points_without_data_or_answer_pass_on_what_others_ask()
    {
        // Black, then a zone that nothing masks, then no data, then light.
        MapMesh line = Line(4, 0.1);
        WallSuggestion suggestion = WallSuggestion.Find(Map, line, [1, 1, double.NaN, 1], Slope, [1, 3, 1, 2]);
        double black = OnBlack.Requirement.Minimum.RecommendedMm!.Value;
        Assert.True(black - 0.09 > OnLight.Requirement.Minimum.RecommendedMm!.Value);
        Assert.Equal(black, suggestion.ThicknessesMm[0]);
        Assert.Equal(black - 0.03, suggestion.ThicknessesMm[1], 1e-6);
        Assert.Equal(double.NaN, suggestion.ThicknessesMm[2]);
        Assert.Equal(black - 0.09, suggestion.ThicknessesMm[3], 1e-6);
        Assert.Equal(
            [WallStatus.MeetsGoal, WallStatus.NoAnswer, WallStatus.NoData, WallStatus.MeetsGoal],
            suggestion.Statuses.ToArray());
        Caution none = Assert.Single(suggestion.Cautions, caution => caution.Kind == CautionKind.NoWallMeetsGoal);
        Assert.Equal((Hopeless.Requirement.ZoneName, 1.0), (none.Subject, none.Value));
        Assert.Contains(suggestion.Cautions, caution => caution.Kind == CautionKind.ToothReduction);
        Assert.Equal(1, suggestion.Count(WallStatus.NoData));
        Assert.Throws<ArgumentOutOfRangeException>(() => suggestion.Count((WallStatus)6));

        // Alone it is as thick as strength asks, and no thicker; without data it is nothing.
        WallSuggestion alone = WallSuggestion.Find(new ThicknessMap([Hopeless]), line, [1, 1, double.NaN, 1], Slope);
        Assert.Equal([0.5, 0.5, double.NaN, 0.5], alone.ThicknessesMm.ToArray());
        Assert.Equal(
            "4 points: none suggested for review, 0 that miss the goal, 4 without an answer", alone.ToString());
    }

    [Fact]
    public void A_margin_runs_out_thin_and_says_so()
    {
        const int Count = 30;
        WallLimits limits = WallLimits.None.WithMargin([0], 0.2, 1);
        WallSuggestion suggestion = WallSuggestion.Find(
            new ThicknessMap([OnBrown]), Line(Count, 0.1), new double[Count], Slope, limits: limits);
        double needed = OnBrown.Requirement.Minimum.RecommendedMm!.Value;
        for (int i = 0; i < Count; i++)
        {
            double taper = 0.2 + (0.1 * i);
            Assert.Equal(Math.Min(needed, taper), suggestion.ThicknessesMm[i], 1e-6);
            if (Math.Abs(taper - 0.6) > 1e-6)
            {
                Assert.Equal(
                    taper < 0.6 ? WallStatus.BelowStructuralMinimum
                    : taper < needed ? WallStatus.BelowGoal : WallStatus.MeetsGoal,
                    suggestion.Statuses[i]);
            }
        }

        // The text gives the walls of the points that meet the goal alone, and does not call all of them suggested.
        int miss = (int)suggestion.Cautions.Single(caution => caution.Kind == CautionKind.WallBelowGoal).Value!;
        string mm = MinimumThickness.RoundedUp(needed).ToString("0.00", CultureInfo.InvariantCulture);
        Assert.Equal(
            $"30 points: {Count - miss} with {mm} to {mm} mm suggested for review, {miss} that miss the goal, "
                + "0 without an answer", suggestion.ToString());
        Assert.Contains(
            " mm by colour, 0 that miss the goal",
            WallSuggestion.Find(new ThicknessMap([OnLight]), Line(2, 1), [1, 1], Slope, goal: ThicknessGoal.ByColor)
                .ToString(), StringComparison.Ordinal);

        Caution thin = Assert.Single(
            suggestion.Cautions, caution => caution.Kind == CautionKind.BelowStructuralMinimum);
        Caution below = Assert.Single(suggestion.Cautions, caution => caution.Kind == CautionKind.WallBelowGoal);
        Assert.Equal(("body", 0.6), (thin.Subject, thin.Value));
        Assert.Equal(
            suggestion.Count(WallStatus.BelowGoal) + suggestion.Count(WallStatus.BelowStructuralMinimum), below.Value);
    }

    [Fact]
    public void A_locked_wall_leads_its_neighbours_and_never_moves()
    {
        double needed = OnBrown.Requirement.Minimum.RecommendedMm!.Value, thick = needed + 1;
        double[] walls = [double.NaN, double.NaN, thick, double.NaN, double.NaN, 0.5, double.NaN];
        WallSuggestion suggestion = WallSuggestion.Find(
            new ThicknessMap([OnBrown]), Line(7, 1), new double[7], Slope,
            limits: WallLimits.None.WithPoints(walls, walls));
        Assert.Equal((thick, 0.5), (suggestion.ThicknessesMm[2], suggestion.ThicknessesMm[5]));
        Assert.Equal(thick - Slope, suggestion.ThicknessesMm[1], 1e-6);
        Assert.Equal(thick - (2 * Slope), suggestion.ThicknessesMm[0], 1e-6);
        Assert.Equal(0.5 + Slope, suggestion.ThicknessesMm[4], 1e-6);
        Assert.Equal(WallStatus.BelowStructuralMinimum, suggestion.Statuses[5]);
        Assert.Equal(WallStatus.MeetsGoal, suggestion.Statuses[2]);

        // From 0.5 mm to the thick one in three steps is steeper than allowed; it is said, and neither moves.
        Caution steep = Assert.Single(suggestion.Cautions, caution => caution.Kind == CautionKind.SteepLockedWall);
        Assert.Equal(1, steep.Value);
        double[] only = [double.NaN, double.NaN, thick, double.NaN, double.NaN, double.NaN, double.NaN];
        Assert.DoesNotContain(
            WallSuggestion.Find(
                new ThicknessMap([OnBrown]), Line(7, 1), new double[7], Slope,
                limits: WallLimits.None.WithPoints(only, only)).Cautions,
            caution => caution.Kind is CautionKind.SteepLockedWall or CautionKind.WallBelowGoal);
    }

    [Fact]
    public void A_suggestion_above_the_range_of_a_zone_says_so()
    {
        double end = OnLight.Requirement.Minimum.RecommendedMm!.Value + 0.05,
            needed = OnBlack.Requirement.Minimum.RecommendedMm!.Value;
        Restoration thin = Crown(Light, Zirconia, 0.4) with { WallRange = new ThicknessRange(0.3, end) };
        ThicknessMap map = new([OnBlack, ThicknessResponse.Compile(thin, thin.Zones[0].WithWall(end))]);
        Assert.True(needed > end + 0.1);
        WallSuggestion suggestion = WallSuggestion.Find(map, Line(2, 0.1), [1, 1], Slope, [0, 1]);
        Assert.Equal(needed - 0.03, suggestion.ThicknessesMm[1], 1e-6);
        Caution caution = Assert.Single(suggestion.Cautions, caution => caution.Kind == CautionKind.AboveRange);
        Assert.Equal(end, caution.Value);
        Assert.Contains(suggestion.Cautions, other => other.Kind == CautionKind.EachPointAlone);
    }

    [Fact]
    public void A_saved_suggestion_is_read_with_its_statuses_and_cautions_only()
    {
        string text = ResultJson.ToJson(WallSuggestion.Find(
            new ThicknessMap([OnBrown]), Line(3, 2), [1, 1, double.NaN], Slope,
            limits: WallLimits.None.WithMargin([0], 0.7, 1)));
        Assert.Equal("wall suggestion", ResultDocument.Parse(text).Kind);
        Assert.Contains("\"below goal\"", text, StringComparison.Ordinal);
        Assert.Contains("'below goal' does not belong to no thickness", Fault("no data", "below goal"));
        Assert.Contains("'no data' does not belong to a thickness", Fault("meets goal", "no data"));
        Assert.Contains("BelowStructuralMinimum belongs", Fault("below goal", "below structural minimum"));
        Assert.Contains("WallBelowGoal belongs", Fault("\"WallBelowGoal\"", "\"AboveRange\""));
        JsonNode walls = JsonNode.Parse(text)!;
        JsonArray reductions = walls["reductionsMm"]!.AsArray();
        reductions[0] = null;
        Assert.Contains("must be null where the thickness is null, and only there", Refused());
        reductions.RemoveAt(0);
        Assert.Contains("must have as many items as there are thicknesses", Refused());

        string Refused() => Assert.Throws<ExchangeException>(() => ResultDocument.Parse(walls.ToJsonString())).Message;

        string Fault(string found, string other) => Assert.Throws<ExchangeException>(
            () => ResultDocument.Parse(text.Replace(found, other, StringComparison.Ordinal))).Message;
    }

    private static MapMesh Line(int count, double stepMm) => MapMesh.FromEdges(
        count, [.. Enumerable.Range(1, count - 1).Select(i => new MeshEdge(i - 1, i, stepMm))]);

    private static double[,] Distances(int count, MeshEdge[] edges)
    {
        double[,] away = new double[count, count];
        for (int i = 0; i < count; i++)
        {
            for (int j = 0; j < count; j++)
            {
                away[i, j] = i == j ? 0 : 1e9;
            }
        }

        foreach (MeshEdge edge in edges)
        {
            away[edge.A, edge.B] = away[edge.B, edge.A] = Math.Min(away[edge.A, edge.B], edge.LengthMm);
        }

        for (int k = 0; k < count; k++)
        {
            for (int i = 0; i < count; i++)
            {
                for (int j = 0; j < count; j++)
                {
                    away[i, j] = Math.Min(away[i, j], away[i, k] + away[k, j]);
                }
            }
        }

        return away;
    }

    private static ThicknessResponse OfGlass(double strengthMm)
    {
        Restoration crown = Crown(MapData.Black, Glass, strengthMm, ColorCriterion.PerceptibilityThreshold) with
        {
            WallRange = new ThicknessRange(0.3, 1),
        };
        return ThicknessResponse.Compile(crown, crown.Zones[0]);
    }

    private static ThicknessResponse Response(Substrate stump, double? strengthMm)
    {
        Restoration crown = Crown(stump, Zirconia, strengthMm);
        return ThicknessResponse.Compile(crown, crown.Zones[0]);
    }
}
