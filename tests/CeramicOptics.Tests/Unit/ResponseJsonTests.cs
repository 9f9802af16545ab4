using System.Text.Json.Nodes;
using CeramicOptics.Exchange;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using Json.Schema;
using static CeramicOptics.Tests.Unit.MapData;

namespace CeramicOptics.Tests.Unit;

public class ResponseJsonTests
{
    private static readonly ThicknessResponse One = Response(0.9), Weak = Response(null);

    private static readonly TwoLayerResponse Two = TwoLayerMappingTests.OnBrown;

    [Fact]
    public void A_saved_response_reads_back_exactly_and_meets_its_schema()
    {
        JsonSchema schema = JsonSchema.FromText(
            File.ReadAllText(Repository.PathOf("docs", "schema", "thickness-response.schema.json")));
        Assert.True(schema.Evaluate(Saved(Two)).IsValid);
        Assert.True(schema.Evaluate(Saved(One)).IsValid);
        Assert.True(schema.Evaluate(Saved(Weak)).IsValid);
        Assert.False(schema.Evaluate(Saved(One)["requirement"]).IsValid);
        TwoLayerResponse twoBack = ResponseJson.ReadTwoLayer(Stream(Saved(Two)), "response.json");
        ThicknessResponse oneBack = ResponseJson.Read(Stream(Saved(One)), "response.json");

        Random random = new(7);
        for (int i = 0; i < 1000; i++)
        {
            double veneer = 0.2 + (0.8 * random.NextDouble()), core = 0.3 + (1.3 * random.NextDouble());
            Assert.Equal(Two.DifferenceAt(veneer, core), twoBack.DifferenceAt(veneer, core));
            Assert.Equal(Two.ColorAt(veneer, core), twoBack.ColorAt(veneer, core));
            Assert.Equal(One.DifferenceAt(core), oneBack.DifferenceAt(core));
            Assert.Equal(One.ColorAt(core), oneBack.ColorAt(core));
        }

        Assert.Equal((Two.ErrorBound, One.ErrorBound), (twoBack.ErrorBound, oneBack.ErrorBound));
        Assert.Equal(Two.CoreRequirementAt(0.4), twoBack.CoreRequirementAt(0.4));
        Assert.Equal(One.Requirement, oneBack.Requirement);
        Assert.Equal(One.MaskedRanges, oneBack.MaskedRanges);
        Assert.Equal(Weak.Requirement, ResponseJson.Read(Stream(Saved(Weak)), "response.json").Requirement);
    }

    [Fact]
    public void The_former_version_is_refused_with_what_to_do()
    {
        JsonNode saved = Saved(One);
        saved["version"] = 2;
        Assert.Equal(
            "r.json: $.version: version 2 is not known; allowed: 3. Compile the response again and save it with "
                + "this version.",
            Refused(saved));
    }

    /// <summary>Thicknesses that do not follow from one another, or that contradict the table, are refused with their
    /// place.</summary>
    [Theory]
    [InlineData("recommendedMm", 0.2, "$.requirement.recommendedMm: 0.2 mm is below the structural minimum of 0.9 mm.")]
    [InlineData("recommendedMm", 1.99, "$.requirement.recommendedMm: must be ")]
    [InlineData("recommendedMm", null, "$.requirement.recommendedMm: must be ")]
    [InlineData(
        "structuralMm", null,
        "$.requirement.recommendedMm: must be null, as follows from the other thicknesses, but is ")]
    [InlineData("structuralMm", 0.1, "$.requirement.recommendedMm: must be ", 1.8)]
    [InlineData("byColorMm", 0.35, "$.requirement.byColorMm: must be where one of the masked ranges begins.")]
    [InlineData("byColorUpToMm", 1.9, "$.requirement.reliableUpToMm: a thickness up to which a target is met is ")]
    [InlineData("reliableUpToMm", 0.31, "$.requirement.reliableUpToMm: a thickness up to which a target is met is ")]
    [InlineData("byColorMm", 0.1, "$.requirement.byColorMm: Thickness must be in [0.3, 2] mm but is 0.1 mm.")]
    [InlineData(
        "byColorMm", null,
        "$.requirement.reliableMm: a reliable thickness is not below the thickness by colour and needs one.")]
    [InlineData(
        "reliableMm", 0.31,
        "$.requirement.reliableMm: a reliable thickness is not below the thickness by colour and needs one.")]
    [InlineData("standardUncertaintyMm", -1.0, "$.requirement.standardUncertaintyMm: Thickness must be in [0, ")]
    [InlineData("share", 0.2, "$.requirement.share: Share must be in [0.5, 0.999] but is 0.2.")]
    [InlineData("zone", "", "$.requirement.zone: Name of the zone must not be empty.")]
    public void Thicknesses_that_contradict_each_other_are_refused(
        string key, object? value, string message, double strengthMm = 0.9)
    {
        JsonNode saved = Saved(strengthMm == 0.9 ? One : Response(1.8));
        saved["requirement"]![key] = JsonValue.Create(value);
        Assert.StartsWith("r.json: " + message, Refused(saved));
    }

