using System.Text.Json;
using System.Text.Json.Nodes;
using CeramicOptics.Decisions.Appearance;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Remedies;
using CeramicOptics.Exchange;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using Json.Schema;

namespace CeramicOptics.Tests.Unit;

public class ResultDocumentTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(
        File.ReadAllText(Repository.PathOf("docs", "schema", "result.schema.json")));

    private static readonly Report[] Results = [.. EveryAnswer.Results()];
    private static readonly Answer[] Answers = [.. Results.OfType<Answer>()];

    [Fact]
    public async Task Every_result_is_valid_and_comes_back_equal()
    {
        foreach (Report answer in Results)
        {
            string text = ResultJson.ToJson(answer);
            Assert.True(Schema.Evaluate(JsonNode.Parse(text)).IsValid, text);
            ResultDocument read = ResultDocument.Parse(text);
            Assert.Equal(text, read.ToJson());
            Assert.Equal(ResultDocument.Of(answer).ToJson(), read.ToJson());
            Assert.Equal((answer as Answer)?.Cautions ?? [], read.Cautions);
            using AsyncOnly stream = new();
            await ResultJson.WriteAsync(answer, stream);
            Assert.Equal(text, System.Text.Encoding.UTF8.GetString(stream.ToArray()));
        }

        // Every public type of result was among them.
        Assert.Equal(
            typeof(Report).Assembly.GetExportedTypes()
                .Where(type => !type.IsAbstract && typeof(Report).IsAssignableFrom(type))
                .Select(type => type.Name).Order(),
            Results.Select(answer => answer.GetType().Name).Distinct().Order());
    }

    [Fact]
    public void The_serializer_writes_the_same_alone_and_inside_other_objects()
    {
        foreach (Report answer in Results)
        {
            JsonNode expected = JsonNode.Parse(ResultJson.ToJson(answer))!;
            Assert.True(JsonNode.DeepEquals(
                expected, JsonNode.Parse(JsonSerializer.Serialize(answer, answer.GetType()))));
            string inside = JsonSerializer.Serialize(new Dictionary<string, Report> { ["answer"] = answer });
            Assert.True(JsonNode.DeepEquals(expected, JsonNode.Parse(inside)!["answer"]));
            Assert.Throws<NotSupportedException>(
                () => JsonSerializer.Deserialize(expected.ToJsonString(), answer.GetType()));
        }
    }

#if !SECOND_BUILD
    [Fact]
    public void What_the_schema_refuses_is_refused_with_its_place()
    {
        int refused = 0;
        foreach (Report answer in Results.DistinctBy(answer => answer.GetType()))
        {
            string text = ResultJson.ToJson(answer);
            int places = Places(JsonNode.Parse(text)!).Count();
            for (int i = 0; i < places; i += Math.Max(1, places / 10))
            {
                JsonNode damaged = JsonNode.Parse(text)!;
                (JsonObject parent, string key) = Places(damaged).ElementAt(i);
                foreach (JsonNode? wrong in (JsonNode?[])
                    [null, JsonValue.Create(-1), JsonValue.Create("x"), new JsonObject()])
                {
                    parent[key] = wrong;
                    if (!Schema.Evaluate(damaged).IsValid)
                    {
                        ExchangeException error = Assert.Throws<ExchangeException>(
                            () => ResultDocument.Parse(damaged.ToJsonString()));
                        Assert.StartsWith("text: $", error.Message, StringComparison.Ordinal);
                        refused++;
                    }
                }

                parent.Remove(key);
                if (!Schema.Evaluate(damaged).IsValid)
                {
                    Assert.Throws<ExchangeException>(() => ResultDocument.Parse(damaged.ToJsonString()));
                    refused++;
                }
            }
        }

        Assert.True(refused > 300, $"{refused}");
    }
