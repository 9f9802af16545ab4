using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;

namespace CeramicOptics.Selection;

/// <summary>The stump and illuminant with the largest difference at one thickness.</summary>
/// <param name="ThicknessMm">Thickness of the variable layer, mm.</param>
/// <param name="Difference">The difference by the criterion's formula.</param>
/// <param name="Substrate">The limiting stump.</param>
/// <param name="Colorimeter">The limiting illuminant and observer.</param>
/// <param name="Reference">Colour of the reference under that illuminant.</param>
/// <param name="Color">Colour over that stump under that illuminant.</param>
public sealed record WorstCase(
    double ThicknessMm, double Difference, Substrate Substrate, Colorimeter Colorimeter, Lab Reference, Lab Color)
{
    /// <summary>What differs, by CIEDE2000: lightness, chroma and hue.</summary>
    public Ciede2000Terms Terms => ColorDifference.Ciede2000Terms(Reference, Color);

    /// <summary>The same in words, such as "too dark by 2.1, too yellow by 0.6"; parts below 0.3 are left out.</summary>
    public string InWords => ColorWords.Describe(Reference, Color);
}
