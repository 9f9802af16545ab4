namespace CeramicOptics.Decisions.Uncertainty;

/// <summary>A probability and how well it is known.</summary>
/// <param name="Value">0 to 1.</param>
/// <param name="StandardError">
/// Standard error from the number of samples; 0 for a first-order estimate, which has other errors.
/// </param>
public readonly record struct Probability(double Value, double StandardError)
{
    /// <summary>For example "0.83 ± 0.004".</summary>
    public override string ToString() => FormattableString.Invariant($"{Value:0.00} ± {StandardError:0.000}");
}
