using System.Diagnostics;
using System.Globalization;

namespace CeramicOptics.Tests;

/// <summary>Time on a processor, which other work on the machine does not lengthen.</summary>
internal static class ThreadClock
{
    private const double SampleMs = 40;

    /// <summary>
    /// Milliseconds that this thread has run, which other threads may ask; of all time where the system does not say.
    /// </summary>
    public static Func<double> OfThisThread()
    {
        string file = $"/proc/{new FileInfo("/proc/thread-self").LinkTarget}/schedstat";
        return File.Exists(file)
            ? () => double.Parse(File.ReadAllText(file).Split(' ')[0], CultureInfo.InvariantCulture) / 1e6
            : () => Stopwatch.GetTimestamp() * 1000.0 / Stopwatch.Frequency;
    }

    /// <summary>How many times as long work takes now as on a processor of its own, 1 or more.</summary>
    public static double Slowdown()
    {
        Func<double> clock = OfThisThread();
        Stopwatch all = Stopwatch.StartNew();
        double begin = clock();
        while (clock() - begin < SampleMs)
        {
            Thread.SpinWait(10_000);
        }

        return Math.Max(1, all.Elapsed.TotalMilliseconds / (clock() - begin));
    }
}