    /// <summary>Where the criterion is met must agree with the table: neither more nor less.</summary>
    [Theory]
    [InlineData(true, "$.maskedRangesMm: contradicts the table, whose difference is ", 0.35, 2.0)]
    [InlineData(true, "$.maskedRangesMm: contradicts the table, whose difference is ", 1.9, 2.0)]
    [InlineData(false, "$.requirement.byColorMm: must be where one of the masked ranges begins.", 0.35, 2.0)]
    [InlineData(false, "$.maskedRangesMm: Number 1 must be in [0.9, 2] mm but is 0.8 mm.", 0.9, 0.8)]
    [InlineData(false, "$.maskedRangesMm: two numbers a range are needed but 1 are given.", 0.9)]
    public void Masked_ranges_that_contradict_the_table_are_refused(
        bool isFollowed, string message, params double[] ranges)
    {
        JsonNode saved = Saved(One);
        saved["maskedRangesMm"] = new JsonArray([.. ranges.Select(mm => (JsonNode)mm)]);
        JsonNode requirement = saved["requirement"]!;
        if (isFollowed)
        {
            requirement["byColorMm"] = ranges[0];
            double reliable = Math.Max(ranges[0], (double)requirement["reliableMm"]!);
            (requirement["reliableMm"], requirement["recommendedMm"]) = (reliable, Math.Max(0.9, reliable));
        }

        Assert.StartsWith("r.json: " + message, Refused(saved));
    }

    [Theory]
    [InlineData(CautionKind.StrengthNotAssessed)]
    [InlineData(CautionKind.ToothReduction)]
    [InlineData(CautionKind.StructuralMinimumGoverns)]
    public void A_caution_that_was_taken_out_is_missed(CautionKind kind)
    {
        ThicknessResponse governed = Response(1.8);
        JsonNode saved = Saved(governed);
        JsonArray cautions = saved["requirement"]!["cautions"]!.AsArray();
        cautions.Remove(cautions.Single(caution => (string)caution!["kind"]! == kind.ToString()));
        Assert.StartsWith("r.json: $.requirement.cautions: ", Refused(saved));
        Assert.Contains(kind.ToString(), Refused(saved));

        JsonNode none = Saved(One);
        none["requirement"]!["cautions"] = new JsonArray();
        Assert.Contains("belongs to these thicknesses but is missing", Refused(none));
    }

    [Fact]
    public void A_missing_strength_limit_stays_known()
    {
        JsonNode saved = Saved(Weak);
        JsonArray cautions = saved["requirement"]!["cautions"]!.AsArray();
        cautions.Remove(
            cautions.Single(caution => (string)caution!["kind"]! == nameof(CautionKind.StrengthLimitNotGiven)));
        Assert.Contains(nameof(CautionKind.StrengthLimitNotGiven), Refused(saved));
    }

    [Fact]
    public void Texts_of_cautions_are_not_trusted()
    {
        JsonNode saved = Saved(One);
        foreach (JsonNode? caution in saved["requirement"]!["cautions"]!.AsArray())
        {
            caution!["text"] = "All is well.";
        }

        Assert.Equal(One.Requirement, ResponseJson.Read(Stream(saved), "r.json").Requirement);
        saved["requirement"]!["cautions"]![0]!["kind"] = "AllIsWell";
        Assert.Equal("r.json: $.requirement.cautions[0].kind: 'AllIsWell' is not known.", Refused(saved));
        JsonNode empty = Saved(Response(1.8));
        JsonNode governs = empty["requirement"]!["cautions"]!.AsArray()
            .Single(caution => (string)caution!["kind"]! == nameof(CautionKind.StructuralMinimumGoverns))!;
        governs["value"] = null;
        Assert.EndsWith("a caution StructuralMinimumGoverns needs its subject or value.", Refused(empty));
    }

    [Fact]
    public void Two_layers_are_checked_likewise()
    {
        string RefusedTwo(Action<JsonNode> change)
        {
            JsonNode saved = Saved(Two);
            change(saved["requirement"]!);
            return Assert.Throws<ExchangeException>(() => ResponseJson.ReadTwoLayer(Stream(saved), "r.json")).Message;
        }

        Assert.Equal(
            "r.json: $.requirement.veneers[0].recommendedMm: 0.3 mm is below the structural minimum of 1.1 mm.",
            RefusedTwo(requirement => requirement["veneers"]![0]!["recommendedMm"] = 0.3));
        Assert.StartsWith(
            "r.json: $.requirement.veneers[3].byColorMm: 0.3 mm contradicts the table",
            RefusedTwo(requirement => requirement["veneers"]![3]!["byColorMm"] = 0.3));
        Assert.Equal(
            "r.json: $.requirement.veneers: 9 items are needed but 8 are given.",
            RefusedTwo(requirement => requirement["veneers"]!.AsArray().RemoveAt(8)));
        Assert.Contains("StrengthNotAssessed", RefusedTwo(requirement => requirement["cautions"] = new JsonArray()));
        Assert.StartsWith(
            "r.json: $.requirement.veneers[0].recommendedMm",
            RefusedTwo(requirement => requirement["structuralWallMm"] = null));
        Assert.StartsWith(
            "r.json: $: key 'rangeMm' is unknown",
            Assert.Throws<ExchangeException>(() => ResponseJson.ReadTwoLayer(Stream(Saved(One)), "r.json")).Message);
    }

    private static string Refused(JsonNode saved) =>
        Assert.Throws<ExchangeException>(() => ResponseJson.Read(Stream(saved), "r.json")).Message;

    private static ThicknessResponse Response(double? strengthMm)
    {
        Restoration crown = Crown(Brown, Zirconia, strengthMm);
        return ThicknessResponse.Compile(crown, crown.Zones[0]);
    }

    private static JsonNode Saved(ThicknessResponse response)
    {
        using MemoryStream stream = new();
        ResponseJson.Write(response, stream);
        return JsonNode.Parse(stream.ToArray())!;
    }

    private static JsonNode Saved(TwoLayerResponse response)
    {
        using MemoryStream stream = new();
        ResponseJson.Write(response, stream);
        return JsonNode.Parse(stream.ToArray())!;
    }

    private static MemoryStream Stream(JsonNode node) => new(System.Text.Encoding.UTF8.GetBytes(node.ToJsonString()));
}
