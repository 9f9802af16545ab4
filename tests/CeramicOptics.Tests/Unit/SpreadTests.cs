using CeramicOptics.Layers.Lateral;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using static CeramicOptics.Tests.Unit.MapData;

namespace CeramicOptics.Tests.Unit;

/// <summary>Light that spreads sideways in maps: what it must leave alone, what it must not depend on.</summary>
public class SpreadTests
{
    private static readonly Restoration Crowned = Crown(Light, Zirconia, 0.4);
    private static readonly SpreadMap Map = SpreadMap.Compile(Crowned, [Light, Black]);

    [Fact]
    public void Far_from_any_edge_the_plain_map_stays_as_it_is()
    {
        PlaneMesh plane = new(6 * Map.ReachMm, 0.4, 0.1);
        double[] thicknesses = plane.Each(point => 0.8 + (0.3 * Math.Sin(point.X)));
        byte[] stumps = plane.Each(point => (byte)(point.X > 0 ? 1 : 0));
        SpreadField field = Map.Over(plane.Mesh, thicknesses, stumps);
        double[] plain = new double[stumps.Length], spread = new double[stumps.Length];
        Lab[] plainColors = new Lab[stumps.Length], colors = new Lab[stumps.Length];
        Map.Plain.Differences(thicknesses, plain);
        Map.Plain.Colors(thicknesses, plainColors);
        field.Differences(spread);
        field.Colors(colors);
        ThicknessResponse dark = ThicknessResponse.Compile(Crowned, Crown(Black, Zirconia, 0.4).Zones[0]);
        int far = 0;
        for (int i = 0; i < stumps.Length; i++)
        {
            float x = plane.Flat[i].X;
            if (x < -Map.ReachMm - 0.3)
            {
                far++;
                Assert.Equal(plain[i], spread[i]);
                Assert.Equal(plainColors[i], colors[i]);
            }
            else if (x > Map.ReachMm + 0.3)
            {
                // The stump of a point need not be that of its zone.
                Assert.Equal(dark.DifferenceAt(thicknesses[i]), spread[i], 2 * ThicknessResponse.WantedError);
            }
            else if (Math.Abs(x) < 0.12)
            {
                Assert.InRange(spread[i], plain[i] + 0.1, dark.DifferenceAt(thicknesses[i]) - 0.1);
            }
        }

        Assert.True(far > 100);
        Assert.InRange(Map.ReachMm, 1, 8);
    }

    [Fact]
    public void A_rim_beside_points_without_data_has_its_cautions()
    {
        PlaneMesh plane = new(2, 0.4, 0.1);
        byte[] stumps = plane.Each(point => (byte)(point.X > 0 ? 1 : 0));
        double[] whole = plane.Each(_ => 0.8), part = plane.Each(point => point.Y > 0.15 ? double.NaN : 0.8);
        Assert.Equal(
            Map.Over(plane.Mesh, whole, stumps).Cautions.Select(caution => caution.Kind),
            Map.Over(plane.Mesh, part, stumps).Cautions.Select(caution => caution.Kind));
    }

    /// <summary>
    /// Colours beside a straight rim by whole maps of which the anisotropy is stated: those at the ends of its range
    /// move from the middle one by what the caution of a map without one says.
    /// </summary>
    [Fact]
    public void What_is_not_known_of_the_anisotropy_is_said_with_its_size()
    {
        PlaneMesh plane = new(6, 1, 0.05);
        Lab[] Colors(double anisotropy)
        {
            SpreadMap map = SpreadMap.Compile(Of(anisotropy), [Light, Black]);
            Assert.DoesNotContain(map.Cautions, caution => caution.Kind == CautionKind.UnknownAnisotropy);
            Lab[] colors = new Lab[plane.Flat.Count];
            map.Over(
                plane.Mesh, plane.Each(_ => 0.6),
                plane.Each(point => (byte)(point.X > 0 ? 1 : 0))).Colors(colors);
            return colors;
        }

        Lab[] usual = Colors(0.4), least = Colors(0.001), most = Colors(0.9);
        double largest = usual.Select((color, i) => Math.Max(
            ColorDifference.Ciede2000(color, least[i]), ColorDifference.Ciede2000(color, most[i]))).Max();
        Caution caution = Assert.Single(
            SpreadMap.Compile(Of(0), [Light, Black]).Cautions,
            one => one.Kind == CautionKind.UnknownAnisotropy);
        Assert.InRange(caution.Value!.Value, 0.7 * largest, (1.5 * largest) + 0.1);

        Restoration Of(double anisotropy)
        {
            Material Again(Material material) => new(
                material.Name, new TransportModel(24, anisotropy), material.Absorption, material.Scattering,
                material.RefractiveIndex);
            return new Restoration(
                [new Zone("body", Light, 0.6, MaskingReference.SelfBacked)],
                new Ceramic("made up", 1, Again(Body("clear", 0.05, 1, 1.53))),
                new Layer(Again(Cement.Material), 0.05), Crowned.Criterion)
            {
                WallRange = new ThicknessRange(0.5, 1),
            };
        }
    }

