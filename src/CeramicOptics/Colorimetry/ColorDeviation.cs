namespace CeramicOptics.Colorimetry;

/// <summary>
/// A difference of two colours by coordinate, such as reading minus prediction, or a standard uncertainty of each.
/// </summary>
/// <param name="L">Of L*; positive is lighter.</param>
/// <param name="A">Of a*; positive is redder.</param>
/// <param name="B">Of b*; positive is yellower.</param>
public readonly record struct ColorDeviation(double L, double A, double B) : IFormattable
{
    private readonly bool _isUncertainty;

    private ColorDeviation(double l, double a, double b, bool isUncertainty)
        : this(l, a, b) => _isUncertainty = isUncertainty;

    /// <summary>For example "ΔL* +0.8, Δa* -0.1, Δb* +1.2"; an uncertainty has no signs.</summary>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider) =>
        Language.Of(provider).Text(_isUncertainty ? "ColorDeviation.Uncertainty" : "ColorDeviation", L, A, B);

    /// <summary>Equal coordinates.</summary>
    /// <param name="other">Deviation compared with.</param>
    public bool Equals(ColorDeviation other) => (L, A, B).Equals((other.L, other.A, other.B));

    /// <inheritdoc/>
    public override int GetHashCode() => (L, A, B).GetHashCode();

    /// <summary>Standard uncertainties from variances.</summary>
    internal static ColorDeviation OfVariances(double l, double a, double b) =>
        new(Math.Sqrt(l), Math.Sqrt(a), Math.Sqrt(b), isUncertainty: true);
}
