namespace CeramicOptics.Layers;

/// <summary>A homogeneous layer of a material.</summary>
public sealed record Layer : IFormattable
{
    internal const double MaximumThicknessMm = 100;

    /// <summary>A layer.</summary>
    /// <param name="material">Its substance.</param>
    /// <param name="thicknessMm">Its thickness, 0 to 100 mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">Thickness outside its range or NaN.</exception>
    public Layer(Material material, double thicknessMm)
    {
        Material = Guard.NotNull(material);
        ThicknessMm = Guard.InRange(thicknessMm, 0, MaximumThicknessMm, "mm");
    }

    /// <summary>Its substance.</summary>
    public Material Material { get; }

    /// <summary>Its thickness, mm.</summary>
    public double ThicknessMm { get; }

    /// <summary>For example "0.9 mm of body ceramic".</summary>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider) =>
        Language.Of(provider).Text("Layer", ThicknessMm, Material.Name);
}