#endif

    [Fact]
    public void No_answer_can_be_stripped_of_what_keeps_it_safe()
    {
        JsonNode Masking() => JsonNode.Parse(ResultJson.ToJson(Answers[0]))!;
        CautionKind[] byName =
        [
            CautionKind.StrengthNotAssessed, CautionKind.ToothReduction, CautionKind.StrengthLimitNotGiven,
            CautionKind.NotReliable, CautionKind.StructuralMinimumGoverns, CautionKind.DoesNotFit,
        ];
        foreach (Answer answer in Answers)
        {
            foreach (CautionKind kind in answer.Cautions.Select(caution => caution.Kind).Distinct())
            {
                JsonNode json = JsonNode.Parse(ResultJson.ToJson(answer))!;
                JsonArray cautions = json["cautions"]!.AsArray();
                foreach (JsonNode? caution in cautions.Where(item => (string)item!["kind"]! == $"{kind}").ToArray())
                {
                    cautions.Remove(caution);
                }

                // By name where the values call for it, by the number of cautions otherwise; whoever corrects the
                // number too still cannot take away what the values call for.
                Assert.Contains(
                    cautions.Count == 0 ? "$.cautions" : answer is MaskingResult or GradeRanking
                        && byName.Contains(kind) ? $"{kind}"
                        : "caution", Refused(json), StringComparison.Ordinal);
                json["cautionCount"] = cautions.Count;
                if (answer is MaskingResult or GradeRanking && byName.Contains(kind))
                {
                    Refused(json);
                }
            }
        }

        JsonNode older = Masking();
        older["version"] = 3;
        Assert.Contains("version 3 is not known", Refused(older), StringComparison.Ordinal);
        JsonNode unknown = Masking();
        unknown["cautions"]![0]!["kind"] = "Cheerful";
        Assert.Contains("'Cheerful' is not known", Refused(unknown), StringComparison.Ordinal);

        JsonNode forged = Masking();
        JsonNode zone = forged["zones"]!.AsArray().First(item => item!["structuralMm"] is not null)!;
        zone["minimum"]!["recommendedMm"] = (double)zone["structuralMm"]! - 0.01;
        Assert.Contains("is below the structural minimum", Refused(forged), StringComparison.Ordinal);

        Answer ranking = Answers.First(answer => ResultDocument.Of(answer).Kind == "match"
            && ResultDocument.Of(answer).Content.GetProperty("candidates").GetArrayLength() > 0);
        JsonNode thin = JsonNode.Parse(ResultJson.ToJson(ranking))!;
        JsonNode made = thin["candidates"]![0]!["zones"]![0]!;
        double wallMm = (double)made["atWall"]!["wallMm"]!;
        made["structuralMm"] = wallMm;
        ResultDocument.Parse(thin.ToJsonString());
        made["atWall"]!["wallMm"] = wallMm / 2;
        Assert.Contains("is below the structural minimum", Refused(thin), StringComparison.Ordinal);

        JsonNode sideways = JsonNode.Parse(ResultJson.ToJson(Answers.OfType<SpotMaskingResult>().First()))!;
        JsonArray shown = sideways["cautions"]!.AsArray();
        shown.Remove(shown.Single(item => (string)item!["kind"]! == nameof(CautionKind.SidewaysLight)));
        Assert.Contains(nameof(CautionKind.SidewaysLight), Refused(sideways), StringComparison.Ordinal);

        JsonNode remedies = JsonNode.Parse(ResultJson.ToJson(Answers.First(answer =>
            answer is RemedyResult { Remedies: var all } && all.Any(item => item.Kind == RemedyKind.Thickness))))!;
        JsonNode remedy = remedies["remedies"]!.AsArray().First(item => item!["wallMm"] is not null)!;
        double thickerMm = (double)remedy["wallMm"]!;
        JsonNode changed = remedy["zones"]!.AsArray()
            .Single(item => (string)item!["zone"]! == (string)remedy["zone"]!)!;
        changed["structuralMm"] = thickerMm;
        ResultDocument.Parse(remedies.ToJsonString());
        remedy["wallMm"] = thickerMm / 2;
        Assert.Contains("is below the structural minimum", Refused(remedies), StringComparison.Ordinal);
        remedy["zone"] = "elsewhere";
        Assert.Contains("must be one of the zones", Refused(remedies), StringComparison.Ordinal);
    }

    /// <summary>Thicknesses that do not follow from one another are refused, whichever was changed.</summary>
    [Theory]
    [InlineData("reliableMm", 0.01, "is not below the thickness by colour")]
    [InlineData("structuralMm", 0.01, "must be that of the zone")]
    [InlineData("recommendedMm", 9.0, "must follow from the other thicknesses")]
    [InlineData("recommendedMm", null, "must follow from the other thicknesses")]
    [InlineData("reliableUpToMm", 0.01, "thicknesses must follow one another")]
    public void Thicknesses_of_a_minimum_must_agree(string name, double? value, string message)
    {
        JsonNode forged = JsonNode.Parse(ResultJson.ToJson(MaskingThickness.Find(new Restoration(
            [new Zone("body", CoarseData.Dark, 1.5, MaskingReference.SelfBacked)],
            CoarseData.Dense("made up", 1, 6) with { Strength = StrengthLimit.Of(0.4) },
            new Layer(CoarseData.Film, 0.05), ColorCriterion.AcceptabilityThreshold))))!;
        JsonNode minimum = forged["zones"]![0]!["minimum"]!;
        Assert.Equal(0.4, (double)minimum["structuralMm"]!);
        Assert.True((double)minimum["recommendedMm"]! > 0.4);
        minimum[name] = value;
        Assert.Contains(message, Refused(forged), StringComparison.Ordinal);
    }

    private static string Refused(JsonNode json) =>
        Assert.Throws<ExchangeException>(() => ResultDocument.Parse(json.ToJsonString())).Message;

    private static IEnumerable<(JsonObject Parent, string Key)> Places(JsonNode node) => node switch
    {
        JsonObject item => item.SelectMany(property =>
            (IEnumerable<(JsonObject, string)>)[(item, property.Key),
                .. property.Value is null ? [] : Places(property.Value)]),
        JsonArray list => list.OfType<JsonNode>().SelectMany(Places),
        _ => [],
    };

    /// <summary>Like the body of an ASP.NET response: synchronous writing is an error.</summary>
    private sealed class AsyncOnly : Stream
    {
        private readonly MemoryStream _bytes = new();

        public override bool CanRead => false;

        public override bool CanSeek => false;

        public override bool CanWrite => true;

        public override long Length => throw new NotSupportedException();

        public override long Position
        {
            get => throw new NotSupportedException();
            set => throw new NotSupportedException();
        }

        public byte[] ToArray() => _bytes.ToArray();

        public override void Flush() => throw new InvalidOperationException();

        public override int Read(byte[] buffer, int offset, int count) => throw new NotSupportedException();

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new InvalidOperationException();

        public override Task WriteAsync(byte[] buffer, int offset, int count, CancellationToken cancellationToken) =>
            _bytes.WriteAsync(buffer, offset, count, cancellationToken);

        public override ValueTask WriteAsync(
            ReadOnlyMemory<byte> buffer, CancellationToken cancellationToken = default) =>
            _bytes.WriteAsync(buffer, cancellationToken);
    }
}