    [Fact]
    public void One_stump_everywhere_is_the_plain_map_at_every_thickness()
    {
        PlaneMesh plane = new(3, 3, 0.1, turned: 0.4);
        Random random = new(3);
        double[] thicknesses = plane.Each(_ => 0.3 + (1.7 * random.NextDouble()));
        double[] plain = new double[thicknesses.Length], spread = new double[thicknesses.Length];
        PointStatus[] statuses = new PointStatus[plain.Length], plainStatuses = new PointStatus[plain.Length];
        Srgb[] shown = new Srgb[plain.Length], plainShown = new Srgb[plain.Length];
        (thicknesses[5], thicknesses[6]) = (double.NaN, 2.1);
        SpreadField field = Map.Over(plane.Mesh, thicknesses, new byte[plain.Length]);
        field.Differences(spread);
        field.Statuses(statuses);
        field.DisplayColors(shown);
        Map.Plain.Differences(thicknesses, plain);
        Map.Plain.Statuses(thicknesses, plainStatuses);
        Map.Plain.DisplayColors(thicknesses, plainShown);
        Assert.Equal(plain, spread);
        Assert.Equal(plainStatuses, statuses);
        Assert.Equal(plainShown, shown);
        Assert.Equal([PointStatus.NoData, PointStatus.AboveRange], statuses[5..7]);
        Assert.Equal([double.NaN, double.NaN], spread[5..7]);
    }

    /// <summary>Beyond 5 mm from a thin dark stripe nothing of it is left, also where the wall is steep.</summary>
    [Fact]
    public void Steps_of_the_wall_do_not_show_by_themselves()
    {
        SpreadMap map = SpreadMap.Compile(Crown(Light, Glass, 0.4), [Light, Black]);
        PlaneMesh plane = new(14, 1, 0.1);
        double[] thicknesses = plane.Each(point => point.X > 3 ? 1.9 : 0.6), spread = new double[thicknesses.Length];
        byte[] stumps = plane.Each(point => (byte)(point.X < -2.9 && point.X > -3.1 ? 1 : 0));
        map.Over(plane.Mesh, thicknesses, stumps).Differences(spread);
        double[] plain = new double[spread.Length], unstriped = new double[spread.Length];
        map.Plain.Differences(thicknesses, plain);
        map.Over(plane.Mesh, thicknesses, new byte[stumps.Length]).Differences(unstriped);
        ThicknessResponse black =
            ThicknessResponse.Compile(Crown(Black, Glass, 0.4), Crown(Black, Glass, 0.4).Zones[0]);
        Assert.InRange(map.ReachMm, 4, 8);
        double last = double.PositiveInfinity;
        for (int i = 0; i < plain.Length; i++)
        {
            double x = plane.Flat[i].X;

            // Without the stripe the step at 3 mm does not show anywhere; with it, not from 5 mm beyond the stripe on.
            Assert.Equal(plain[i], unstriped[i], 0.05);
            Assert.True(x < 2 || Math.Abs(plain[i] - spread[i]) < 0.05);

            // The stripe shows less than a whole black stump would, and the farther off the less.
            Assert.InRange(spread[i], plain[i] - 0.05, black.DifferenceAt(thicknesses[i]) + 0.05);
        }

        for (double x = -3; x < 2; x += 0.5)
        {
            double at = spread[plane.At(x, 0)] - plain[plane.At(x, 0)];
            Assert.InRange(at, -0.05, last + 0.02);
            last = at;
        }

        Assert.True(spread[plane.At(-3, 0)] > plain[plane.At(-3, 0)] + 0.5);
    }

