using System.Text.Json.Nodes;
using CeramicOptics.Exchange;
using CeramicOptics.Selection;
using Json.Schema;
using static CeramicOptics.Tests.DemoData;

namespace CeramicOptics.Tests.Unit;

public class ResultJsonTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(Repository.PathOf("docs", "schema", "result.schema.json")));

    [Fact]
    public void Every_kind_of_result_follows_the_schema()
    {
        MaskingReference target = MaskingReference.Target("neighbour", new Lab(74, 1, 14), Colorimeter.D65TwoDegree);
        Zone masked = new("body", BrownTooth, 1.0, MaskingReference.SelfBacked), matched = new("body", BrownTooth, 1.0, target);
        RestorationCase masking = new([masked], ColorCriterion.AcceptableMatch) { LayersBelow = [Cement] }, matching = masking.WithZones([matched]) with { LayersBelow = [] };
        MatchOptions options = new([GlassCeramic(2), Zirconia(3)], [Cement]) { Veneers = [Materials["Meadow glass-ceramic, grade 1"]] };
        LayerStack stack = Bonded(Zirconia(2), 1, BrownTooth);
        InputUncertainty inputs = new([0.05, 0.02]);
        MatchRanking ranking = Match.Rank(matching, options);
        Material liner = new("liner", AbsorptionSpectrum.Uniform(stack.Grid, 0.05), ScatteringSpectrum.Uniform(stack.Grid, 60), 1.53);
        Material glaze = new("glaze", AbsorptionSpectrum.Uniform(stack.Grid, 0.01), ScatteringSpectrum.Uniform(stack.Grid, 0.2), 1.5);
        Pigment chalk = new("chalk", AbsorptionSpectrum.Uniform(stack.Grid, 0.1), ScatteringSpectrum.Uniform(stack.Grid, 60));

        JsonNode match = Valid(stream => ResultJson.Write(ranking, stream));
        Assert.Equal(ranking.Best!.WorstDifference, (double)match["candidates"]![0]!["worstDifference"]!);
        Assert.Equal(ranking.Best.Explanation, (string)match["candidates"]![0]!["explanation"]!);
        Assert.Equal("grade choice", (string)Valid(stream => ResultJson.Write(GradeChoice.Rank(options.Ceramics, masking), stream))["kind"]!);
        JsonNode none = Valid(stream => ResultJson.Write(
            MaskingThickness.Find(stack.WithSubstrate(MetalPost), 0, (0.3, 0.4), MaskingReference.SelfBacked, ColorCriterion.ImperceptibleMatch), stream));
        Assert.Equal("not masked", (string)none["outcome"]!);
        Assert.Null(none["recommendedMinimumMm"]);
        StainRecipe recipe = Stain.Find([new StainPlace("body", stack, 0, target)], new StainLayer(glaze, 0.05), [chalk], ColorCriterion.ImperceptibleMatch);
        Assert.Equal(recipe.WorstWith, (double)Valid(stream => ResultJson.Write(recipe, stream))["with"]![0]!["difference"]!);
        UncertaintyResult uncertainty = PredictionUncertainty.Sample(stack, 0, target, ColorCriterion.AcceptableMatch, inputs, samples: 256);
        Assert.Equal(uncertainty.Acceptable.Value, (double)Valid(stream => ResultJson.Write(uncertainty, stream))["acceptable"]!["probability"]!);
        ToleranceResult tolerance = ToleranceThickness.Find(stack, 0, (0.5, 1.5), MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch, inputs, samples: 256);
        Assert.Equal(tolerance.ToString(), (string)Valid(stream => ResultJson.Write(tolerance, stream))["sentence"]!);
        Assert.Equal("blocking liner", (string)Valid(stream => ResultJson.Write(BlockingLiner.Find(masking, GlassCeramic(1), liner), stream))["kind"]!);
        Realism realism = ReachableColors.Find(matching, matched, options);
        Assert.Equal(realism.HullCorners.Count, Valid(stream => ResultJson.Write(realism, stream))["corners"]!.AsArray().Count);
    }

    [Fact]
    public void The_schema_refuses_what_is_no_result()
    {
        JsonNode result = Valid(stream => ResultJson.Write(
            ToleranceThickness.Find(Bonded(Zirconia(2), 1, BrownTooth), 0, (0.5, 1.5), MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch, new InputUncertainty([0.05, 0.02]), samples: 256), stream));
        result["kind"] = "guess";
        Assert.False(Schema.Evaluate(result).IsValid);
        result["kind"] = "tolerance";
        result["share"] = 95;
        Assert.False(Schema.Evaluate(result).IsValid);
    }

    private static JsonNode Valid(Action<Stream> write)
    {
        using MemoryStream stream = new();
        write(stream);
        JsonNode node = JsonNode.Parse(stream.ToArray())!;
        Assert.True(Schema.Evaluate(node).IsValid, node.ToJsonString());
        return node;
    }
}
