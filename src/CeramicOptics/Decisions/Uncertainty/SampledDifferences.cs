namespace CeramicOptics.Decisions.Uncertainty;

/// <summary>
/// Differences at many points of the inputs' distribution, in replicates of equal size whose spread tells how well a
/// probability is known.
/// </summary>
internal sealed class SampledDifferences
{
    /// <summary>Points between two looks at cancellation.</summary>
    public const int Block = 4096;

    private readonly double[] _byReplicate;
    private readonly int _each;
    private readonly CancellationToken _cancellation;
    private double[]? _ordered;

    internal SampledDifferences(double[] differences, int each, CancellationToken cancellation = default)
    {
        (_byReplicate, _each, _cancellation) = (differences, each, cancellation);
        double sum = 0, squares = 0;
        foreach (double difference in differences)
        {
            sum += difference;
        }

        Mean = sum / differences.Length;
        cancellation.ThrowIfCancellationRequested();
        foreach (double difference in differences)
        {
            squares += (difference - Mean) * (difference - Mean);
        }

        StandardDeviation = Math.Sqrt(squares / (differences.Length - 1));
    }

    public int Count => _byReplicate.Length;

    public double Mean { get; }

    public double StandardDeviation { get; }

    public static SampledDifferences Of(
        UncertaintyModel model, SamplingOptions options, CancellationToken cancellation) =>
        Of(model, new NormalPoints(model.Dimensions, options, cancellation), cancellation);

    /// <summary>At given points, for the thickness that the model is prepared for.</summary>
    public static SampledDifferences Of(UncertaintyModel model, NormalPoints points, CancellationToken cancellation)
    {
        double[] differences = new double[points.Count];
        for (int from = 0; from < differences.Length; from += points.PerReplicate)
        {
            ReadOnlySpan<double> replicate = points.Replicate(from / points.PerReplicate);
            for (int k = 0; k < points.PerReplicate; k += Block)
            {
                cancellation.ThrowIfCancellationRequested();
                int count = Math.Min(Block, points.PerReplicate - k);
                model.Differences(
                    replicate.Slice(k * model.Dimensions, count * model.Dimensions),
                    differences.AsSpan(from + k, count));
            }
        }

        return new SampledDifferences(differences, points.PerReplicate, cancellation);
    }

    /// <summary>Probability of a difference up to a limit.</summary>
    public Probability Within(double limit)
    {
        double[] shares = new double[NormalSequence.Replicates];
        for (int k = 0; k < _byReplicate.Length; k++)
        {
            if (k % _each == 0)
            {
                _cancellation.ThrowIfCancellationRequested();
            }

            shares[k / _each] += _byReplicate[k] <= limit ? 1.0 / _each : 0;
        }

        double mean = shares.Average(), squares = shares.Sum(value => (value - mean) * (value - mean));
        return new Probability(Math.Min(1, mean), Math.Sqrt(squares / (shares.Length - 1) / shares.Length), Count);
    }

    /// <summary>By linear interpolation; share below 1.</summary>
    public double Quantile(double share)
    {
        _ordered ??= (double[])_byReplicate.Clone();
        double position = share * (_ordered.Length - 1);
        int below = (int)position;
        double low = Ranked(below), high = Ranked(below + 1);
        return low + ((position - below) * (high - low));
    }

    // Quickselect (Hoare 1961, Commun. ACM 4:321): puts the value of a rank in its place, none larger before it and
    // none smaller behind. Unlike a sort it can be stopped.
    private double Ranked(int rank)
    {
        double[] values = _ordered!;
        int low = 0, high = values.Length - 1;
        while (low < high)
        {
            _cancellation.ThrowIfCancellationRequested();
            double middle = values[low + ((high - low) / 2)];
            int left = low, right = high;
            while (left <= right)
            {
                while (values[left] < middle)
                {
                    left++;
                }

                while (values[right] > middle)
                {
                    right--;
                }

                if (left <= right)
                {
                    (values[left], values[right]) = (values[right], values[left]);
                    (left, right) = (left + 1, right - 1);
                }
            }

            (low, high) = rank <= right ? (low, right) : rank >= left ? (left, high) : (rank, rank);
        }

        return values[rank];
    }
}