    /// <summary>A disc and a straight edge on meshes twice as fine and turned in space.</summary>
    [Fact]
    public void The_answer_belongs_to_the_surface_and_not_to_its_mesh()
    {
        SpreadMap map = SpreadMap.Compile(Crown(Light, Glass, 0.4), [Light, Black]);
        double[] Along(double step, double turned)
        {
            PlaneMesh plane = new(7, 4, step, turned);
            SpreadField field = map.Over(
                plane.Mesh, plane.Each(_ => 0.7), plane.Each(point => (byte)(point.Length() < 1.01 ? 1 : 0)));
            Lab[] colors = new Lab[plane.Flat.Count];
            field.Colors(colors);
            return [.. new[] { 0, 0.4, 0.8, 1.2, 1.6, 2.4, 3.2 }.Select(x => colors[plane.At(x, 0)].L)];
        }

        double[] known = Along(0.05, 0);
        Assert.InRange(known[^1] - known[0], 2, 20);
        Assert.All(Along(0.05, 0.9).Zip(known), pair => Assert.Equal(pair.Second, pair.First, 0.1));
        Assert.All(Along(0.1, 0.4).Zip(known), pair => Assert.Equal(pair.Second, pair.First, 0.5));
        Assert.All(Along(0.025, 0).Zip(known), pair => Assert.Equal(pair.Second, pair.First, 0.3));
    }

    /// <summary>The far face of a plate, 0.4 mm away, has a black stump; the near one does not see it.</summary>
    [Fact]
    public void Light_does_not_pass_through_a_thin_wall()
    {
        PlaneMesh plane = new(4, 4, 0.1);
        int count = plane.Flat.Count;
        float[] positions = [.. plane.Positions, .. plane.Positions];
        for (int i = 0; i < count; i++)
        {
            positions[(3 * (count + i)) + 2] -= 0.4f;
        }

        int[] triangles = [.. plane.Triangles, .. plane.Triangles.Reverse().Select(point => point + count)];
        byte[] stumps = [.. Enumerable.Range(0, 2 * count).Select(i => (byte)(i < count ? 0 : 1))];
        double[] thicknesses = [.. stumps.Select(_ => 0.7)], spread = new double[stumps.Length];
        Map.Over(MapMesh.FromTriangles(positions, triangles), thicknesses, stumps).Differences(spread);
        Assert.All(spread[..count], value => Assert.Equal(Map.Plain.Zones[0].DifferenceAt(0.7), value));
    }

    /// <summary>Four bands and kernels compared with the spot below solved at each of 31 wavelengths.</summary>
    [Theory]
    [MemberData(nameof(WallData.Models), MemberType = typeof(WallData))]
    public void Bands_and_kernels_agree_with_a_spot_solved_at_every_wavelength(string model)
    {
        WallData data = WallData.Fine(model);
        double[] distances = [0, 0.5, 1.1, 1.3, 1.8, 3];
        Restoration crown = data.Crown(WallData.Zone(data.Good, MaskingReference.SelfBacked))
            with { WallRange = new ThicknessRange(0.5, 1.5), Viewing = WallData.TwoLights };
        SpreadMap map = SpreadMap.Compile(crown, [data.Good, data.Dark]);
        PlaneMesh plane = new(10, 10, 0.05);
        SpreadField field = map.Over(
            plane.Mesh, plane.Each(_ => 0.8), plane.Each(point => (byte)(point.Length() < 1.2 ? 1 : 0)));
        Lab[] colors = new Lab[plane.Flat.Count];
        field.Colors(colors);
        IReadOnlyList<ReflectanceSpectrum> seen = LateralReflectance.AboveSpot(
            crown.StackOver(data.Good, 0.8), data.Dark, crown.Viewing.Geometry, new SpotBelow(1.2, distances));
        for (int i = 0; i < distances.Length; i++)
        {
            Lab exact = crown.Viewing.Colorimeters[0].ToLab(seen[i]), own = colors[plane.At(distances[i], 0)];
            Assert.InRange(ColorDifference.Ciede2000(exact, own), 0, 0.5);
        }
    }

