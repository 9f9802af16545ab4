namespace CeramicOptics.Decisions.Uncertainty;

/// <summary>Differences at many points of the inputs' distribution, in replicates of equal size whose spread tells how well a probability is known.</summary>
internal sealed class SampledDifferences
{
    private readonly double[] _byReplicate, _sorted;
    private readonly int _each;

    private SampledDifferences(double[] differences, int each)
    {
        (_byReplicate, _each) = (differences, each);
        _sorted = (double[])differences.Clone();
        Array.Sort(_sorted);
        Mean = differences.Average();
        StandardDeviation = Math.Sqrt(differences.Sum(value => (value - Mean) * (value - Mean)) / (differences.Length - 1));
    }

    public int Count => _byReplicate.Length;

    public double Mean { get; }

    public double StandardDeviation { get; }

    public static SampledDifferences Of(UncertaintyModel model, SamplingOptions options, CancellationToken cancellation)
    {
        NormalSequence sequence = new(model.Dimensions, options.Samples, options.Seed);
        double[] differences = new double[sequence.Count], z = new double[model.Dimensions];
        for (int k = 0; k < differences.Length; k++)
        {
            if (k % sequence.PerReplicate == 0)
            {
                cancellation.ThrowIfCancellationRequested();
            }

            sequence.Next(z);
            differences[k] = model.Difference(z);
        }

        return new SampledDifferences(differences, sequence.PerReplicate);
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
        return new Probability(Math.Min(1, mean), Math.Sqrt(squares / (shares.Length - 1) / shares.Length));
    }

    /// <summary>By linear interpolation; share below 1.</summary>
    public double Quantile(double share)
    {
        double position = share * (_sorted.Length - 1);
        int below = (int)position;
        return _sorted[below] + ((position - below) * (_sorted[below + 1] - _sorted[below]));
    }
}
