using System.Text.Json.Nodes;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Exchange;
using CeramicOptics.Restorations;
using Json.Schema;
using static CeramicOptics.Tests.DemoData;

namespace CeramicOptics.Tests.Unit;

public class ResultJsonTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(Repository.PathOf("docs", "schema", "result.schema.json")));

    private static readonly MaskingOptions Quick = new() { Samples = 256 };

    [Fact]
    public void Masking_follows_the_schema()
    {
        Restoration restoration = Crown(Zirconia(2), new Zone("cervical", BrownTooth, 0.8, MaskingReference.SelfBacked), new Zone("body", MetalPost, 1.2, MaskingReference.SelfBacked));
        MaskingResult result = MaskingThickness.Find(restoration, Quick);
        JsonNode json = Valid(stream => ResultJson.Write(result, stream));
        JsonNode cervical = json["zones"]![0]!;
        Assert.Equal("masking", (string)json["kind"]!);
        Assert.Equal(result.Zones[0].AtAvailable.Difference, (double)cervical["atAvailable"]!["difference"]!);
        Assert.Equal(result.Zones[0].Minimum.ByColorMm, (double?)cervical["minimum"]!["byColorMm"]);
        Assert.Equal(result.Zones[0].Minimum.ToString(), (string)cervical["minimum"]!["sentence"]!);

        // Without a strength limit nothing is recommended, and that is said.
        Assert.Null(cervical["minimum"]!["recommendedMm"]);
        JsonNode notGiven = Assert.Single(json["cautions"]!.AsArray(), caution => (string)caution!["kind"]! == nameof(CautionKind.StrengthLimitNotGiven))!;
        Assert.Equal(("Granary zirconia, grade 2", null), ((string)notGiven["subject"]!, (double?)notGiven["value"]));
        Assert.Contains("no thickness is recommended", (string)notGiven["text"]!, StringComparison.Ordinal);
    }

    [Fact]
    public void A_choice_of_grade_follows_the_schema()
    {
        Restoration restoration = Crown(Zirconia(2), new Zone("body", BrownTooth, 1.0, MaskingReference.SelfBacked) { Strength = StrengthLimit.Of(0.9) });
        GradeRanking ranking = GradeChoice.Find(restoration, [Zirconia(1), Zirconia(4)], Quick);
        JsonNode json = Valid(stream => ResultJson.Write(ranking, stream));
        Assert.Equal("grade choice", (string)json["kind"]!);
        Assert.Equal(
            ranking.Assessments.Select(assessment => (assessment.Ceramic.Grade, assessment.Translucency, assessment.Masking.IsReliable)),
            json["assessments"]!.AsArray().Select(item => ((int)item!["grade"]!, (double)item["translucencyTp00"]!, (bool)item["isReliable"]!)));
        Assert.Equal(0.9, (double)json["assessments"]![0]!["zones"]![0]!["minimum"]!["structuralMm"]!);
    }

    [Fact]
    public void Uncertainty_follows_the_schema()
    {
        Target target = Target.FromColor("neighbour", new Lab(74, 1, 14), Colorimeter.D65TwoDegree, MeasurementGeometry.DiffuseSpecularIncluded);
        UncertaintyResult result = PredictionUncertainty.Find(Crown(Zirconia(2), new Zone("body", BrownTooth, 1.0, target)), new SamplingOptions { Samples = 256 });
        JsonNode zone = Valid(stream => ResultJson.Write(result, stream))["zones"]![0]!;
        Assert.Equal(result.Zones[0].Acceptable.Value, (double)zone["acceptable"]!["probability"]!);
        Assert.Equal(
            result.Zones[0].Contributions.Select(part => part.Share), zone["contributions"]!.AsArray().Select(part => (double)part!["share"]!));
        Assert.Equal(
            result.Zones[0].Contributions.Select(part => part.Material), zone["contributions"]!.AsArray().Select(part => (string?)part!["material"]));
    }

    [Fact]
    public void The_schema_refuses_what_is_not_a_result()
    {
        MaskingResult result = MaskingThickness.Find(Crown(Zirconia(2), new Zone("body", BrownTooth, 1.0, MaskingReference.SelfBacked)), Quick);
        JsonNode json = Valid(stream => ResultJson.Write(result, stream));
        json["kind"] = "guess";
        Assert.False(Schema.Evaluate(json).IsValid);
        json["kind"] = "masking";
        Assert.True(Schema.Evaluate(json).IsValid);
        json["zones"]![0]!["minimum"]!["share"] = 95;
        Assert.False(Schema.Evaluate(json).IsValid);
    }

    private static Restoration Crown(Ceramic ceramic, params Zone[] zones) => new(zones, ceramic, Cement, ColorCriterion.AcceptabilityThreshold);

    private static JsonNode Valid(Action<Stream> write)
    {
        using MemoryStream stream = new();
        write(stream);
        JsonNode node = JsonNode.Parse(stream.ToArray())!;
        Assert.True(Schema.Evaluate(node).IsValid, node.ToJsonString());
        return node;
    }
}
