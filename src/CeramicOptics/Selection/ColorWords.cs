using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;

namespace CeramicOptics.Selection;

/// <summary>A colour difference in words.</summary>
internal static class ColorWords
{
    // Parts of CIEDE2000 below this are not worth a word: well under the perceptibility limit of 0.8.
    private const double Silent = 0.3;

    // Hue directions at the ends of the four quarters of the a*b* plane, counter-clockwise from red.
    private static readonly string[] Hues = ["red", "yellow", "green", "blue"];

    /// <summary>What is wrong with a colour against a reference, the weightiest first, by weighted parts of CIEDE2000.</summary>
    public static string Describe(Lab reference, Lab color)
    {
        Ciede2000Terms terms = ColorDifference.Ciede2000Terms(reference, color);
        int quarter = (int)(new Lab(0, reference.A + color.A, reference.B + color.B).HueDegrees / 90);
        string hue = terms.WeightedHue > 0 ? Hues[(quarter + 1) % 4] : Hues[quarter];
        string[] parts =
        [
            .. new[]
            {
                (Value: terms.WeightedLightness, Word: terms.WeightedLightness > 0 ? "too light" : "too dark"),
                (Value: terms.WeightedChroma, Word: terms.WeightedChroma > 0 ? "too saturated" : "too pale"),
                (Value: terms.WeightedHue, Word: "too " + hue),
            }
            .Where(part => Math.Abs(part.Value) >= Silent)
            .OrderByDescending(part => Math.Abs(part.Value))
            .Select(part => FormattableString.Invariant($"{part.Word} by {Math.Abs(part.Value):0.0}")),
        ];
        return parts.Length == 0 ? "no visible difference" : string.Join(", ", parts);
    }
}
