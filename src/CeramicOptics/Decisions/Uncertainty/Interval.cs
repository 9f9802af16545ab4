namespace CeramicOptics.Decisions.Uncertainty;

/// <summary>Values from a low to a high one.</summary>
/// <param name="Low">Low end.</param>
/// <param name="High">High end.</param>
public readonly record struct Interval(double Low, double High) : IFormattable
{
    /// <summary>For example "0.9 to 2.4".</summary>
    public override string ToString() => ToString(null);

    /// <summary>The same in the language of a culture.</summary>
    /// <param name="provider">A culture or a <see cref="Language"/>; null for English.</param>
    public string ToString(IFormatProvider? provider) => Language.Of(provider).Text("Interval", Low, High);

    string IFormattable.ToString(string? format, IFormatProvider? provider) => ToString(provider);
}
