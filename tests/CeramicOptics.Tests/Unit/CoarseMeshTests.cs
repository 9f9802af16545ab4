using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using static CeramicOptics.Tests.Unit.MapData;

namespace CeramicOptics.Tests.Unit;

/// <summary>Meshes whose points are too far apart for the rim of a stump.</summary>
public class CoarseMeshTests
{
    /// <summary>
    /// The rim lies just beside points of both meshes, as far as can be from where the coarse one has it. What a mesh
    /// of 0.025 mm shows its colours to be off is what the caution says at most, within 15 %, and the caution comes
    /// when
    /// half the step of colour across the rim is above a quarter of the limit, not before.
    /// </summary>
    [Theory]
    [InlineData(0.5, 0.1)]
    [InlineData(0.5, 0.4)]
    [InlineData(0.7, 0.2)]
    [InlineData(1.2, 0.4)]
    public void The_caution_says_how_far_colours_beside_a_rim_may_be_off(double mm, double stepMm)
    {
        (PlaneMesh fine, PlaneMesh coarse) = (new(4.8, 0.8, 0.025), new(4.8, 0.8, stepMm));
        Lab[] expected = new Lab[fine.Flat.Count], colors = new Lab[coarse.Flat.Count];
        Over(fine, mm, ColorCriterion.AcceptabilityThreshold).Colors(expected);
        Over(coarse, mm, ColorCriterion.AcceptabilityThreshold).Colors(colors);
        double error = Enumerable.Range(0, colors.Length).Where(i => Math.Abs(coarse.Flat[i].X) < 1.5).Max(
            i => ColorDifference.Ciede2000(colors[i], expected[fine.At(coarse.Flat[i].X, coarse.Flat[i].Y)]));
        double half = Enumerable.Range(0, colors.Length).Where(i => Math.Abs(coarse.Flat[i].X) < 0.001).Max(
            i => ColorDifference.Ciede2000(colors[i], colors[coarse.At(-stepMm, coarse.Flat[i].Y)])) / 2;
        Caution caution = Assert.Single(CautionsAt(4 * half / 1.05));
        Assert.InRange(caution.Value!.Value, 0.85 * error, half + 0.1);
        Assert.InRange(half, 0.85 * error, 2 * error);
        Assert.Empty(CautionsAt(4 * half * 1.05));

        IEnumerable<Caution> CautionsAt(double limit) =>
            Over(coarse, mm, new ColorCriterion("drawn", ColorDifferenceFormula.Ciede2000, limit, "this test"))
                .Cautions.Where(one => one.Kind == CautionKind.CoarseMesh);
    }

    // No thickness is known at the far end.
    private static SpreadField Over(PlaneMesh plane, double mm, ColorCriterion criterion) =>
        SpreadMap.Compile(Crown(Light, Body("clear", 0.1, 3, 1.53), 0.4, criterion), [Light, Black]).Over(
            plane.Mesh, plane.Each(point => point.X > 2.3 ? double.NaN : mm),
            plane.Each(point => (byte)(point.X < -0.001 ? 1 : 0)));
}
