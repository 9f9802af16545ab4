using CeramicOptics.Mapping;
using CeramicOptics.Selection;
using static CeramicOptics.Tests.DemoData;

namespace CeramicOptics.Tests.Unit;

public class MappingTests
{
    private static readonly (double Min, double Max) Range = (0.3, 2.0);

    private static readonly ThicknessResponse Brown = Response(BrownTooth, 0.6), Black = Response(NearlyBlackTooth, 0.6);

    private static readonly double[] Wall = [0.3, 0.5, double.NaN, 1.2, 2.0, 2.1, 0.2, Brown.Requirement.RecommendedMinimumMm!.Value];

    [Fact]
    public void Tables_reach_the_wanted_error_and_meet_their_ends()
    {
        Assert.InRange(Brown.ErrorBound, 0, ThicknessResponse.WantedError);
        foreach (double mm in (double[])[0.3, 0.30001, 1.23456, 1.99999, 2.0])
        {
            WorstCase exact = MaskingThickness.WorstDifferences(Bonded(Zirconia(2), mm, BrownTooth), 0, [mm], MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch, [BrownTooth])[0];
            Assert.Equal(exact.Difference, Brown.DifferenceAt(mm), Brown.ErrorBound);
            Assert.Equal(0, ColorDifference.Cie76(exact.Color, Brown.ColorAt(mm)), Brown.ErrorBound);
        }

        Assert.Throws<ArgumentOutOfRangeException>(() => Brown.DifferenceAt(0.29));
        Assert.Throws<ArgumentOutOfRangeException>(() => Brown.ColorAt(double.NaN));
    }

    [Fact]
    public void Statuses_tell_why_there_is_no_answer()
    {
        PointStatus[] statuses = new PointStatus[Wall.Length];
        double[] differences = new double[Wall.Length];
        new ThicknessMap([Brown]).Statuses(Wall, statuses);
        new ThicknessMap([Brown]).Differences(Wall, differences);
        double optical = Brown.Requirement.OpticalMinimumMm!.Value;
        Assert.True(optical > 0.6);
        Assert.Equal(
            [PointStatus.Shows, PointStatus.Shows, PointStatus.NoData, PointStatus.Masked, PointStatus.Masked, PointStatus.OutOfRange, PointStatus.OutOfRange],
            statuses[..7]);
        Assert.Equal([false, false, true, false, false, true, true], differences[..7].Select(double.IsNaN));

        PointStatus[] thin = new PointStatus[1];
        new ThicknessMap([Response(LightTooth, 1.5)]).Statuses([1.4], thin);
        Assert.Equal(PointStatus.BelowStructuralMinimum, thin[0]);
    }

    [Fact]
    public void Missing_thickness_brings_every_point_to_its_recommended_minimum()
    {
        double needed = Brown.Requirement.RecommendedMinimumMm!.Value;
        double[] missing = new double[Wall.Length];
        new ThicknessMap([Brown]).MissingThicknesses(Wall, missing);
        Assert.Equal([needed - 0.3, needed - 0.5, double.NaN, 0, 0, double.NaN, needed - 0.2, 0], missing);

        // Strength wins, and where no thickness is enough there is no number.
        double[] stronger = new double[1], none = new double[1];
        new ThicknessMap([Response(BrownTooth, needed + 0.2)]).MissingThicknesses([needed], stronger);
        Assert.Equal(0.2, stronger[0], 1e-12);
        ThicknessResponse hopeless = ThicknessResponse.Compile(Bonded(GlassCeramic(1), 1, NearlyBlackTooth), 0, (0.3, 1), MaskingReference.SelfBacked, ColorCriterion.ImperceptibleMatch);
        new ThicknessMap([hopeless]).MissingThicknesses([0.5], none);
        Assert.True(double.IsNaN(none[0]));
    }

