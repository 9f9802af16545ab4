using System.Text.Json.Nodes;
using CeramicOptics.Decisions.Feasibility;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Decisions.Remedies;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Exchange;
using CeramicOptics.Restorations;
using Json.Schema;
using static CeramicOptics.Tests.DemoData;

namespace CeramicOptics.Tests.Unit;

public class ResultJsonTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(
        File.ReadAllText(Repository.PathOf("docs", "schema", "result.schema.json")));

    private static readonly MaskingOptions Quick = new() { Samples = 256 };

    [Fact]
    public void Masking_follows_the_schema()
    {
        Restoration restoration = Crown(
            Zirconia(2), new Zone("cervical", BrownTooth, 0.8, MaskingReference.SelfBacked),
            new Zone("body", MetalPost, 1.2, MaskingReference.SelfBacked));
        MaskingResult result = MaskingThickness.Find(restoration, Quick);
        JsonNode json = Valid(stream => ResultJson.Write(result, stream));
        JsonNode cervical = json["zones"]![0]!;
        Assert.Equal("masking", (string)json["kind"]!);
        Assert.Equal(result.Zones[0].AtAvailable.Difference, (double)cervical["atAvailable"]!["difference"]!);
        Assert.Equal(result.Zones[0].Minimum.ByColorMm, (double?)cervical["minimum"]!["byColorMm"]);
        Assert.Equal(result.Zones[0].Minimum.ToString(), (string)cervical["minimum"]!["sentence"]!);

        // Without a strength limit nothing is recommended, and that is said.
        Assert.Null(cervical["minimum"]!["recommendedMm"]);
        JsonNode notGiven = Assert.Single(
            json["cautions"]!.AsArray(),
            caution => (string)caution!["kind"]! == nameof(CautionKind.StrengthLimitNotGiven))!;
        Assert.Equal((restoration.Core.Material.Name, null),
            ((string)notGiven["subject"]!, (double?)notGiven["value"]));
        Assert.Contains("no thickness is suggested", (string)notGiven["text"]!, StringComparison.Ordinal);
    }

    [Fact]
    public void A_choice_of_grade_follows_the_schema()
    {
        Restoration restoration = Crown(
            Zirconia(2),
            new Zone("body", BrownTooth, 1.0, MaskingReference.SelfBacked) { Strength = StrengthLimit.Of(0.9) });
        GradeRanking ranking = GradeChoice.Find(restoration, [Zirconia(1), Zirconia(4)], Quick);
        JsonNode json = Valid(stream => ResultJson.Write(ranking, stream));
        Assert.Equal("grade choice", (string)json["kind"]!);
        Assert.Equal(
            ranking.Assessments.Select(assessment => (assessment.Ceramic.Grade, assessment.DiscTranslucency,
            assessment.Masking.IsReliable)),
            json["assessments"]!.AsArray()
                .Select(item => ((int)item!["grade"]!, (double)item["discTranslucencyTp00"]!,
                    (bool)item["isReliable"]!)));
        Assert.Equal(0.9, (double)json["assessments"]![0]!["zones"]![0]!["minimum"]!["structuralMm"]!);
    }

    private static Target Neighbour { get; } = Target.FromColor(
        "neighbour", new Lab(74, 1, 14), Colorimeter.D65TwoDegree, MeasurementGeometry.DiffuseSpecularIncluded);

    [Fact]
    public void Matches_and_feasibility_follow_the_schema()
    {
        Zone body = new("body", BrownTooth, 1.0, Neighbour) { ThinnestMm = 0.8 };
        MatchOptions options = new([GlassCeramic(2), Zirconia(3) with { Strength = StrengthLimit.Of(0.5) }])
        {
            Veneers = [Materials["Meadow glass-ceramic, grade 1"]],
            ThicknessStepMm = 0.1,
        };
        Restoration restoration = Crown(Zirconia(2), body);
        MatchRanking ranking = Match.Find(restoration, options);
        JsonNode json = Valid(stream => ResultJson.Write(ranking, stream));
        Assert.Equal(ranking.Candidates.Count, json["candidates"]!.AsArray().Count);
        JsonNode best = json["candidates"]![0]!;
        Assert.Equal(
            (ranking.Closest!.WorstDifference, ranking.Closest.Restoration.Core.Family),
            ((double)best["worstDifference"]!, (string)best["family"]!));
        Assert.Equal(ranking.Closest.Zones[0].AtWall.WallMm, (double)best["zones"]![0]!["atWall"]!["wallMm"]!);
        Assert.Contains(json["candidates"]!.AsArray(), candidate => candidate!["veneerShare"] is not null);
        Assert.Equal("Tern cement, translucent", (string)best["cement"]!);

        FeasibilityResult feasibility = ReachableColors.Find(restoration, body, options);
        JsonNode reach = Valid(stream => ResultJson.Write(feasibility, stream));
        Assert.Equal(feasibility.HullCorners.Count, reach["corners"]!.AsArray().Count);
        Assert.Equal(feasibility.Difference, (double?)reach["difference"]);
        MatchOptions strong = new([Zirconia(3) with { Strength = StrengthLimit.Of(2) }]);
        Assert.Null(
            Valid(stream => ResultJson.Write(ReachableColors.Find(restoration, body, strong), stream))["nearest"]);
        Assert.Equal(1, (int)Valid(stream => ResultJson.Write(Match.Find(restoration, strong), stream))["tooThin"]!);
    }

    [Fact]
    public void Stains_and_liners_follow_the_schema()
    {
        static Restoration Invented(Ceramic ceramic, Zone zone) =>
            new([zone], ceramic, InventedData.Cement, ColorCriterion.AcceptabilityThreshold);
        WavelengthGrid grid = InventedData.Grid;
        Pigment chalk = new(
            "chalk", InventedData.Glaze.Model, AbsorptionSpectrum.Uniform(grid, 0.1),
            ScatteringSpectrum.Uniform(grid, 60));
        StainRecipe recipe = Stain.Find(
            Invented(InventedData.Zirconia(2), new Zone("body", InventedData.BrownTooth, 1.0, Neighbour)),
            new StainOptions(new StainLayer(InventedData.Glaze, 0.05), [chalk]));
        JsonNode stain = Valid(stream => ResultJson.Write(recipe, stream));
        Assert.Equal(recipe.WorstWith, (double)stain["zones"]![0]!["with"]!["difference"]!);
        Assert.Equal(
            recipe.Parts.Select(part => part.Load), stain["parts"]!.AsArray().Select(part => (double)part!["load"]!));

        BlockingLinerResult lined = BlockingLiner.Find(
            Invented(InventedData.GlassCeramic(1),
            new Zone("body", InventedData.NearlyBlackTooth, 1.2, MaskingReference.SelfBacked)), InventedData.Liner);
        JsonNode liner = Valid(stream => ResultJson.Write(lined, stream));
        Assert.Equal(lined.ThicknessMm, (double?)liner["thicknessMm"]);
        Assert.Equal("liner", (string)liner["liner"]!);
    }

    [Fact]
    public void Uncertainty_follows_the_schema()
    {
        UncertaintyResult result = PredictionUncertainty.Find(
            Crown(Zirconia(2), new Zone("body", BrownTooth, 1.0, Neighbour)), new SamplingOptions { Samples = 256 });
        JsonNode zone = Valid(stream => ResultJson.Write(result, stream))["zones"]![0]!;
        Assert.Equal(result.Zones[0].Acceptable.Value, (double)zone["acceptable"]!["probability"]!);
        Assert.Equal(
            result.Zones[0].Contributions.Select(part => part.Share),
            zone["contributions"]!.AsArray().Select(part => (double)part!["share"]!));
        Assert.Equal(
            result.Zones[0].Contributions.Select(part => part.Material),
            zone["contributions"]!.AsArray().Select(part => (string?)part!["material"]));
    }

    [Fact]
    public void The_schema_refuses_what_is_not_a_result()
    {
        MaskingResult result = MaskingThickness.Find(
            Crown(Zirconia(2), new Zone("body", BrownTooth, 1.0, MaskingReference.SelfBacked)), Quick);
        JsonNode json = Valid(stream => ResultJson.Write(result, stream));
        json["kind"] = "guess";
        Assert.False(Schema.Evaluate(json).IsValid);
        json["kind"] = "masking";
        Assert.True(Schema.Evaluate(json).IsValid);
        json["zones"]![0]!["minimum"]!["share"] = 95;
        Assert.False(Schema.Evaluate(json).IsValid);
    }

    private static Restoration Crown(Ceramic ceramic, params Zone[] zones) =>
        new(zones, ceramic, Cement, ColorCriterion.AcceptabilityThreshold);

    private static JsonNode Valid(Action<Stream> write)
    {
        using MemoryStream stream = new();
        write(stream);
        JsonNode node = JsonNode.Parse(stream.ToArray())!;
        Assert.True(Schema.Evaluate(node).IsValid, node.ToJsonString());
        return node;
    }
}
