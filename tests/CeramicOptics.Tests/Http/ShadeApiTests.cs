using System.Diagnostics;
using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using CeramicOptics.Examples.ShadeApi;
using CeramicOptics.Exchange;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Xunit.Abstractions;

namespace CeramicOptics.Tests.Http;

/// <summary>The example service, asked over HTTP on the loopback.</summary>
public sealed class ShadeApiTests(ITestOutputHelper output) : IAsyncLifetime, IDisposable
{
    private const string Crown =
        """{"targetL":74,"targetA":3,"targetB":16,"stumpReflectance":0.3,"availableMm":1.2,"structuralMm":0.8}""";

    private readonly WebApplication _app = Service.Build(["--urls", "http://127.0.0.1:0", "--Logging:LogLevel:Default=None"]);
    private readonly HttpClient _client = new();

    public async Task InitializeAsync()
    {
        await _app.StartAsync();
        _client.BaseAddress = new Uri(_app.Urls.Single());
    }

    public async Task DisposeAsync() => await _app.DisposeAsync();

    public void Dispose() => _client.Dispose();

    [Theory]
    [InlineData("/ranking", "match")]
    [InlineData("/stain", "stain")]
    public async Task Answers_are_results_with_cautions(string path, string kind)
    {
        using HttpResponseMessage response = await Post(path, Crown);
        Assert.Equal((HttpStatusCode.OK, "application/json"), (response.StatusCode, response.Content.Headers.ContentType!.MediaType));
        ResultDocument answer = ResultDocument.Parse(await response.Content.ReadAsStringAsync());
        Assert.Equal(kind, answer.Kind);
        Assert.NotEmpty(answer.Cautions);
    }

    [Fact]
    public async Task A_map_has_a_value_for_each_point_and_the_cautions()
    {
        using HttpResponseMessage response = await Post("/map", $$"""{"crown":{{Crown}},"thicknessesMm":[0.7,1.0,1.2,20]}""");
        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        JsonNode map = JsonNode.Parse(await response.Content.ReadAsStringAsync())!;
        Assert.Equal((4, 4), (map["differences"]!.AsArray().Count, map["swatches"]!.AsArray().Count));
        Assert.All((string[])["differences", "swatches"], name => Assert.Equal(
            [true, true, true, false], map[name]!.AsArray().Select(value => value is not null)));
        Assert.Equal("wall suggestion", ResultDocument.Parse(map["walls"]!.ToJsonString()).Kind);
    }

    [Theory]
    [InlineData("targetL", 140, "impossible color")]
    [InlineData("targetA", 127, "impossible color")]
    [InlineData("stumpReflectance", 30, "impossible stump")]
    [InlineData("availableMm", -1, "impossible thickness")]
    [InlineData("availableMm", 0.6, "too little room")]
    public async Task A_mistake_is_a_problem_with_its_reason(string name, double value, string reason)
    {
        JsonNode question = JsonNode.Parse(Crown)!;
        question[name] = value;
        foreach (string path in (string[])["/ranking", "/stain", "/ranking/progress"])
        {
            using HttpResponseMessage response = await Post(path, question.ToJsonString());
            Assert.Equal((HttpStatusCode.UnprocessableEntity, "application/problem+json"),
                (response.StatusCode, response.Content.Headers.ContentType!.MediaType));
            JsonNode problem = JsonNode.Parse(await response.Content.ReadAsStringAsync())!;
            Assert.Equal((reason, 422), ((string)problem["title"]!, (int)problem["status"]!));
        }
    }

    [Theory]
    [InlineData("{")]
    [InlineData("""{"targetL":74}""")]
    public async Task What_cannot_be_read_is_400(string text)
    {
        using HttpResponseMessage response = await Post("/ranking", text);
        Assert.Equal(HttpStatusCode.BadRequest, response.StatusCode);
    }

    [Fact]
    public async Task A_map_without_a_crown_is_400()
    {
        using HttpResponseMessage response = await Post("/map", """{"crown":null,"thicknessesMm":[1]}""");
        Assert.Equal(HttpStatusCode.BadRequest, response.StatusCode);
    }

    [Fact]
    public async Task Progress_grows_to_one_and_ends_with_the_ranking()
    {
        using HttpResponseMessage response = await Post("/ranking/progress", Crown);
        Assert.Equal("text/event-stream", response.Content.Headers.ContentType!.MediaType);
        string[] events = (await response.Content.ReadAsStringAsync()).Split("\n\n", StringSplitOptions.RemoveEmptyEntries);
        double[] fractions = [.. events[..^1].Select(item => double.Parse(item["data: ".Length..], System.Globalization.CultureInfo.InvariantCulture))];
        Assert.Equal(fractions.Order(), fractions);
        Assert.Equal(1, fractions[^1]);
        Assert.Equal("match", ResultDocument.Parse(events[^1].Replace("data: ", "", StringComparison.Ordinal)).Kind);
    }

    [Fact]
    public async Task Every_route_is_described()
    {
        JsonNode description = JsonNode.Parse(await _client.GetStringAsync("/openapi.json"))!;
        Assert.Equal(
            _app.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
                .Select(endpoint => endpoint.RoutePattern.RawText).Order(),
            description["paths"]!.AsObject().Select(path => path.Key).Order());
    }

    /// <summary>CERAMICOPTICS_LOAD: for so many seconds, 200 requests at a time; 1 second unless told.</summary>
    [Fact]
    public async Task Two_hundred_at_a_time_get_their_answers()
    {
        double seconds = double.Parse(Environment.GetEnvironmentVariable("CERAMICOPTICS_LOAD") ?? "1", System.Globalization.CultureInfo.InvariantCulture);
        Stopwatch clock = Stopwatch.StartNew();
        double[][] taken = await Task.WhenAll(Enumerable.Range(0, 200).Select(async _ =>
        {
            List<double> mine = [];
            do
            {
                double start = clock.Elapsed.TotalMilliseconds;
                using HttpResponseMessage response = await Post("/ranking", Crown);
                Assert.Equal(HttpStatusCode.OK, response.StatusCode);
                mine.Add(clock.Elapsed.TotalMilliseconds - start);
            }
            while (clock.Elapsed.TotalSeconds < seconds);
            return mine.ToArray();
        }));
        double[] all = [.. taken.SelectMany(item => item).Order()];
        output.WriteLine($"{all.Length} requests, p50 {all[all.Length / 2]:0} ms, p99 {all[all.Length * 99 / 100]:0} ms");
        Assert.True(all.Length >= 200);
    }

    private Task<HttpResponseMessage> Post(string path, string json) =>
        _client.PostAsync(path, new StringContent(json, Encoding.UTF8, "application/json"));
}
