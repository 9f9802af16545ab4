using System.Globalization;
using System.Reflection;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Reports;
using BenchmarkDotNet.Running;
using Perfolizer.Horology;

namespace CeramicOptics.Benchmarks;

/// <summary>Compares what is measured with ratios.csv and prints what got slower.</summary>
/// <remarks>
/// Times differ from machine to machine; the ratio of a benchmark to the baseline of its class, the scalar or plain
/// form of the same work in the same run, differs little. One more than a third above the stored one counts as slower.
/// </remarks>
internal static class SpeedGuard
{
    private const double Slower = 1.33;

    public static int Run(string path, bool write)
    {
        Job brief = Job.ShortRun.WithIterationCount(7).WithIterationTime(TimeInterval.FromMilliseconds(250));
        ManualConfig config = ManualConfig.Create(DefaultConfig.Instance).AddJob(brief)
            .WithOptions(ConfigOptions.JoinSummary);
        Summary[] summaries = [.. BenchmarkSwitcher.FromAssembly(Assembly.GetExecutingAssembly()).Run(
            ["--filter", "*"], config)];
        Dictionary<string, double> ratios = Ratios(summaries.SelectMany(summary => summary.Reports));
        if (write)
        {
            File.WriteAllLines(
                path,
                ratios.OrderBy(pair => pair.Key,
                StringComparer.Ordinal).Select(pair =>
                    FormattableString.Invariant($"{pair.Key},{pair.Value:G4}")).Prepend("benchmark,ratio"));
            Console.WriteLine($"{ratios.Count} ratios written to {path}");
            return 0;
        }

        Dictionary<string, double> stored = File.ReadLines(path).Skip(1).Select(line => line.Split(','))
            .ToDictionary(cells => cells[0], cells => double.Parse(cells[1], CultureInfo.InvariantCulture));
        int slower = 0;
        Console.WriteLine($"{"benchmark",-55} {"stored",10} {"now",10}");
        foreach ((string name, double ratio) in ratios.OrderBy(pair => pair.Key, StringComparer.Ordinal))
        {
            bool isSlower = stored.TryGetValue(name, out double before) && ratio > Slower * before;
            slower += isSlower ? 1 : 0;
            string remark = isSlower ? $"SLOWER by {ratio / before:0.00}" : before == 0 ? "new" : "";
            Console.WriteLine(FormattableString.Invariant($"{name,-55} {before,10:G4} {ratio,10:G4} {remark}"));
        }

        foreach (string name in stored.Keys.Except(ratios.Keys))
        {
            Console.WriteLine($"{name} was not measured");
            slower++;
        }

        Console.WriteLine(slower == 0 ? "nothing got slower" : $"{slower} got slower or went missing");
        return slower == 0 ? 0 : 1;
    }

    private static Dictionary<string, double> Ratios(IEnumerable<BenchmarkReport> reports)
    {
        Dictionary<string, double> ratios = [];
        foreach (
            IGrouping<Type,
            BenchmarkReport> group in reports.Where(report => report.ResultStatistics is not null)
                .GroupBy(report => report.BenchmarkCase.Descriptor.Type))
        {
            double scalar = group.Single(report => report.BenchmarkCase.Descriptor.Baseline).ResultStatistics!.Median;
            foreach (BenchmarkReport report in group.Where(report => !report.BenchmarkCase.Descriptor.Baseline))
            {
                ratios[$"{group.Key.Name}.{report.BenchmarkCase.Descriptor.WorkloadMethod.Name}"] =
                    report.ResultStatistics!.Median / scalar;
            }
        }

        return ratios;
    }
}
