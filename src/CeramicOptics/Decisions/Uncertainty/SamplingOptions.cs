namespace CeramicOptics.Decisions.Uncertainty;

/// <summary>How distributions are sampled.</summary>
public sealed record SamplingOptions
{
    /// <summary>Number of samples, 256 to 10 million, rounded up to a multiple of 16; 10,000 by default.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range.</exception>
    public int Samples { get; init => field = Guard.InRange(value, 256, 10_000_000, nameof(Samples)); } = 10_000;

    /// <summary>Seed of the random shifts; the same seed gives the same result.</summary>
    public ulong Seed { get; init; } = 1;
}
