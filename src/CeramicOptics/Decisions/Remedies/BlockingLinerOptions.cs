namespace CeramicOptics.Decisions.Remedies;

/// <summary>How thick a blocking liner may be, and where it takes its room.</summary>
public sealed record BlockingLinerOptions
{
    /// <summary>Thickest liner to consider, mm, 0.01 to 2; 0.3 by default.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double MaximumMm { get; init => field = Guard.InRange(value, 0.01, 2, "mm", nameof(MaximumMm)); } = 0.3;

    /// <summary>
    /// True when liner and wall share the available thickness; false when the liner adds to it. True by default.
    /// </summary>
    public bool TakesFromCeramic { get; init; } = true;
}
