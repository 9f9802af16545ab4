namespace CeramicOptics.Decisions.Uncertainty;

/// <summary>Values from a low to a high one.</summary>
/// <param name="Low">Low end.</param>
/// <param name="High">High end.</param>
public readonly record struct Interval(double Low, double High)
{
    /// <summary>For example "0.9 to 2.4".</summary>
    public override string ToString() => FormattableString.Invariant($"{Low:0.0} to {High:0.0}");
}
