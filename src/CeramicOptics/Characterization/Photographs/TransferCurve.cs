namespace CeramicOptics.Characterization.Photographs;

/// <summary>
/// How the values of a photograph follow the light: linear raw values, or display values of a stated curve.
/// </summary>
/// <remarks>
/// A picture that a camera has developed is more than its curve: tone, saturation and local contrast were changed too,
/// and no curve undoes that. Raw values are linear. Immutable, equal by value.
/// </remarks>
public sealed record TransferCurve : IFormattable
{
    private const double SrgbKnee = 0.04045;

    private readonly double? _exponent;

    private TransferCurve(string name, double? exponent) => (Name, _exponent) = (name, exponent);

    /// <summary>Values proportional to the light, black level taken off: raw values.</summary>
    public static TransferCurve Linear { get; } = new("linear", 1);

    /// <summary>Display values in sRGB (IEC 61966-2-1).</summary>
    public static TransferCurve Srgb { get; } = new("sRGB", null);

    /// <summary>Name, such as "linear" or "power 2.2".</summary>
    public string Name { get; }

    /// <summary>True for raw values; false where a camera or program has encoded them for a display.</summary>
    internal bool IsLinear => _exponent == 1;

    /// <summary>Display values whose power is proportional to the light.</summary>
    /// <param name="exponent">Light = value^exponent; 1 to 4, such as 2.2.</param>
    /// <exception cref="ArgumentOutOfRangeException">Exponent outside its range or NaN.</exception>
    public static TransferCurve Power(double exponent) =>
        Guard.InRange(exponent, 1, 4, "") == 1 ? Linear : new TransferCurve($"power {Guard.Text(exponent)}", exponent);

    /// <summary>The light that gives a value.</summary>
    /// <param name="value">Value, 0 to 1.</param>
    /// <returns>0 to 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Value outside its range or NaN.</exception>
    internal double ToLinear(double value)
    {
        Guard.InRange(value, 0, 1, "of full scale");
        return _exponent is double exponent ? Math.Pow(value, exponent)
            : value <= SrgbKnee ? value / 12.92 : Math.Pow((value + 0.055) / 1.055, 2.4);
    }

    /// <inheritdoc/>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider) => _exponent is double exponent && !IsLinear
        ? Language.Of(provider).Text("TransferCurve.Power", exponent)
        : Language.Of(provider).NameOf(Name);

    /// <summary>The exponent of a power; null for sRGB.</summary>
    internal double? Exponent => _exponent;

    /// <summary>Derivative of <see cref="ToLinear"/>.</summary>
    internal double Slope(double value) =>
        _exponent is double exponent ? exponent * Math.Pow(value, exponent - 1)
        : value <= SrgbKnee ? 1 / 12.92 : 2.4 / 1.055 * Math.Pow((value + 0.055) / 1.055, 1.4);
}
