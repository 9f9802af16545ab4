namespace CeramicOptics.Decisions.Uncertainty;

/// <summary>
/// Differences at many points of the inputs' distribution, in replicates of equal size whose spread tells how well a
/// probability is known.
/// </summary>
internal sealed class SampledDifferences
{
    private readonly double[] _byReplicate;
    private readonly int _each;
    private double[]? _sorted;

    internal SampledDifferences(double[] differences, int each)
    {
        (_byReplicate, _each) = (differences, each);
        Mean = Sum(differences, 0) / differences.Length;
        StandardDeviation = Math.Sqrt(Sum(differences, Mean) / (differences.Length - 1));
    }

    // The plain sum, or that of squared distances from a mean.
    private static double Sum(double[] values, double mean)
    {
        double sum = 0;
        foreach (double value in values)
        {
            sum += mean == 0 ? value : (value - mean) * (value - mean);
        }

        return sum;
    }

    public int Count => _byReplicate.Length;

    public double Mean { get; }

    public double StandardDeviation { get; }

    public static SampledDifferences Of(
        UncertaintyModel model, SamplingOptions options, CancellationToken cancellation) =>
        Of(model, new NormalPoints(model.Dimensions, options), cancellation);

    /// <summary>At given points, for the thickness that the model is prepared for.</summary>
    public static SampledDifferences Of(UncertaintyModel model, NormalPoints points, CancellationToken cancellation)
    {
        double[] differences = new double[points.Count];
        for (int from = 0; from < differences.Length; from += points.PerReplicate)
        {
            cancellation.ThrowIfCancellationRequested();
            model.Differences(
                points.Replicate(from / points.PerReplicate), differences.AsSpan(from, points.PerReplicate));
        }

        return new SampledDifferences(differences, points.PerReplicate);
    }

    /// <summary>Probability of a difference up to a limit.</summary>
    public Probability Within(double limit)
    {
        double[] shares = new double[NormalSequence.Replicates];
        for (int k = 0; k < _byReplicate.Length; k++)
        {
            shares[k / _each] += _byReplicate[k] <= limit ? 1.0 / _each : 0;
        }

        double mean = shares.Average(), squares = shares.Sum(value => (value - mean) * (value - mean));
        return new Probability(Math.Min(1, mean), Math.Sqrt(squares / (shares.Length - 1) / shares.Length), Count);
    }

    /// <summary>By linear interpolation; share below 1.</summary>
    public double Quantile(double share)
    {
        if (_sorted is null)
        {
            _sorted = (double[])_byReplicate.Clone();
            Array.Sort(_sorted);
        }

        double position = share * (_sorted.Length - 1);
        int below = (int)position;
        return _sorted[below] + ((position - below) * (_sorted[below + 1] - _sorted[below]));
    }
}
