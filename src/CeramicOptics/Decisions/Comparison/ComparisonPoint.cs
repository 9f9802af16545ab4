using CeramicOptics.Colorimetry;

namespace CeramicOptics.Decisions.Comparison;

/// <summary>Everything a <see cref="ZoneComparison"/> knows at one thickness of the wall.</summary>
/// <param name="WallMm">Thickness of the wall, mm.</param>
/// <param name="X">Position on the axis of the colours, -1 to 1.</param>
/// <param name="ReferenceX">Position on the axis of a reference that moves.</param>
/// <param name="Colors">X, Y, Z of each light.</param>
/// <param name="References">The same of the reference.</param>
/// <param name="Labs">Colour by light.</param>
/// <param name="Others">Reference colour by light.</param>
/// <param name="Differences">Difference by light.</param>
internal sealed record ComparisonPoint(
    double WallMm, double X, double ReferenceX, double[] Colors, double[] References, Lab[] Labs, Lab[] Others,
    double[] Differences)
{
    /// <summary>Largest difference over the lights.</summary>
    public double Largest { get; } = Differences.Max();
}
