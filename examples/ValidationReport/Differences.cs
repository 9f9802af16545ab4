namespace CeramicOptics.Examples.ValidationReport;

/// <summary>Mean, 95th percentile and maximum of differences.</summary>
internal static class Differences
{
    public static string Row(string name, IReadOnlyCollection<double> values, string format = "0.00")
    {
        double[] rising = [.. values.Order()];
        double percentile = rising[(int)Math.Ceiling(0.95 * rising.Length) - 1];
        return $"| {name} | {rising.Length} | {rising.Average().ToString(format)} | {percentile.ToString(format)} | "
            + $"{rising[^1].ToString(format)} |";
    }
}
