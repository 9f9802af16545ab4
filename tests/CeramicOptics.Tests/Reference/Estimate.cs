namespace CeramicOptics.Tests.Reference;

/// <summary>A mean and its standard error.</summary>
internal readonly record struct Estimate(double Value, double StandardError)
{
    public static Estimate FromBatches(int batches, Func<double> batch) =>
        From([.. Enumerable.Range(0, batches).Select(_ => batch())]);

    public static Estimate From(double[] values)
    {
        double mean = values.Average();
        double squares = values.Sum(value => (value - mean) * (value - mean));
        return new Estimate(mean, Math.Sqrt(squares / (values.Length * (values.Length - 1.0))));
    }
}
