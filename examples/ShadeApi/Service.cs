using System.Diagnostics.Metrics;
using System.Runtime.CompilerServices;
using System.Threading.Channels;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Exchange;
using CeramicOptics.Restorations;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Mvc;

namespace CeramicOptics.Examples.ShadeApi;

/// <summary>The service: rankings, stains and maps over HTTP for an invented laboratory.</summary>
public static class Service
{
    private const int MaximumPoints = 100_000;

    private static readonly Meter Meter = new("CeramicOptics.Examples.ShadeApi");

    // Calculations that run at this moment; one that was cancelled is no longer among them.
    private static readonly UpDownCounter<int> Running = Meter.CreateUpDownCounter<int>("calculations.running");

    // As many calculations at a time as there are processors; the others wait without a thread.
    private static readonly SemaphoreSlim Places = new(Environment.ProcessorCount);

    /// <summary>The service, not yet started.</summary>
    /// <param name="args">Settings, such as <c>--urls http://127.0.0.1:5000</c>.</param>
    public static WebApplication Build(string[] args)
    {
        WebApplicationBuilder builder = WebApplication.CreateSlimBuilder(args);
        builder.Services.ConfigureHttpJsonOptions(options =>
        {
            options.SerializerOptions.TypeInfoResolverChain.Insert(0, WireContext.Default);
            options.SerializerOptions.RespectNullableAnnotations = true;
            options.SerializerOptions.RespectRequiredConstructorParameters = true;
        });
        WebApplication app = builder.Build();
        app.UseExceptionHandler(new ExceptionHandlerOptions
        {
            ExceptionHandler = Problem,
            SuppressDiagnosticsCallback = context => context.Exception
                is MistakeException or OperationCanceledException,
        });
        app.MapGet("/openapi.json", () => Results.Stream(
            typeof(Service).Assembly.GetManifestResourceStream("openapi.json")!, "application/json"));
        app.MapPost("/ranking", Task<MatchRanking> (Question question, CancellationToken cancellation) =>
            Answer(() => Workshop.Rank(Workshop.Crown(question), null, cancellation), cancellation));
        app.MapPost("/stain", Task<StainRecipe> (Question question, CancellationToken cancellation) =>
            Answer(() => Workshop.FindStain(Workshop.Crown(question), cancellation), cancellation));
        app.MapPost("/map", Task<MapAnswer> (MapQuestion question, CancellationToken cancellation) =>
            Answer(() => Workshop.Map(Workshop.Crown(question.Crown), Points(question), cancellation), cancellation));
        app.MapPost("/ranking/progress", IResult (Question question, CancellationToken cancellation) =>
            TypedResults.ServerSentEvents(Events(Workshop.Crown(question), cancellation)));
        return app;
    }

    private static double[] Points(MapQuestion question) => question.ThicknessesMm.Length <= MaximumPoints
        ? question.ThicknessesMm
        : throw new MistakeException(Mistake.Points, null, $"At most {MaximumPoints} points are answered at a time.");

    private static async Task<T> Answer<T>(Func<T> find, CancellationToken cancellation)
    {
        await Places.WaitAsync(cancellation);
        try
        {
            // On a thread of its own: calculations on threads of the pool keep the server from noticing who has left.
            return await Task.Factory.StartNew(
                () =>
                {
                    Running.Add(1);
                    try
                    {
                        return find();
                    }
                    finally
                    {
                        Running.Add(-1);
                    }
                },
                cancellation, TaskCreationOptions.LongRunning, TaskScheduler.Default);
        }
        finally
        {
            Places.Release();
        }
    }

    /// <summary>The completed fraction as it grows, at last the answer.</summary>
    private static async IAsyncEnumerable<string> Events(
        Restoration crown, [EnumeratorCancellation] CancellationToken cancellation)
    {
        Channel<string> events = Channel.CreateUnbounded<string>();
        Task work = Answer(() => Workshop.Rank(crown, new Fractions(events.Writer), cancellation), cancellation)
            .ContinueWith(
                ranking =>
                {
                    if (ranking.IsCompletedSuccessfully)
                    {
                        events.Writer.TryWrite(ResultJson.ToJson(ranking.Result));
                    }

                    events.Writer.Complete(ranking.Exception?.InnerException);
                },
                CancellationToken.None, TaskContinuationOptions.None, TaskScheduler.Default);
        await foreach (string item in events.Reader.ReadAllAsync(cancellation))
        {
            yield return item;
        }

        await work;
    }

    private static Task Problem(HttpContext context)
    {
        Exception? error = context.Features.Get<IExceptionHandlerFeature>()?.Error;
        ProblemDetails problem = error switch
        {
            MistakeException mistake => Of(mistake, Asked(context)),
            BadHttpRequestException bad => new()
            {
                Type = "urn:shade-api:unreadable", Title = "unreadable request", Status = bad.StatusCode,
                Detail = bad.Message,
            },
            _ => new() { Type = "about:blank", Title = "error of the service", Status = 500 },
        };
        context.Response.StatusCode = problem.Status!.Value;
        return context.Response.WriteAsJsonAsync(
            problem, WireContext.Default.ProblemDetails, "application/problem+json", context.RequestAborted);
    }

    // The quantity, its value and its range as members of their own, so that a client finds the field of its form.
    private static ProblemDetails Of(MistakeException mistake, Language language)
    {
        ProblemDetails details = new()
        {
            Type = $"urn:shade-api:{mistake.Reason.Replace(' ', '-')}", Title = mistake.Reason, Status = 422,
            Detail = mistake.Problem?.ToString(language) ?? mistake.Message,
        };
        if (mistake.Problem is { Value: double value } problem)
        {
            details.Extensions["quantity"] = problem.Quantity;
            details.Extensions["value"] = double.IsFinite(value) ? value : null;
            details.Extensions["unit"] = problem.Unit;
            details.Extensions["minimum"] = problem.Minimum;
            details.Extensions["maximum"] = problem.Maximum;
        }

        return details;
    }

    // The language that the client prefers, as far as the library speaks it.
    private static Language Asked(HttpContext context) => context.Request.GetTypedHeaders().AcceptLanguage
        .OrderByDescending(wanted => wanted.Quality ?? 1)
        .Select(wanted => Language.All.FirstOrDefault(language =>
            wanted.Value.StartsWith(language.Name, StringComparison.OrdinalIgnoreCase)))
        .OfType<Language>().FirstOrDefault(Language.English);

    private sealed class Fractions(ChannelWriter<string> events) : IProgress<double>
    {
        public void Report(double value) =>
            events.TryWrite(value.ToString("0.###", System.Globalization.CultureInfo.InvariantCulture));
    }
}
