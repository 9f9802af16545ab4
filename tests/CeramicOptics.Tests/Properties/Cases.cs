namespace CeramicOptics.Tests.Properties;

/// <summary>
/// How many random cases a property is tried on; built with -p:LongRun=true, a hundred times as many.
/// </summary>
internal static class Cases
{
#if LONG_RUN
    private const int Times = 100;
#else
    private const int Times = 1;
#endif

    public const int Many = 1000 * Times, Some = 300 * Times, Few = 60 * Times;
}
