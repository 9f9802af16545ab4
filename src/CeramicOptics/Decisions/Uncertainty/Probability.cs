namespace CeramicOptics.Decisions.Uncertainty;

/// <summary>A probability and how well it is known.</summary>
/// <param name="Value">0 to 1.</param>
/// <param name="StandardError">
/// Standard error from the number of samples; 0 for a first-order estimate, which has other errors.
/// </param>
public readonly record struct Probability(double Value, double StandardError) : IFormattable
{
    /// <summary>For example "0.83 ± 0.004".</summary>
    public override string ToString() => ToString(null);

    /// <summary>The same in the language of a culture.</summary>
    /// <param name="provider">A culture or a <see cref="Language"/>; null for English.</param>
    public string ToString(IFormatProvider? provider) =>
        Language.Of(provider).Text("Probability", Value, StandardError);

    string IFormattable.ToString(string? format, IFormatProvider? provider) => ToString(provider);
}
