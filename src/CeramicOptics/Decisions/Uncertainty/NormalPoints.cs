namespace CeramicOptics.Decisions.Uncertainty;

/// <summary>
/// Points of a <see cref="NormalSequence"/>, kept so that they can be used again at other thicknesses.
/// </summary>
internal sealed class NormalPoints
{
    // Longer sequences are made again for each use.
    private const int MostKept = 4_000_000;

    private readonly double[] _kept;
    private readonly int _dimensions;
    private readonly SamplingOptions _options;
    private readonly CancellationToken _cancellation;

    public NormalPoints(int dimensions, SamplingOptions options, CancellationToken cancellation = default)
    {
        (_dimensions, _options, _cancellation) = (dimensions, options, cancellation);
        NormalSequence sequence = new(dimensions, options.Samples, options.Seed);
        (Count, PerReplicate) = (sequence.Count, sequence.PerReplicate);
        _kept = (long)Count * dimensions <= MostKept ? Make(sequence, Count) : [];
    }

    public int Count { get; }

    public int PerReplicate { get; }

    /// <summary>The points of one replicate, one after another.</summary>
    public ReadOnlySpan<double> Replicate(int replicate)
    {
        int size = PerReplicate * _dimensions;
        if (_kept.Length > 0)
        {
            return _kept.AsSpan(replicate * size, size);
        }

        NormalSequence sequence = new(_dimensions, _options.Samples, _options.Seed, replicate);
        return Make(sequence, PerReplicate);
    }

    private double[] Make(NormalSequence sequence, int count)
    {
        double[] points = new double[count * _dimensions];
        for (int k = 0; k < count; k++)
        {
            if (k % SampledDifferences.Block == 0)
            {
                _cancellation.ThrowIfCancellationRequested();
            }

            sequence.Next(points.AsSpan(k * _dimensions, _dimensions));
        }

        return points;
    }
}
