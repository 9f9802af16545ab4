using CeramicOptics.Decisions.Feasibility;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Restorations;
using static CeramicOptics.Tests.InventedData;

namespace CeramicOptics.Tests.Unit;

public class FeasibilityTests
{
    private static readonly MatchOptions Options =
        new(Enumerable.Range(1, 4).SelectMany(grade => (Ceramic[])[GlassCeramic(grade), Zirconia(grade)]))
    {
        Cements = [Cement, OpaqueCement],
    };

    [Fact]
    public void A_wish_that_can_be_made_is_found()
    {
        Lab made = Colorimeter.D65TwoDegree.ToLab(Bonded(Zirconia(2), 1.013, BrownTooth).Reflectance());
        FeasibilityResult answer = Find(made);
        Assert.True(answer.IsFeasible);
        Assert.InRange(answer.Difference!.Value, 0, 0.01);
        Assert.Equal(1.013, answer.Nearest!.WallMm, 0.002);
        Assert.Equal("Granary zirconia, grade 2", answer.Nearest.Restoration.Core.ToString());
        Assert.Contains("can be met over this stump", answer.ToString());
    }

    [Fact]
    public void A_wish_out_of_reach_is_told_with_the_nearest_that_can_be_made()
    {
        FeasibilityResult answer = Find(new Lab(95, -2, 0));
        Assert.False(answer.IsFeasible);
        Assert.Contains("is not realistic over this stump with these materials", answer.ToString());
        Assert.Contains("too dark by", answer.ToString());
        Assert.Equal(answer.Points.Min(point => ColorDifference.Ciede2000(answer.Wish, point.Color)),
            answer.Difference!.Value, 0.02);
        Assert.All(answer.Points, point =>
            Assert.True(ColorDifference.Ciede2000(answer.Wish, point.Color) >= answer.Difference - 1e-9));
        Assert.NotEqual(answer.WishSwatch, answer.NearestSwatch);

        // Every recipe gives its colour, by the public stack.
        ReachablePoint some = answer.Points[answer.Points.Count / 3];
        LayerStack stack = new(
            [new Layer(some.Restoration.Core.Material, some.WallMm), some.Restoration.Cement!], BrownTooth);
        Assert.Equal(0, ColorDifference.Cie76(some.Color, Colorimeter.D65TwoDegree.ToLab(stack.Reflectance())), 1e-4);
        Assert.Equal(some.WallMm, some.Restoration.Zones.Single().AvailableMm);
    }

    /// <summary>
    /// A zone without room for the wall that strength asks has an answer, not an error: nothing can be made, and why.
    /// </summary>
    [Fact]
    public void A_zone_without_room_for_strength_is_told_so()
    {
        MatchOptions strong = new(Options.Ceramics.Select(ceramic =>
            ceramic with { Strength = StrengthLimit.Of(1.2 + (0.1 * ceramic.Grade)) }));
        FeasibilityResult answer = Find(new Lab(80, 0, 10), strong);
        Assert.False(answer.IsFeasible);
        Assert.Null(answer.Nearest);
        Assert.Null(answer.Difference);
        Assert.Null(answer.Limiting);
        Assert.Null(answer.NearestSwatch);
        Assert.Empty(answer.Points);
        Assert.Empty(answer.HullCorners);
        Assert.Equal((8, 1.3), (answer.TooThin, answer.StructuralMinimumMm!.Value));
        Assert.Contains(answer.Cautions, caution =>
            caution.Kind == CautionKind.BelowStructuralMinimum && caution.Subject == "body" && caution.Value == 1.3);
        Assert.Equal(
            "The wish for zone 'body' cannot be met: strength requires a wall of at least 1.30 mm, but only "
                + "1.2 mm are available.", answer.ToString());

        // With room for one grade only, the others are left out and counted.
        FeasibilityResult partly = Find(new Lab(80, 0, 10),
            new MatchOptions(strong.Ceramics.Append(GlassCeramic(9) with { Strength = StrengthLimit.Of(1.1) })));
        Assert.Equal(8, partly.TooThin);
        Assert.All(partly.Points, point => Assert.InRange(point.WallMm, 1.1, 1.2));
        Assert.Contains(partly.Cautions, caution =>
            caution.Kind == CautionKind.BelowStructuralMinimum && caution.Value == 8);
    }

