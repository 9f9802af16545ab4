using System.Diagnostics;
using System.Reflection;
using Xunit.Abstractions;
using Xunit.Sdk;

namespace CeramicOptics.Mutation;

/// <summary>The tests, run one after the other in this process.</summary>
internal sealed class Suite
{
    private readonly ITestFrameworkExecutor executor;

    public Suite()
    {
        Assembly assembly = Assembly.Load("CeramicOptics.Tests");
        XunitTestFramework framework = new(new Watcher());
        using Watcher found = new();
        framework.GetDiscoverer(Reflector.Wrap(assembly)).Find(false, found, new Settings());
        found.Wait();
        executor = framework.GetExecutor(assembly.GetName());
        Cases = found.Cases.DistinctBy(one => one.UniqueID).ToDictionary(one => one.UniqueID);
    }

    public IReadOnlyDictionary<string, ITestCase> Cases { get; }

    public string IdOf(string name) => Cases.First(one => one.Value.DisplayName == name).Key;

    /// <summary>Name of the first test that fails, or null.</summary>
    public string? FirstFailure(IEnumerable<string> cases)
    {
        using Watcher run = new();
        executor.RunTests(cases.Select(id => Cases[id]), run, new Settings());
        run.Wait();
        return run.Failed;
    }

    private sealed class Watcher : IMessageSink, IDisposable
    {
        private readonly ManualResetEventSlim done = new();

        public List<ITestCase> Cases { get; } = [];

        public string? Failed { get; private set; }

        public bool OnMessage(IMessageSinkMessage message)
        {
            switch (message)
            {
                case ITestCaseDiscoveryMessage found:
                    Cases.Add(found.TestCase);
                    break;
                case ITestFailed failure:
                    Failed ??= failure.TestCase.DisplayName;
                    break;
                case IDiscoveryCompleteMessage or ITestAssemblyFinished:
                    done.Set();
                    break;
            }

            return Failed is null;
        }

        public void Wait() => done.Wait();

        public void Dispose() => done.Dispose();
    }

    private sealed class Settings : ITestFrameworkDiscoveryOptions, ITestFrameworkExecutionOptions
    {
        private readonly Dictionary<string, object?> values = new()
        {
            ["xunit.discovery.PreEnumerateTheories"] = true,
            ["xunit.execution.DisableParallelization"] = true,
            ["xunit.execution.MaxParallelThreads"] = 1,
            ["xunit.execution.SynchronousMessageReporting"] = true,
        };

        public TValue GetValue<TValue>(string name) =>
            values.TryGetValue(name, out object? value) ? (TValue)value! : default!;

        public void SetValue<TValue>(string name, TValue value) => values[name] = value;
    }
}
