using CeramicOptics.Colorimetry;

namespace CeramicOptics.Decisions;

/// <summary>A colour difference in words: lightness from L*, red or green from a*, yellow or blue from b*.</summary>
internal static class ColorWords
{
    // Parts of CIELAB below this are not worth a word: well under the perceptibility threshold of 1.2.
    private const double Silent = 0.5;

    /// <summary>What is wrong with a colour against a reference, the largest part first.</summary>
    public static string Describe(Lab reference, Lab color)
    {
        string[] parts =
        [
            .. new (double Value, string Plus, string Minus)[]
            {
                (color.L - reference.L, "too light", "too dark"),
                (color.A - reference.A, "too red", "too green"),
                (color.B - reference.B, "too yellow", "too blue"),
            }
            .Where(part => Math.Abs(part.Value) >= Silent)
            .OrderByDescending(part => Math.Abs(part.Value))
            .Select(
                part => FormattableString.Invariant(
                    $"{(part.Value > 0 ? part.Plus : part.Minus)} by {Math.Abs(part.Value):0.0}")),
        ];
        return parts.Length == 0 ? "no visible difference" : string.Join(", ", parts);
    }
}
