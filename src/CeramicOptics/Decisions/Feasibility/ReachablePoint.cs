using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;

namespace CeramicOptics.Selection;

/// <summary>A colour that can be made over a stump, and how.</summary>
/// <param name="Color">The colour.</param>
/// <param name="Ceramic">The ceramic.</param>
/// <param name="Veneer">The veneering ceramic over it; null for one ceramic alone.</param>
/// <param name="VeneerShare">Share of the wall that the veneer takes.</param>
/// <param name="WallMm">Thickness of ceramic and veneer together, mm.</param>
/// <param name="Cement">The cement and its film.</param>
public sealed record ReachablePoint(Lab Color, Ceramic Ceramic, Material? Veneer, double VeneerShare, double WallMm, Layer Cement)
{
    /// <summary>The recipe in words, such as "0.90 mm of Granary, grade 3 with light cement".</summary>
    public string Recipe => FormattableString.Invariant($"{WallMm:0.00} mm of {Ceramic}{(Veneer is null ? "" : FormattableString.Invariant($" with {100 * VeneerShare:0} % {Veneer}"))} with {Cement.Material}");
}
