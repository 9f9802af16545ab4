namespace CeramicOptics.Colorimetry;

/// <summary>
/// A difference of two colours by coordinate, such as reading minus prediction, or a standard uncertainty of each.
/// </summary>
/// <param name="L">Of L*; positive is lighter.</param>
/// <param name="A">Of a*; positive is redder.</param>
/// <param name="B">Of b*; positive is yellower.</param>
public readonly record struct ColorDeviation(double L, double A, double B) : IFormattable
{
    /// <summary>For example "ΔL* +0.8, Δa* -0.1, Δb* +1.2".</summary>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider) =>
        Language.Of(provider).Text("ColorDeviation", L, A, B);
}
