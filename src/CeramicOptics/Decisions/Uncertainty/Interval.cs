namespace CeramicOptics.Decisions.Uncertainty;

/// <summary>Values from a low to a high one.</summary>
/// <param name="Low">Low end.</param>
/// <param name="High">High end.</param>
public readonly record struct Interval(double Low, double High) : IFormattable
{
    /// <summary>For example "0.9 to 2.4".</summary>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider) =>
        Language.Of(provider).Text("Interval", Low, High);
}
