using CeramicOptics.Colorimetry;

namespace CeramicOptics.Decisions;

/// <summary>
/// How a colour differs from another in CIELAB: lighter or darker by L*, redder or greener by a*, yellower or bluer by
/// b*, never by hue angle.
/// </summary>
public sealed record ColorShift : IFormattable
{
    // Parts of CIELAB below this are not worth a word: well under the perceptibility threshold of 1.2.
    private const double Silent = 0.5;

    internal ColorShift(Lab reference, Lab color, bool isFault) =>
        (L, A, B, IsFault) = (color.L - reference.L, color.A - reference.A, color.B - reference.B, isFault);

    /// <summary>Difference of L*; positive: lighter than the reference.</summary>
    public double L { get; }

    /// <summary>Difference of a*; positive: redder.</summary>
    public double A { get; }

    /// <summary>Difference of b*; positive: yellower.</summary>
    public double B { get; }

    /// <summary>
    /// True for a difference from a wanted colour ("too light"); false between two ways to make a restoration
    /// ("lighter").
    /// </summary>
    internal bool IsFault { get; }

    /// <summary>
    /// For example "too dark by 2.1, too yellow by 0.8", the largest part first; parts below 0.5 are left out.
    /// </summary>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider)
    {
        Language language = Language.Of(provider);
        string[] parts =
        [
            .. new (double Value, string Word)[]
            {
                (L, L > 0 ? IsFault ? "TooLight" : "Lighter" : IsFault ? "TooDark" : "Darker"),
                (A, A > 0 ? IsFault ? "TooRed" : "Redder" : IsFault ? "TooGreen" : "Greener"),
                (B, B > 0 ? IsFault ? "TooYellow" : "Yellower" : IsFault ? "TooBlue" : "Bluer"),
            }
            .Where(part => Math.Abs(part.Value) >= Silent)
            .OrderByDescending(part => Math.Abs(part.Value))
            .Select(part => language.Text($"ColorShift.{part.Word}", Math.Abs(part.Value))),
        ];
        return parts.Length == 0 ? language.Text("ColorShift.None") : string.Join(", ", parts);
    }
}
