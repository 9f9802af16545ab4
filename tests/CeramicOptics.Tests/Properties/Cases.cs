namespace CeramicOptics.Tests.Properties;

/// <summary>
/// How many random cases a property is tried on; built with -p:LongRun=true, a hundred times as many. The
/// netstandard2.0 build gets a fifth where both builds are the same code.
/// </summary>
internal static class Cases
{
#if LONG_RUN
    private const int Times = 100;
#else
    private const int Times = 1;
#endif
#if SECOND_BUILD
    private const int Fifths = Times;
#else
    private const int Fifths = 5 * Times;
#endif

    /// <summary>For kernels of which each build has its own.</summary>
    public const int OfKernels = 1000 * Times;

    public const int Many = 200 * Fifths, Some = 60 * Fifths, Few = 12 * Fifths;
}
