using System.Reflection;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using CeramicOptics.Characterization;
using CeramicOptics.Characterization.Photographs;
using CeramicOptics.Decisions.Appearance;
using CeramicOptics.Decisions.Delivered;
using CeramicOptics.Decisions.Discs;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Exchange;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using Json.Schema;

namespace CeramicOptics.Tests.Unit;

/// <summary>Results that decide nothing about a restoration, and maps, as JSON and back.</summary>
public class ReportJsonTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(
        File.ReadAllText(Repository.PathOf("docs", "schema", "result.schema.json")));

    private static readonly Report[] Reports =
        [.. EveryAnswer.Results().Where(result => result is not Answer
            || result is AppearanceResult or StackDifference or CorrectedPrediction or SpreadField)];

    /// <summary>
    /// Every type that a question returns, or that holds cautions or findings, has JSON or stands in the table of
    /// docs/results-json.md with the reason.
    /// </summary>
    [Fact]
    public void Every_public_result_has_json_or_a_reason()
    {
        const BindingFlags Declared =
            BindingFlags.Public | BindingFlags.Static | BindingFlags.Instance | BindingFlags.DeclaredOnly;
        Type[] exported = typeof(Report).Assembly.GetExportedTypes();
        IEnumerable<Type> answered = exported.SelectMany(type => type.GetMethods(Declared))
            .Where(method => Regex.IsMatch(method.Name, "^(Find|Compile|PredictionFor$)"))
            .Select(method => method.ReturnType.IsGenericType
                ? method.ReturnType.GetGenericArguments()[0]
                : method.ReturnType);
        IEnumerable<Type> cautious = exported.Where(type =>
            type.GetProperty("Cautions") is not null || type.GetProperty("Findings") is not null);
        string[] without = [.. answered.Concat(cautious).Distinct()
            .Where(type => type.Assembly == typeof(Report).Assembly && !typeof(Report).IsAssignableFrom(type))
            .Select(type => type.Name).Order(StringComparer.Ordinal)];
        string[][] rows = [.. File.ReadAllLines(Repository.PathOf("docs", "results-json.md"))
            .SkipWhile(line => !line.StartsWith("| without JSON", StringComparison.Ordinal)).Skip(2)
            .TakeWhile(line => line.StartsWith('|')).Select(line => line.Split('|'))];
        Assert.Equal(
            without, rows.Select(row => row[1].Trim(' ', '`')).Order(StringComparer.Ordinal));
        Assert.All(rows, row => Assert.True(row[2].Trim().Length > 20, row[1]));
    }

    [Fact]
    public void No_report_can_be_stripped_of_cautions_or_findings()
    {
        int stripped = 0;
        foreach (Report result in Reports)
        {
            string text = ResultJson.ToJson(result);
            foreach (string what in (string[])["caution", "finding"])
            {
                int count = (int?)JsonNode.Parse(text)![$"{what}Count"] ?? 0;
                for (int i = 0; i < count; i++)
                {
                    JsonNode json = JsonNode.Parse(text)!;
                    json[$"{what}s"]!.AsArray().RemoveAt(i);
                    Assert.Contains($"$.{what}s", Refused(json), StringComparison.Ordinal);
                    stripped++;
                }
            }
        }

        Assert.True(stripped > 10, $"{stripped}");
    }

    /// <summary>Whoever corrects the number too still cannot take away what the values call for.</summary>
    [Fact]
    public void What_values_call_for_is_missed_by_name()
    {
        Missed<AppearanceResult>("caution", nameof(CautionKind.UncertaintyIncomplete));
        Missed<StackDifference>("caution", nameof(CautionKind.UncertaintyIncomplete));
        Missed<SpreadField>("caution", nameof(CautionKind.SidewaysLight));
        Missed<SpreadField>("caution", nameof(CautionKind.StrengthNotAssessed));
        Missed<CorrectedPrediction>("caution", nameof(CautionKind.StrengthNotAssessed));
        Missed<CorrectedPrediction>("caution", nameof(CautionKind.ToothReduction));
        Missed<PhotographResult>("finding", nameof(PhotographFindingKind.ClippedChannel));
        Missed<CorrectionResult>("finding", nameof(CorrectionFindingKind.FewPieces));
        Missed<CharacterizationResult>("finding", nameof(FindingKind.TooOpaque), "not determined");
        Missed<PigmentResult>("finding", nameof(FindingKind.Undetermined), "not determined");
        Missed<SurfaceFitResult>("finding", nameof(FindingKind.TooFewReadings), "Undetermined");
    }

    [Fact]
    public void Values_that_do_not_follow_are_refused()
    {
        Forged<DriftResult>("must say whether the statistic", json => json["limit"] = 1e9);
        Forged<DriftResult>("number of alarms", json => json["alarmCount"] = 0);
        Forged<AgreementGroup>("limits need 3 pieces", json => json["pieces"] = 2);
        Forged<DiscPlan>("must follow from its parts", json => json["fromOthers"] = 100);
        Forged<PhotographResult>("must be one of the methods", json => json["method"] = "Polynomial22");
        Forged<CharacterizationResult>("every wavelength", json => json["isComplete"] = false);
        Forged<CharacterizationResult>(
            "for what is not determined", json => json["constants"]![0]!["isDetermined"] = false);
        Forged<SpreadField>("contradicts a difference", json => json["zones"]![0]!["criterion"]!["limit"] = 0);
    }

    [Fact]
    public void Words_and_values_are_those_of_the_result()
    {
        foreach (Report result in Reports)
        {
            JsonNode json = JsonNode.Parse(ResultJson.ToJson(result))!;
            Assert.Equal(result.ToString(), (string?)json["sentence"]);
        }

        AppearanceResult look = Reports.OfType<AppearanceResult>().First();
        JsonNode seen = JsonNode.Parse(ResultJson.ToJson(look))!;
        Assert.Equal(look.Opalescence.Interval95.High, (double)seen["opalescence"]!["interval95"]![1]!);
        Assert.Equal(look.Transmittance[2], (double)seen["transmittance"]![2]!);
        CharacterizationResult found = Reports.OfType<CharacterizationResult>().First(it => it.IsComplete);
        JsonNode constants = JsonNode.Parse(ResultJson.ToJson(found))!["constants"]!;
        Assert.Equal(found.ToMaterial().Scattering[1], (double)constants[1]!["scatteringPerMm"]!);
        Assert.Equal(
            found.ToMaterial().Uncertainty!.AbsorptionPerMm[1], (double)constants[1]!["absorptionUncertaintyPerMm"]!);
        RecalibrationResult known = Reports.OfType<RecalibrationResult>().First();
        Assert.Equal(known.ToString(), known.Material.ToString());
        Assert.Equal(
            known.ToString(),
            known.Material.Resample(known.Material.Grid, InterpolationMethod.MonotoneCubic).ToString());
    }

    [Fact]
    public void Maps_come_back_with_every_point()
    {
        Restoration crown = CoarseCrown(StrengthLimit.Of(0.6));
        ThicknessMap map = new(crown.Zones.Select(zone => ThicknessResponse.Compile(crown, zone)));
        double[] mm = [0.1, 0.5, 0.9, 1.7, 2.9, double.NaN, 50];
        byte[] zones = [0, 1, 0, 1, 0, 1, 0];
        JsonNode json = Written(stream => ResultJson.Write(map, mm, stream, zones));
        PointStatus[] statuses = new PointStatus[mm.Length];
        double[] differences = new double[mm.Length];
        Lab[] colors = new Lab[mm.Length];
        map.Statuses(mm, statuses, zones);
        map.Differences(mm, differences, zones);
        map.Colors(mm, colors, zones);
        for (int i = 0; i < mm.Length; i++)
        {
            bool isKnown = !double.IsNaN(differences[i]);
            Assert.Equal(double.IsNaN(mm[i]) ? null : mm[i], (double?)json["thicknessesMm"]![i]);
            Assert.Equal(isKnown ? (float)differences[i] : null, (float?)json["differences"]![i]);
            Assert.Equal(isKnown ? (float)colors[i].B : null, (float?)json["colors"]![(3 * i) + 2]);
            Assert.Equal(statuses[i] == PointStatus.NoData, (string)json["statuses"]![i]! == "no data");
        }

        Assert.Contains(statuses, status => status == PointStatus.MaskedReliably);
        Refuse(json, "masked reliably' contradicts", it => it["statuses"]![1] = "masked reliably");
        Refuse(json, "structural minimum", it => it["zones"]![0]!["structuralWallMm"] = 5);
        Refuse(json, "needs 7 items", it => it["differences"]!.AsArray().RemoveAt(0));
        Refuse(json, "does not belong to no thickness", it => it["statuses"]![5] = "shows");
        Refuse(json, "there are only 2", it => it["zoneOfPoint"]![0] = 2);
        Refuse(json, "EachPointAlone", it => Without(it, "caution", "EachPointAlone"));
        Assert.Throws<ArgumentException>(() => ResultJson.Write(map, new double[400_001], Stream.Null,
            new byte[400_001]));
        Assert.Throws<ArgumentOutOfRangeException>(
            () => ResultJson.Write(map, [double.PositiveInfinity], Stream.Null, [0]));
    }

    [Fact]
    public void Maps_over_two_layers_come_back()
    {
        Restoration crown = CoarseCrown(StrengthLimit.Of(0.6, StrengthScope.CoreAndVeneer)) with
        {
            Veneer = Veneer.OfThickness(CoarseData.Film, 0.3),
        };
        TwoLayerMap map = new([TwoLayerResponse.Compile(crown, crown.Zones[0], new(0.1, 0.6), new(0.2, 2.5))]);
        double[] veneer = [0.1, 0.2, 0.6, double.NaN, 0.05], core = [0.2, 1.5, 2.5, 1, 1];
        JsonNode json = Written(stream => ResultJson.Write(map, veneer, core, stream));
        Assert.Equal(2.5, (double)json["thicknessesMm"]![2]!);
        Assert.Equal(0.6, (double)json["veneerMm"]![2]!);
        Assert.Equal("no data", (string)json["statuses"]![3]!);
        Assert.Equal("below range", (string)json["statuses"]![4]!);
        Refuse(json, "needs 5 items", it => it["veneerMm"]!.AsArray().RemoveAt(0));
    }

    /// <summary>The largest map that is written is one that is read.</summary>
    [Fact]
    public void The_largest_map_fits_into_a_file_that_is_read()
    {
        Restoration crown = CoarseCrown(StrengthLimit.Of(0.6));
        ThicknessMap map = new(crown.Zones.Select(zone => ThicknessResponse.Compile(crown, zone)));
        double[] mm = [.. Enumerable.Range(0, 4000).Select(i => 0.3 + (2 * i / 4001.0))];
        using MemoryStream stream = new();
        ResultJson.Write(map, mm, stream, [.. mm.Select((_, i) => (byte)(i % 2))]);
        Assert.InRange(stream.Length / 4000.0, 20, 64.0 * 1024 * 1024 / 400_000);
        stream.Position = 0;
        Assert.Equal("map", ResultDocument.Read(stream, "crown").Kind);
    }

    private static Restoration CoarseCrown(StrengthLimit strength) => new(
        [new Zone("cervical", CoarseData.Dark, 0.8, MaskingReference.SelfBacked),
            new Zone("body", CoarseData.Good, 1.3, MaskingReference.SelfBacked)],
        CoarseData.Dense("family", 1, 2) with { Strength = strength }, CouplingMedium.Water,
        ColorCriterion.AcceptabilityThreshold);

    private static JsonNode Written(Action<Stream> write)
    {
        using MemoryStream stream = new();
        write(stream);
        string text = System.Text.Encoding.UTF8.GetString(stream.ToArray());
        JsonNode json = JsonNode.Parse(text)!;
        Assert.True(Schema.Evaluate(json).IsValid, text);
        Assert.Equal(text, ResultDocument.Parse(text).ToJson());
        return json;
    }

    private static void Refuse(JsonNode json, string said, Action<JsonNode> change)
    {
        JsonNode changed = json.DeepClone();
        change(changed);
        Assert.Contains(said, Refused(changed), StringComparison.Ordinal);
    }

    private static void Missed<T>(string what, string kind, string? said = null)
        where T : Report
    {
        JsonNode json = Reports.OfType<T>().Select(result => JsonNode.Parse(ResultJson.ToJson(result))!)
            .First(json => json[$"{what}s"]!.AsArray().Any(item => (string)item!["kind"]! == kind));
        Without(json, what, kind);
        Assert.Contains(said ?? kind, Refused(json), StringComparison.Ordinal);
    }

    private static void Without(JsonNode json, string what, string kind)
    {
        JsonArray all = json[$"{what}s"]!.AsArray();
        foreach (JsonNode? item in all.Where(item => (string)item!["kind"]! == kind).ToArray())
        {
            all.Remove(item);
        }

        json[$"{what}Count"] = all.Count;
    }

    private static void Forged<T>(string said, Action<JsonNode> change)
        where T : Report
    {
        // The first of which it is untrue.
        string[] refusals = [.. Reports.OfType<T>().Select(result =>
        {
            JsonNode json = JsonNode.Parse(ResultJson.ToJson(result))!;
            change(json);
            return Record.Exception(() => ResultDocument.Parse(json.ToJsonString()))?.Message ?? "";
        })];
        Assert.Contains(refusals, refusal => refusal.Contains(said, StringComparison.Ordinal));
    }

    private static string Refused(JsonNode json) =>
        Assert.Throws<ExchangeException>(() => ResultDocument.Parse(json.ToJsonString())).Message;
}
