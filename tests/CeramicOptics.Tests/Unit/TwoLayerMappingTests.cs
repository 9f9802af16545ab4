using System.Text.Json.Nodes;
using CeramicOptics.Exchange;
using CeramicOptics.Mapping;
using CeramicOptics.Selection;
using Json.Schema;
using static CeramicOptics.Tests.DemoData;

namespace CeramicOptics.Tests.Unit;

public class TwoLayerMappingTests
{
    private static readonly (double Min, double Max) Veneer = (0.2, 1.0), Core = (0.3, 1.6);

    private static readonly TwoLayerResponse Brown = Response(BrownTooth, 1.2), Light = Response(LightTooth, 0.9);

    /// <summary>At either end of the upper range the answer is that of the one-variable question, to a step of the grid.</summary>
    [Theory]
    [InlineData(0.2)]
    [InlineData(0.6)]
    [InlineData(1.0)]
    public void Lower_requirement_is_the_answer_of_the_one_variable_question(double upperMm)
    {
        MaskingResult exact = MaskingThickness.Find(Stack(BrownTooth).WithThickness(0, upperMm), 1, Core, MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch);
        WallRequirement requirement = Brown.LowerRequirementAt(upperMm);
        Assert.True(exact.Outcome == MaskingOutcome.MaskedFrom);
        Assert.InRange(requirement.OpticalMinimumMm!.Value - exact.OpticalMinimumMm!.Value, 0, 0.006);
        Assert.Equal(Math.Max(requirement.OpticalMinimumMm.Value, 1.2 - upperMm), requirement.RecommendedMinimumMm);
        Assert.InRange(requirement.ThicknessStandardUncertaintyMm!.Value, 0.5 * exact.ThicknessStandardUncertaintyMm!.Value, 2 * exact.ThicknessStandardUncertaintyMm.Value);
        Assert.Contains(requirement.Cautions, caution => caution.Kind == CautionKind.ToothReduction);
    }

    [Fact]
    public void Points_get_status_missing_thickness_and_nothing_where_nothing_is_known()
    {
        double enough = Brown.LowerRequirementAt(0.5).RecommendedMinimumMm!.Value;
        double[] upper = [0.5, 0.5, double.NaN, 0.5, 1.1, 0.5, 0.5], lower = [0.4, enough, 0.5, double.NaN, 0.5, 0.2, 1.7];
        PointStatus[] statuses = new PointStatus[upper.Length];
        double[] missing = new double[upper.Length], differences = new double[upper.Length];
        TwoLayerMap map = new([Brown]);
        map.Statuses(upper, lower, statuses);
        map.MissingLowerThicknesses(upper, lower, missing);
        map.Differences(upper, lower, differences);
        Assert.Equal(
            [PointStatus.Shows, PointStatus.Masked, PointStatus.NoData, PointStatus.NoData, PointStatus.OutOfRange, PointStatus.OutOfRange, PointStatus.OutOfRange], statuses);
        Assert.Equal([enough - 0.4, 0, double.NaN, double.NaN, double.NaN, enough - 0.2, double.NaN], missing);
        Assert.Equal([false, false, true, true, true, true, true], differences.Select(double.IsNaN));

        PointStatus[] thin = new PointStatus[1];
        double[] strength = new double[1];
        TwoLayerMap light = new([Light]);
        light.Statuses([0.3], [0.5], thin);
        light.MissingLowerThicknesses([0.3], [0.5], strength);
        Assert.Equal(PointStatus.BelowStructuralMinimum, thin[0]);
        Assert.Equal(0.1, strength[0], 1e-12);

        double[] none = new double[1];
        new TwoLayerMap([Response(NearlyBlackTooth, 0, core: GlassCeramic(1))]).MissingLowerThicknesses([0.3], [0.5], none);
        Assert.True(double.IsNaN(none[0]));
    }

