namespace CeramicOptics.Decisions.Masking;

/// <summary>What "reliable" means for a masking thickness, and how it is sampled.</summary>
public sealed record MaskingOptions
{
    /// <summary>Share of pieces that must mask, 0.5 to 0.999; 0.95 by default.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double Share { get; init => field = Guard.InRange(value, 0.5, 0.999, "", nameof(Share)); } = 0.95;

    /// <summary>Samples at each thickness, the same ones at all, 256 to 1 million; 1024 by default.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range.</exception>
    public int Samples { get; init => field = Guard.InRange(value, 256, 1_000_000, nameof(Samples)); } = 1024;

    /// <summary>Seed of the random shifts; the same seed gives the same result.</summary>
    public ulong Seed { get; init; } = 1;
}
