using CeramicOptics.Layers;

namespace CeramicOptics.Restorations;

/// <summary>Veneering ceramic over the core, and its part of the wall.</summary>
/// <remarks>Immutable. The wall is core and veneer together.</remarks>
public sealed record Veneer : IFormattable
{
    private Veneer(Material material, double share, double thicknessMm) =>
        (Material, Share, ThicknessMm) = (Guard.NotNull(material), share, thicknessMm);

    /// <summary>Its substance.</summary>
    public Material Material { get; }

    /// <summary>Share of the wall that it takes, 0.01 to 0.99; 0 when its thickness is fixed.</summary>
    public double Share { get; }

    /// <summary>Its fixed thickness, mm; 0 when it takes a share.</summary>
    public double ThicknessMm { get; }

    /// <summary>A veneer that takes a fixed share of the wall, however thick that is.</summary>
    /// <param name="material">Its substance.</param>
    /// <param name="share">Share of the wall, 0.01 to 0.99.</param>
    /// <exception cref="ArgumentOutOfRangeException">Share outside its range or NaN.</exception>
    public static Veneer OfShare(Material material, double share) =>
        new(material, Guard.InRange(share, 0.01, 0.99, "", "veneer share"), 0);

    /// <summary>A veneer of fixed thickness; the core is the rest of the wall.</summary>
    /// <param name="material">Its substance.</param>
    /// <param name="thicknessMm">Its thickness, 0.01 to 10 mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">Thickness outside its range or NaN.</exception>
    public static Veneer OfThickness(Material material, double thicknessMm) =>
        new(material, 0, Guard.InRange(thicknessMm, 0.01, 10, "mm", "veneer thickness"));

    /// <summary>Its thickness in a wall, mm.</summary>
    internal double InWallMm(double wallMm) => (Share * wallMm) + ThicknessMm;

    /// <summary>For example "enamel veneer, 30 % of the wall".</summary>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider) => Share > 0
        ? Language.Of(provider).Text("Veneer.Share", Material.Name, Share)
        : Language.Of(provider).Text("Veneer.Thickness", Material.Name, ThicknessMm);
}