    [Fact]
    public void Zones_floats_and_strides_agree()
    {
        TwoLayerMap map = new([Brown, Light]);
        Random random = new(6);
        for (int length = 0; length <= 70; length += 7)
        {
            double[] upper = [.. Enumerable.Range(0, length).Select(_ => 0.2 + (0.8 * random.NextDouble()))], lower = [.. Enumerable.Range(0, length).Select(_ => 0.3 + (1.3 * random.NextDouble()))];
            byte[] zones = [.. Enumerable.Range(0, length).Select(_ => (byte)random.Next(2))];
            double[] expected = [.. upper.Select((mm, i) => map.Zones[zones[i]].DifferenceAt(mm, lower[i]))], actual = new double[length];
            map.Differences(upper, lower, actual, zones);
            Assert.Equal(expected, actual);
            float[] buffer = [.. Enumerable.Range(0, 5 * length).Select(i => i % 5 == 1 ? (float)upper[i / 5] : i % 5 == 4 ? (float)lower[i / 5] : -1f)], single = new float[length];
            map.Differences(buffer, single, stride: 5, upperOffset: 1, lowerOffset: 4, zones);
            Assert.All(single.Zip(expected), pair => Assert.Equal(pair.Second, pair.First, 2e-5));
        }

        Assert.Throws<ArgumentOutOfRangeException>(() => map.Differences([0.5], [0.5], new double[1], [2]));
        Assert.Throws<ArgumentException>(() => map.Differences(new double[2], new double[1], new double[1]));
        Assert.Throws<ArgumentException>(() => map.Differences(new double[1], new double[2], new double[1]));
        Assert.Throws<ArgumentOutOfRangeException>(() => map.Differences(new float[4], new float[2], stride: 2, upperOffset: 0, lowerOffset: 2));
        Assert.Throws<ArgumentOutOfRangeException>(() => Brown.DifferenceAt(0.1, 0.5));
        Assert.Throws<ArgumentOutOfRangeException>(() => Brown.ColorAt(0.5, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => TwoLayerResponse.Compile(Stack(LightTooth), 1, Veneer, 1, Core, MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch));
    }

    [Fact]
    public void A_saved_response_reads_back_exactly_and_meets_its_schema()
    {
        JsonSchema schema = JsonSchema.FromText(File.ReadAllText(Repository.PathOf("docs", "schema", "thickness-response.schema.json")));
        using MemoryStream two = new(), one = new();
        ResponseJson.Write(Brown, two);
        ThicknessResponse single = ThicknessResponse.Compile(Bonded(Zirconia(2), 1, BrownTooth), 0, (0.3, 2), MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch);
        ResponseJson.Write(single, one);
        Assert.True(schema.Evaluate(JsonNode.Parse(two.ToArray())).IsValid);
        Assert.True(schema.Evaluate(JsonNode.Parse(one.ToArray())).IsValid);
        Assert.False(schema.Evaluate(JsonNode.Parse(one.ToArray())!["requirement"]).IsValid);
        (two.Position, one.Position) = (0, 0);
        TwoLayerResponse twoBack = ResponseJson.ReadTwoLayer(two, "response.json");
        ThicknessResponse oneBack = ResponseJson.Read(one, "response.json");

        Random random = new(7);
        for (int i = 0; i < 1000; i++)
        {
            double upper = 0.2 + (0.8 * random.NextDouble()), lower = 0.3 + (1.3 * random.NextDouble());
            Assert.Equal(Brown.DifferenceAt(upper, lower), twoBack.DifferenceAt(upper, lower));
            Assert.Equal(Brown.ColorAt(upper, lower), twoBack.ColorAt(upper, lower));
            Assert.Equal(single.DifferenceAt(lower), oneBack.DifferenceAt(lower));
            Assert.Equal(single.ColorAt(lower), oneBack.ColorAt(lower));
        }

        Assert.Equal((Brown.ErrorBound, single.ErrorBound), (twoBack.ErrorBound, oneBack.ErrorBound));
        AssertSame(Brown.LowerRequirementAt(0.4), twoBack.LowerRequirementAt(0.4));
        AssertSame(single.Requirement, oneBack.Requirement);
    }

    private static void AssertSame(WallRequirement expected, WallRequirement actual)
    {
        Assert.Equal(expected with { Cautions = [] }, actual with { Cautions = [] });
        Assert.Equal(expected.Cautions, actual.Cautions);
    }

    private static LayerStack Stack(Substrate stump, Ceramic? core = null) =>
        new([new Layer(GlassCeramic(1).Material, 0.5), new Layer((core ?? Zirconia(2)).Material, 0.6), Cement], stump);

    private static TwoLayerResponse Response(Substrate stump, double structuralMm, Ceramic? core = null) => TwoLayerResponse.Compile(
        Stack(stump, core), 0, Veneer, 1, Core, MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch, new ViewingConditions { StructuralMinimumMm = structuralMm });
}