    [Fact]
    public void Zones_floats_strides_and_every_length_agree()
    {
        ThicknessMap map = new([Brown, Black]);
        Random random = new(5);
        for (int length = 0; length <= 70; length++)
        {
            double[] mm = [.. Enumerable.Range(0, length).Select(_ => Math.Round(0.3 + (1.7 * random.NextDouble()), 4))];
            byte[] zones = [.. Enumerable.Range(0, length).Select(_ => (byte)random.Next(2))];
            double[] expected = [.. mm.Select((value, i) => map.Zones[zones[i]].DifferenceAt(value))], actual = new double[length];
            map.Differences(mm, actual, zones);
            Assert.Equal(expected, actual);
            float[] buffer = [.. Enumerable.Range(0, 4 * length).Select(i => i % 4 == 2 ? (float)mm[i / 4] : -1f)], single = new float[length];
            map.Differences(buffer, single, zones, stride: 4, offset: 2);
            Assert.All(single.Zip(expected), pair => Assert.Equal(pair.Second, pair.First, 2e-5));
            Srgb[] shown = new Srgb[length];
            Lab[] colors = new Lab[length];
            map.DisplayColors(mm, shown, zones);
            map.Colors(mm, colors, zones);
            Assert.All(shown.Zip(colors), pair => Assert.Equal(Srgb.FromXyz(pair.Second.ToXyz(Colorimeter.D65TwoDegree.White)), pair.First));
        }

        Assert.Throws<ArgumentOutOfRangeException>(() => map.Differences(new double[1], new double[1], [2]));
        Assert.Throws<ArgumentException>(() => map.Differences(new double[2], new double[1]));
        Assert.Throws<ArgumentException>(() => map.Differences(new float[7], new float[2], stride: 3));
        Assert.Throws<ArgumentOutOfRangeException>(() => map.Differences(new float[6], new float[2], stride: 3, offset: 3));
    }

    /// <summary>On a random graph: never below the minimum, never steeper than the limit, and the smallest such field (against all shortest paths by Floyd and Warshall).</summary>
    [Fact]
    public void A_suggested_wall_is_the_thinnest_that_masks_and_can_be_made()
    {
        ThicknessMap map = new([Brown, Black, Response(LightTooth, 0.4)]);
        const int Count = 60;
        const double Slope = 0.3;
        Random random = new(8);
        double[] there = [.. Enumerable.Range(0, Count).Select(i => i == 7 ? double.NaN : 0.4 + (1.2 * random.NextDouble()))];
        byte[] zones = [.. Enumerable.Range(0, Count).Select(i => (byte)(i < 3 ? 1 : i < 20 ? 0 : 2))];
        (int A, int B, double DistanceMm)[] edges = [.. Enumerable.Range(0, 150).Select(_ => (random.Next(Count), random.Next(Count), 0.1 + random.NextDouble()))];
        WallSuggestion suggestion = WallSuggestion.Find(map, there, edges, Slope, zones);

        double[,] distance = new double[Count, Count];
        for (int i = 0; i < Count; i++)
        {
            for (int j = 0; j < Count; j++)
            {
                distance[i, j] = i == j ? 0 : edges.Where(edge => (edge.A, edge.B) == (i, j) || (edge.A, edge.B) == (j, i)).Select(edge => edge.DistanceMm).DefaultIfEmpty(1e9).Min();
            }
        }

        for (int k = 0; k < Count; k++)
        {
            for (int i = 0; i < Count; i++)
            {
                for (int j = 0; j < Count; j++)
                {
                    distance[i, j] = Math.Min(distance[i, j], distance[i, k] + distance[k, j]);
                }
            }
        }

        double Minimum(int point) => map.Zones[zones[point]].Requirement.RecommendedMinimumMm!.Value;
        for (int i = 0; i < Count; i++)
        {
            double expected = Enumerable.Range(0, Count).Max(j => Minimum(j) - (Slope * distance[i, j]));
            Assert.Equal(expected, suggestion.ThicknessesMm[i], 1e-9);
            Assert.Equal(i == 7 ? double.NaN : Math.Max(0, expected - there[i]), suggestion.ReductionsMm[i], 1e-9);
        }

        Assert.True(Minimum(0) > Minimum(10) && Minimum(10) > Minimum(30));
        Assert.Equal(0, suggestion.WithoutAnswer);
        Assert.Contains(suggestion.Cautions, caution => caution.Kind == CautionKind.ToothReduction);
        Assert.Throws<ArgumentOutOfRangeException>(() => WallSuggestion.Find(map, there, [(0, Count, 1)], Slope, zones));

        ThicknessMap hopeless = new([ThicknessResponse.Compile(Bonded(GlassCeramic(1), 1, NearlyBlackTooth), 0, (0.3, 1), MaskingReference.SelfBacked, ColorCriterion.ImperceptibleMatch), Brown]);
        WallSuggestion partly = WallSuggestion.Find(hopeless, [0.5, 0.5], [(0, 1, 1)], Slope, [0, 1]);
        Assert.Equal([true, false], partly.ThicknessesMm.Select(double.IsNaN));
        Assert.Equal(1, partly.WithoutAnswer);
    }

    private static ThicknessResponse Response(Substrate stump, double structuralMm) => ThicknessResponse.Compile(
        Bonded(Zirconia(2), 1, stump), 0, Range, MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch, new ViewingConditions { StructuralMinimumMm = structuralMm });
}