    [Fact]
    public void Each_zone_keeps_its_own_reference()
    {
        Target wish = Target.FromReflectance(
            "wish", ReflectanceSpectrum.Uniform(Grid, 0.6), MeasurementGeometry.DiffuseSpecularIncluded);
        Restoration both = Crowned.WithZones([Crowned.Zones[0], new Zone("wish", Light, 1, wish)]);
        SpreadMap map = SpreadMap.Compile(both, [Light, Black]);
        PlaneMesh plane = new(3, 3, 0.1);
        byte[] zones = plane.Each(point => (byte)(point.Y > 0 ? 1 : 0));
        byte[] stumps = plane.Each(point => (byte)(point.X > 0 ? 1 : 0));
        double[] thicknesses = plane.Each(_ => 0.8), spread = new double[zones.Length];
        SpreadField field = map.Over(plane.Mesh, thicknesses, stumps, zones);
        Lab[] colors = new Lab[zones.Length];
        field.Differences(spread);
        field.Colors(colors);
        int inFirst = plane.At(-0.05, -0.3), inSecond = plane.At(-0.05, 0.3);
        Assert.Equal(colors[inFirst].L, colors[inSecond].L, 0.1);
        Assert.True(
            ColorDifference.Ciede2000(Lights[0].ToLab(wish.Spectrum!), colors[inSecond]) <= spread[inSecond] + 0.01);
        Assert.True(spread[inSecond] > spread[inFirst] + 1);
        Assert.Contains(map.Cautions, caution => caution.Kind == CautionKind.ToothReduction);
    }

    [Fact]
    public void A_mesh_knows_its_edges_once()
    {
        MapMesh square = MapMesh.FromTriangles([0, 0, 0, 1, 0, 0, 1, 1, 0, 0, 1, 0], [0, 1, 2, 0, 2, 3]);
        Assert.Equal((4, 5, true), (square.PointCount, square.Neighbours.Length / 2, square.HasPositions));
        MapMesh line = MapMesh.FromEdges(3, [new MeshEdge(0, 1, 1), new MeshEdge(1, 2, 1)]);
        Assert.Equal((3, 2, false), (line.PointCount, line.Neighbours.Length / 2, line.HasPositions));
        MapMesh empty = MapMesh.FromTriangles([], []);
        Map.Over(empty, [], []).Differences([]);
        Assert.Equal(0, empty.PointCount);
    }

    /// <summary>Points without triangles, triangles without area and points of one place are borne.</summary>
    [Fact]
    public void A_poor_mesh_gives_finite_answers()
    {
        PlaneMesh plane = new(2, 2, 0.1);
        float[] positions = [.. plane.Positions, 0, 0, 5, 0, 0, 0];
        int count = plane.Flat.Count;
        int[] triangles = [.. plane.Triangles, 0, 0, 0, 1, 2, 1, count + 1, 3, 4];
        byte[] stumps = [.. plane.Each(point => (byte)(point.X > 0 ? 1 : 0)), 1, 1];
        double[] thicknesses = [.. stumps.Select(_ => 0.8)], spread = new double[stumps.Length];
        Map.Over(MapMesh.FromTriangles(positions, triangles), thicknesses, stumps).Differences(spread);
        Assert.All(spread, value => Assert.InRange(value, 0, 100));
        Assert.Equal(spread.Max(), spread[count], 1e-9);
    }

    [Fact]
    public void Long_work_reports_and_stops()
    {
        List<double> done = [];
        SpreadMap.Compile(Crowned, [Light, Black], progress: new Immediate(done.Add));
        Assert.Equal(done.Order(), done);
        Assert.Equal(1, done[^1]);
        CancellationToken stopped = new(true);
        Assert.ThrowsAny<OperationCanceledException>(
            () => SpreadMap.Compile(Crowned, [Light, Black], cancellation: stopped));
        PlaneMesh plane = new(2, 2, 0.1);
        byte[] stumps = plane.Each(point => (byte)(point.X > 0 ? 1 : 0));
        done.Clear();
        Map.Over(plane.Mesh, plane.Each(_ => 0.8), stumps, progress: new Immediate(done.Add));
        Assert.Equal(done.Order(), done);
        Assert.Equal(1, done[^1]);
        Assert.ThrowsAny<OperationCanceledException>(
            () => Map.Over(plane.Mesh, plane.Each(_ => 0.8), stumps, cancellation: stopped));
    }
}
