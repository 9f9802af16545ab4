using System.Text.Json.Nodes;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Exchange;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;

namespace CeramicOptics.Tests.Design;

/// <summary>Rows of docs/errors.md about written answers.</summary>
internal static class ResultBadInput
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 100);
    private static readonly Lazy<string> Written = new(() => ResultJson.ToJson(MaskingThickness.Find(Crown)));

    public static IReadOnlyDictionary<string, Action> Cases { get; } = new Dictionary<string, Action>
    {
        ["result: not JSON"] = () => ResultDocument.Parse("{"),
        ["result: another format"] = () => Changed(json => json["format"] = "something else"),
        ["result: an older version"] = () => Changed(json => json["version"] = 3),
        ["result: unknown kind"] = () => Changed(json => json["kind"] = "guess"),
        ["result: value missing"] = () => Changed(json => json.AsObject().Remove("worstDifference")),
        ["result: value of another type"] = () => Changed(json => json["isReliable"] = "yes"),
        ["result: unknown key"] = () => Changed(json => json["color"] = 1),
        ["result: negative thickness"] = () => Changed(json => json["zones"]![0]!["availableMm"] = -1),
        ["result: recommended below the structural minimum"] = () => Changed(
            json => json["zones"]![0]!["minimum"]!["recommendedMm"] = 0.5),
        ["result: recommended is not what follows"] = () => Changed(
            json => json["zones"]![0]!["minimum"]!["recommendedMm"] = 2.9),
        ["result: caution that the values call for is missing"] = () => Changed(
            json => Without(json, CautionKind.ToothReduction)),
        ["result: another caution is missing"] = () => Changed(json => Without(json, CautionKind.TwoFluxTheory)),
        ["result: no caution"] = () => Changed(json => json["cautions"] = new JsonArray()),
        ["map as JSON: too many points"] = () => ResultJson.Write(Map, new double[400_001], Stream.Null),
        ["map as JSON: infinite thickness"] = () => ResultJson.Write(Map, [double.PositiveInfinity], Stream.Null),
        ["result: finding that the values call for is missing"] = () => ResultDocument.Parse(
            """{"format":"CeramicOptics result","version":4,"kind":"surface terms","specularShare":null,"""
                + """ "specularShareUncertainty":null,"internalReflectance":null,"""
                + """ "internalReflectanceUncertainty":null,"chiSquareOfAll":0,"degreesOfFreedom":0,"""
                + """ "sentence":"","findingCount":0,"findings":[]}"""),
        ["result: caution about a ceramic of another result"] = () => Changed(
            json => json["cautions"]![0]!["ceramic"] = "other"),
        ["result: caution that names the wrong ceramic"] = () =>
        {
            JsonNode json = JsonNode.Parse(ResultJson.ToJson(GradeChoice.Find(Crown, [Crown.Core, Weak])))!;
            json["cautions"]!.AsArray().First(
                item => (string)item!["kind"]! == nameof(CautionKind.StructuralMinimumGoverns)
                    && (string)item["ceramic"]! == "weak")!["ceramic"] = "ceramic";
            ResultDocument.Parse(json.ToJsonString());
        },
        ["result: unknown caution"] = () => Changed(json => json["cautions"]![0]!["kind"] = "Cheerful"),
    };

    private static ThicknessMap Map => new([ThicknessResponse.Compile(Crown, Crown.Zones[0])]);

    private static Restoration Crown => new(
        [new Zone("body", Substrate.FromInternalReflectance("tooth", ReflectanceSpectrum.Uniform(Grid, 0.3), 1.54), 1.5,
            MaskingReference.SelfBacked)],
        new Ceramic("family", 1, new Material(
            "ceramic", TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(Grid, 0.1),
            ScatteringSpectrum.Uniform(Grid, 8), 1.5)) { Strength = StrengthLimit.Of(0.8) },
        CouplingMedium.Water, ColorCriterion.AcceptabilityThreshold);

    private static Ceramic Weak => new("weak", 1, new Material(
        "weak", TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(Grid, 0.1), ScatteringSpectrum.Uniform(Grid, 30),
        1.5)) { Strength = StrengthLimit.Of(1.4) };

    private static void Without(JsonNode json, CautionKind kind)
    {
        JsonArray cautions = json["cautions"]!.AsArray();
        cautions.Remove(cautions.First(item => (string)item!["kind"]! == $"{kind}"));
    }

    private static void Changed(Action<JsonNode> change)
    {
        JsonNode json = JsonNode.Parse(Written.Value)!;
        change(json);
        ResultDocument.Parse(json.ToJsonString());
    }
}
