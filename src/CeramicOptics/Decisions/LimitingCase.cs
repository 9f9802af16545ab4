using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;

namespace CeramicOptics.Decisions;

/// <summary>The light that gives the largest difference at one thickness of the wall over one stump.</summary>
public sealed class LimitingCase : Formattable
{
    internal LimitingCase(
        double wallMm, double difference, Substrate stump, Colorimeter colorimeter, Lab reference, Lab color) =>
        (WallMm, Difference, Stump, Colorimeter, Reference, Color) = (
            wallMm, difference, stump, colorimeter, reference, color);

    /// <summary>Thickness of the wall, mm.</summary>
    public double WallMm { get; }

    /// <summary>The difference by the criterion's formula.</summary>
    public double Difference { get; }

    /// <summary>The stump.</summary>
    public Substrate Stump { get; }

    /// <summary>The limiting illuminant and observer.</summary>
    public Colorimeter Colorimeter { get; }

    /// <summary>Colour of the reference under that illuminant.</summary>
    public Lab Reference { get; }

    /// <summary>Colour of the restoration under that illuminant.</summary>
    public Lab Color { get; }

    /// <summary>The difference by CIEDE2000, taken apart into lightness, chroma and hue.</summary>
    internal Ciede2000Terms Terms => ColorDifference.Ciede2000Terms(Reference, Color);

    /// <summary>The difference in L*, a* and b*; as text, for example "too dark by 2.1, too yellow by 0.8".</summary>
    public ColorShift Shift => new(Reference, Color, isFault: true);

    /// <summary>For example "2.1 at 0.9 mm over dark stump under D65/2°".</summary>
    private protected override string InWords(Language language) =>
        language.Text("LimitingCase", Difference, WallMm, Stump.Name, Colorimeter);
}
