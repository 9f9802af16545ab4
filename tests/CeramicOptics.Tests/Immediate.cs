namespace CeramicOptics.Tests;

/// <summary>Progress that is told at once, on the thread that reports it.</summary>
internal sealed class Immediate(Action<double> report) : IProgress<double>
{
    public void Report(double value) => report(value);
}
