using System.Diagnostics;
using System.Globalization;
using System.Reflection;
using System.Runtime.CompilerServices;

namespace CeramicOptics.Mutation;

/// <summary>Runs the tests that reach a mutant and says whether one fails.</summary>
internal sealed class Judge
{
    /// <summary>What is made before any test runs.</summary>
    public const string StaticData = "static data";

    // Of processor time. Slower tests are left out, and so are those of timing, which fail on a busy machine.
    private const double LongestMs = 2000;
    private static readonly string[] LeftOut = ["SnippetTests", "Http.", "SharingTests", "stops"];

    private readonly string folder;
    private readonly Suite suite;
    private readonly FieldInfo active, seen;
    private readonly bool[] made;

    private Judge(string folder, int mutant, int mutants)
    {
        this.folder = folder;
        Assembly library = Assembly.Load("CeramicOptics");
        Type fault = library.GetType("CeramicOptics.Fault", throwOnError: true)!;
        (active, seen) = (fault.GetField("Active")!, fault.GetField("Seen")!);
        active.SetValue(null, mutant);
        made = new bool[mutants];
        if (mutant < 0)
        {
            seen.SetValue(null, made);

            // Nothing static, of the library or the tests, may be made while a mutant is awake.
            foreach (Type type in library.GetTypes().Concat(Assembly.Load("CeramicOptics.Tests").GetTypes())
                .Where(type => !type.ContainsGenericParameters))
            {
                RuntimeHelpers.RunClassConstructor(type.TypeHandle);
            }

            seen.SetValue(null, null);
        }

        suite = new Suite();
    }

    private string Coverage => Path.Combine(folder, "coverage.tsv");

    private string Results => Path.Combine(folder, "results.tsv");

    /// <summary>Runs each test alone: time, outcome and the mutants that it reaches.</summary>
    public static void Cover(string folder, int mutants)
    {
        Judge judge = new(folder, -1, mutants);
        using StreamWriter file = new(judge.Coverage);
        file.WriteLine(Line(StaticData, StaticData, 0, true, judge.made));
        foreach (string id in judge.suite.Cases.Keys)
        {
            string name = judge.suite.Cases[id].DisplayName;
            if (LeftOut.Any(part => name.Contains(part, StringComparison.Ordinal)))
            {
                continue;
            }

            bool[] reached = new bool[mutants];
            judge.seen.SetValue(null, reached);
            double before = ProcessorMs();
            string? failure = judge.suite.FirstFailure([id]);
            file.WriteLine(Line(id, name, ProcessorMs() - before, failure is null, reached));
            file.Flush();
        }
    }

    /// <summary>Judges mutants in this process until one does not end or breaks it.</summary>
    public static void Run(string folder, IReadOnlyList<Mutant> mutants)
    {
        Judge judge = new(folder, -1, mutants.Max(m => m.Id) + 1);
        string[][] lines = File.Exists(judge.Results)
            ? [.. File.ReadLines(judge.Results).Select(line => line.Split('\t'))] : [];
        HashSet<int> done = [.. lines.GroupBy(part => part[0])
            .Where(one => one.Last()[1] != "broke the process" || one.Count(part => part[1] == "begun") > 1)
            .Select(one => int.Parse(one.Key, CultureInfo.InvariantCulture))];
        List<(string Id, double Ms, HashSet<int> Reached)> tests = judge.Tests();
        foreach (Mutant mutant in mutants.Where(m => !done.Contains(m.Id)))
        {
            judge.Write(mutant, "begun", "");
            (string Id, double Ms, HashSet<int>)[] reaching =
                [.. tests.Where(test => test.Reached.Contains(mutant.Id)).OrderBy(test => test.Ms)];
            if (reaching.Length == 0)
            {
                judge.Write(mutant, "not reached", "");
                continue;
            }

            string? failure = null;
            double ms = 0;
            List<string> batch = [];
            for (int i = 0; i < reaching.Length && failure is null; i++)
            {
                batch.Add(reaching[i].Id);
                ms += reaching[i].Ms;
                if (ms > 300 || i == reaching.Length - 1)
                {
                    failure = judge.Timed(mutant, batch, ms);
                    (batch, ms) = ([], 0);
                }
            }

            judge.Write(mutant, failure is null ? "survived" : "killed", failure ?? "");
            if (failure is not null && judge.suite.FirstFailure([judge.suite.IdOf(failure)]) is not null)
            {
                // The test fails now without a mutant: a new process judges this one again.
                judge.Write(mutant, "broke the process", failure);
                Environment.FailFast(null);
            }
        }
    }

    /// <summary>Judges one mutant of static data in a process of its own, awake from the start.</summary>
    public static void Again(string folder, Mutant mutant)
    {
        Judge judge = new(folder, mutant.Id, 0);
        string? failure = null;
        foreach ((string id, double ms, _) in judge.Tests().OrderBy(test => test.Ms))
        {
            failure = judge.Timed(mutant, [id], ms);
            if (failure is not null)
            {
                break;
            }
        }

        judge.Write(mutant, failure is null ? "survived" : "killed", failure ?? "");
    }

    private static double ProcessorMs() => Environment.CpuUsage.TotalTime.TotalMilliseconds;

    private static string Line(string id, string name, double ms, bool passed, bool[] reached) => string.Join(
        '\t', id, name.Replace('\t', ' ').Replace('\n', ' '), ms.ToString("0", CultureInfo.InvariantCulture), passed,
        string.Join(',', Enumerable.Range(0, reached.Length).Where(i => reached[i])));

    private string? Timed(Mutant mutant, IEnumerable<string> batch, double ms)
    {
        Process self = Process.GetCurrentProcess();
        double limit = self.TotalProcessorTime.TotalMilliseconds + 5000 + (5 * ms);
        Stopwatch watch = Stopwatch.StartNew();
        using Timer timer = new(_ =>
        {
            self.Refresh();
            if (self.TotalProcessorTime.TotalMilliseconds > limit || watch.ElapsedMilliseconds > 60000 + (20 * ms))
            {
                Write(mutant, "endless", "");
                Environment.FailFast(null);
            }
        }, null, 1000, 1000);
        active.SetValue(null, mutant.Id);
        string? failure = suite.FirstFailure(batch);
        active.SetValue(null, -1);
        return failure;
    }

    private List<(string Id, double Ms, HashSet<int> Reached)> Tests() => [.. File.ReadLines(Coverage)
        .Select(line => line.Split('\t')).Where(part => part[0] != StaticData && bool.Parse(part[3]))
        .Select(part => (part[0], double.Parse(part[2], CultureInfo.InvariantCulture),
            part[4].Split(',', StringSplitOptions.RemoveEmptyEntries)
                .Select(id => int.Parse(id, CultureInfo.InvariantCulture)).ToHashSet()))
        .Where(test => test.Item2 <= LongestMs)];

    private void Write(Mutant mutant, string verdict, string test) =>
        File.AppendAllText(Results, $"{mutant.Id}\t{verdict}\t{test.Replace('\n', ' ').Replace('\t', ' ')}\n");
}
