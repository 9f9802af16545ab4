namespace CeramicOptics.Decisions.Uncertainty;

/// <summary>
/// Evenly spread points of a multivariate standard normal distribution: randomly shifted Richtmyer sequences, one after
/// another.
/// </summary>
/// <remarks>
/// Shifts come from a SplitMix64 generator, so that a seed gives the same points on every target framework.
/// </remarks>
internal sealed class NormalSequence
{
    /// <summary>Number of sequences, each with shifts of its own.</summary>
    public const int Replicates = 16;

    private readonly double[] _steps, _shifts;
    private ulong _state;
    private int _index;

    public NormalSequence(int dimensions, int samples, ulong seed, int firstReplicate = 0)
    {
        PerReplicate = (samples + Replicates - 1) / Replicates;
        _state = seed;
        (_steps, _shifts) = (new double[dimensions], new double[dimensions]);
        int prime = 1;
        for (int j = 0; j < dimensions; j++)
        {
            prime = NextPrime(prime);
            _steps[j] = Math.Sqrt(prime) % 1;
        }

        for (int skipped = 0; skipped < firstReplicate * dimensions; skipped++)
        {
            NextUniform();
        }
    }

    /// <summary>Points of one sequence.</summary>
    public int PerReplicate { get; }

    /// <summary>Points of all sequences: the samples asked for, rounded up.</summary>
    public int Count => PerReplicate * Replicates;

    /// <summary>The next point; a sequence that is at its end is followed by one with new shifts.</summary>
    public void Next(Span<double> destination)
    {
        if (_index % PerReplicate == 0)
        {
            _index = 0;
            for (int j = 0; j < _shifts.Length; j++)
            {
                _shifts[j] = NextUniform();
            }
        }

        _index++;
        for (int j = 0; j < destination.Length; j++)
        {
            double uniform = (_index * _steps[j]) + _shifts[j];
            uniform -= Math.Floor(uniform);
            destination[j] = NormalQuantile.Of(Math.Min(Math.Max(uniform, 1e-12), 1 - 1e-12));
        }
    }

    // Steele, Lea, Flood 2014, Fast splittable pseudorandom number generators.
    private double NextUniform()
    {
        unchecked
        {
            _state += 0x9E3779B97F4A7C15;
            ulong mixed = (_state ^ (_state >> 30)) * 0xBF58476D1CE4E5B9;
            mixed = (mixed ^ (mixed >> 27)) * 0x94D049BB133111EB;
            mixed ^= mixed >> 31;
            return (mixed >> 11) * (1.0 / (1UL << 53));
        }
    }

    private static int NextPrime(int after)
    {
        int candidate = after + 1;
        while (Enumerable.Range(2, Math.Max(0, candidate - 2)).Any(divisor => candidate % divisor == 0))
        {
            candidate++;
        }

        return candidate;
    }
}
