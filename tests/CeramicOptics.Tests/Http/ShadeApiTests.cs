using System.Diagnostics;
using System.Diagnostics.Metrics;
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

    private readonly WebApplication _app = Service.Build(["--urls", "http://127.0.0.1:0",
        "--Logging:LogLevel:Default=None"]);
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
        Assert.Equal((HttpStatusCode.OK, "application/json"),
            (response.StatusCode, response.Content.Headers.ContentType!.MediaType));
        ResultDocument answer = ResultDocument.Parse(await response.Content.ReadAsStringAsync());
        Assert.Equal(kind, answer.Kind);
        Assert.NotEmpty(answer.Cautions);
    }

    [Fact]
    public async Task A_map_has_a_value_for_each_point_and_the_cautions()
    {
        using HttpResponseMessage response = await Post(
            "/map", $$"""{"crown":{{Crown}},"thicknessesMm":[0.7,1.0,1.2,20]}""");
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
            if (reason != "impossible color" || name == "targetL")
            {
                Assert.Equal(value, (double)problem["value"]!);
                Assert.False(value >= (double)problem["minimum"]! && value <= (double)problem["maximum"]!);
                Assert.NotEqual("", (string)problem["quantity"]!);
            }
        }
    }

    [Fact]
    public async Task A_mistake_is_told_in_the_language_of_the_client()
    {
        using HttpRequestMessage request = new(HttpMethod.Post, "/ranking")
        {
            Content = new StringContent(Crown.Replace("1.2", "0.6"), Encoding.UTF8, "application/json"),
        };
        request.Headers.AcceptLanguage.ParseAdd("fr, de-CH; q=0.8, en; q=0.5");
        using HttpResponseMessage response = await _client.SendAsync(request);
        Assert.EndsWith(
            "ist 0,6 mm, die Festigkeit verlangt aber 0,80 mm",
            (string)JsonNode.Parse(await response.Content.ReadAsStringAsync())!["detail"]!, StringComparison.Ordinal);
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
        string[] events = (await response.Content.ReadAsStringAsync())
            .Split("\n\n", StringSplitOptions.RemoveEmptyEntries);
        double[] fractions = [.. events[..^1].Select(item =>
            double.Parse(item["data: ".Length..], System.Globalization.CultureInfo.InvariantCulture))];
        Assert.Equal(fractions.Order(), fractions);
        Assert.Equal(1, fractions[^1]);
        Assert.Equal("match", ResultDocument.Parse(events[^1].Replace("data: ", "", StringComparison.Ordinal)).Kind);
    }

    /// <summary>The first fraction is read while the calculation still runs; seen in at least one of some
    /// tries.</summary>
    [Fact]
    public async Task Progress_arrives_while_the_calculation_runs()
    {
        using RunningCalculations running = new();
        bool seen = false;
        for (int i = 0; i < 20 && !seen; i++)
        {
            using HttpRequestMessage request = new(HttpMethod.Post, "/ranking/progress")
            {
                Content = new StringContent(Crown, Encoding.UTF8, "application/json"),
            };
            using HttpResponseMessage response = await _client.SendAsync(request,
                HttpCompletionOption.ResponseHeadersRead);
            using StreamReader reader = new(await response.Content.ReadAsStreamAsync());
            string? first = await reader.ReadLineAsync();
            seen = running.Count > 0;
            Assert.StartsWith("data: 0.", first, StringComparison.Ordinal);
            await reader.ReadToEndAsync();
        }

        Assert.True(seen);
    }

    /// <summary>
    /// Sixteen maps of 100,000 points, about a quarter of a second each, run and wait when their clients leave; to the
    /// end they would keep the machine busy for many times one map. In the best of a few tries nothing is calculated
    /// any more within 100 ms, or as much longer as a loop takes at that time beside other work on the machine.
    /// </summary>
    [Fact]
    public async Task When_clients_leave_the_calculations_stop()
    {
        const double LimitMs = 100;
        const int MostTries = 20;
        using RunningCalculations running = new();
        string points = string.Join(",", Enumerable.Range(0, 100_000).Select(i => 0.5 + (i % 700 / 1000.0))
            .Select(mm => mm.ToString(System.Globalization.CultureInfo.InvariantCulture)));
        string question = $$"""{"crown":{{Crown}},"thicknessesMm":[{{points}}]}""";
        List<double> taken = [];
        using (HttpResponseMessage whole = await Post("/map", question))
        {
            Assert.Equal(HttpStatusCode.OK, whole.StatusCode);
        }

        while (taken.Count == 0 || (taken.Min() > LimitMs && taken.Count < MostTries))
        {
            double slowdown = ThreadClock.Slowdown();
            using CancellationTokenSource leaving = new();
            Task[] clients = [.. Enumerable.Range(0, 16).Select(async _ =>
            {
                using HttpResponseMessage response = await _client.PostAsync(
                    "/map", new StringContent(question, Encoding.UTF8, "application/json"), leaving.Token);
            })];
            Stopwatch waiting = Stopwatch.StartNew();
            while (running.Count == 0)
            {
                Assert.True(waiting.Elapsed.TotalSeconds < 30);
                await Task.Delay(1);
            }

            long left = Stopwatch.GetTimestamp();
            leaving.Cancel();
            await Assert.ThrowsAnyAsync<OperationCanceledException>(() => Task.WhenAll(clients));
            while (running.Count > 0 || Stopwatch.GetElapsedTime(running.LastChange).TotalMilliseconds < 300)
            {
                Assert.True(Stopwatch.GetElapsedTime(left).TotalSeconds < 30);
                await Task.Delay(10);
            }

            taken.Add(Stopwatch.GetElapsedTime(left, running.LastChange).TotalMilliseconds / slowdown);
        }

        output.WriteLine($"stopped after {string.Join(", ", taken.Select(ms => $"{ms:0}"))} ms");
        Assert.InRange(taken.Min(), 0, LimitMs);
    }

    [Fact]
    public async Task Every_route_is_described()
    {
        JsonNode description = JsonNode.Parse(await _client.GetStringAsync("/openapi.json"))!;
        Assert.Equal(
            _app.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
                .Select(endpoint => endpoint.RoutePattern.RawText).Order(),
            description["paths"]!.AsObject().Select(path => path.Key).Order());
        using HttpResponseMessage answer = await Post("/ranking", Crown);
        Assert.Equal(
            (int)JsonNode.Parse(await answer.Content.ReadAsStringAsync())!["version"]!,
            (int)description["components"]!["schemas"]!["Result"]!["properties"]!["version"]!["const"]!);
    }

    /// <summary>CERAMICOPTICS_LOAD: for so many seconds, 200 requests at a time; 1 second unless told.</summary>
    [Fact]
    public async Task Two_hundred_at_a_time_get_their_answers()
    {
        double seconds = double.Parse(Environment.GetEnvironmentVariable("CERAMICOPTICS_LOAD") ?? "1",
            System.Globalization.CultureInfo.InvariantCulture);
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
        output.WriteLine($"{all.Length} requests, p50 {all[all.Length / 2]:0} ms, "
            + $"p99 {all[all.Length * 99 / 100]:0} ms");
        Assert.True(all.Length >= 200);
    }

    private Task<HttpResponseMessage> Post(string path, string json) =>
        _client.PostAsync(path, new StringContent(json, Encoding.UTF8, "application/json"));

    /// <summary>What the service counts itself: calculations that run now, and when one last began or ended.</summary>
    private sealed class RunningCalculations : IDisposable
    {
        private readonly MeterListener _listener = new();
        private int _count;
        private long _lastChange;

        public RunningCalculations()
        {
            _listener.InstrumentPublished = (instrument, listener) =>
            {
                if (instrument.Name == "calculations.running")
                {
                    listener.EnableMeasurementEvents(instrument);
                }
            };
            _listener.SetMeasurementEventCallback<int>((_, change, _, _) =>
            {
                Interlocked.Add(ref _count, change);
                Volatile.Write(ref _lastChange, Stopwatch.GetTimestamp());
            });
            _listener.Start();
        }

        public int Count => Volatile.Read(ref _count);

        /// <summary>When a calculation last began or ended.</summary>
        public long LastChange => Volatile.Read(ref _lastChange);

        public void Dispose() => _listener.Dispose();
    }
}
