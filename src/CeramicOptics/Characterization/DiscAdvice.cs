using System.Globalization;

namespace CeramicOptics.Characterization;

/// <summary>The disc that would tell most about K and S beside the readings there are.</summary>
/// <param name="ThicknessMm">Thickness of the disc, mm, to be read over the backings used.</param>
/// <param name="UncertaintyRatio">Geometric mean over wavelengths of the area of the K-S uncertainty ellipse after such a disc, relative to before; 0 to 1.</param>
public sealed record DiscAdvice(double ThicknessMm, double UncertaintyRatio)
{
    /// <summary>For example "add a disc of about 0.4 mm: joint uncertainty of K and S falls to 35 %".</summary>
    public override string ToString() => string.Format(
        CultureInfo.InvariantCulture, "add a disc of about {0:0.0#} mm: joint uncertainty of K and S falls to {1:0} %", ThicknessMm, 100 * UncertaintyRatio);
}