    [Fact]
    public void The_hull_is_closed_and_holds_all_colours()
    {
        FeasibilityResult answer = Find(new Lab(80, 0, 10));
        Assert.Equal((2 * answer.HullCorners.Count) - 4, answer.HullTriangles.Count);
        HashSet<(int, int)> edges = [.. answer.HullTriangles.SelectMany(face =>
            ((int, int)[])[(face.A, face.B), (face.B, face.C), (face.C, face.A)])];
        Assert.Equal(3 * answer.HullTriangles.Count, edges.Count);
        Assert.All(edges, edge => Assert.Contains((edge.Item2, edge.Item1), edges));
        AssertInside([.. answer.Points.Select(point => point.Color)], answer.HullCorners.Select(point => point.Color)
            .ToArray(), answer.HullTriangles, 0.05);
    }

    /// <summary>
    /// The hull of a cube is its eight corners and twelve triangles; that of points in a plane has no triangles.
    /// </summary>
    [Fact]
    public void Hulls_of_simple_bodies_are_theirs()
    {
        Lab[] cube = [.. Enumerable.Range(0, 27).Select(i => new Lab(i % 3, i / 3 % 3, i / 9))];
        (IReadOnlyList<int> corners, IReadOnlyList<HullTriangle> triangles) = ConvexHull.Of(cube);
        Assert.Equal([0, 2, 6, 8, 18, 20, 24, 26], corners);
        Assert.Equal(12, triangles.Count);
        AssertInside(cube, [.. corners.Select(i => cube[i])], triangles, 1e-9);
        Assert.Empty(ConvexHull.Of([.. cube.Where(point => point.L == 0)]).Triangles);
        Assert.Empty(ConvexHull.Of([new Lab(1, 2, 3)]).Triangles);
    }

    /// <summary>A zone's own thinnest wall is the start; without it, that of the range.</summary>
    [Theory]
    [InlineData(0.9, 0.9)]
    [InlineData(null, 0.4)]
    public void Walls_start_at_the_thinnest_of_the_zone(double? thinnestMm, double fromMm) => Assert.Equal(
        fromMm, Find(new Lab(80, 0, 10), null, thinnestMm).Points.Min(point => point.WallMm), 1e-9);

    private static FeasibilityResult Find(Lab wish, MatchOptions? options = null, double? thinnestMm = null)
    {
        Zone zone = new("body", BrownTooth, 1.2, Wish(wish.L, wish.A, wish.B)) { ThinnestMm = thinnestMm };
        Restoration restoration = new([zone], GlassCeramic(1), Cement,
            ColorCriterion.AcceptabilityThreshold) { WallRange = new ThicknessRange(0.4, 2.0) };
        return ReachableColors.Find(restoration, zone, options ?? Options);
    }

    private static void AssertInside(
        Lab[] points, Lab[] corners, IReadOnlyList<HullTriangle> triangles, double tolerance)
    {
        foreach ((int a, int b, int c) in triangles)
        {
            (double L, double A, double B) u =
                (corners[b].L - corners[a].L, corners[b].A - corners[a].A, corners[b].B - corners[a].B);
            (double L, double A, double B) v =
                (corners[c].L - corners[a].L, corners[c].A - corners[a].A, corners[c].B - corners[a].B);
            (double L, double A, double B) n =
                ((u.A * v.B) - (u.B * v.A), (u.B * v.L) - (u.L * v.B), (u.L * v.A) - (u.A * v.L));
            double length = Math.Sqrt((n.L * n.L) + (n.A * n.A) + (n.B * n.B));
            Assert.True(length > 0);
            Assert.All(points, p => Assert.True(
                ((n.L * (p.L - corners[a].L)) + (n.A * (p.A - corners[a].A)) + (
                    n.B * (p.B - corners[a].B))) / length <= tolerance));
        }
    }
}
