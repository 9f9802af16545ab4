namespace CeramicOptics.Layers;

/// <summary>
/// A clear film between two bodies that are not bonded: air under a crown on the model, water or glycerine at try-in.
/// </summary>
/// <remarks>
/// Immutable. The film is taken as thin against its width (no light is lost sideways) and thick against the wavelength.
/// </remarks>
public sealed record CouplingMedium : IFormattable
{
    /// <summary>A medium of the caller's own.</summary>
    /// <param name="name">Name to show in results.</param>
    /// <param name="refractiveIndex">Index, 1 to 4.</param>
    public CouplingMedium(string name, RefractiveIndex refractiveIndex)
    {
        Name = Guard.NotBlank(name);
        RefractiveIndex = refractiveIndex;
    }

    /// <summary>Air, n = 1: the dry, unbonded crown.</summary>
    public static CouplingMedium Air { get; } = new("air", 1.0);

    /// <summary>Water, n = 1.333 at 589 nm and 20 °C.</summary>
    public static CouplingMedium Water { get; } = new("water", 1.333);

    /// <summary>Glycerine, n = 1.47 at 589 nm.</summary>
    public static CouplingMedium Glycerine { get; } = new("glycerine", 1.47);

    /// <summary>Name.</summary>
    public string Name { get; }

    /// <summary>Refractive index.</summary>
    public RefractiveIndex RefractiveIndex { get; }

    /// <inheritdoc/>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider) => Language.Of(provider).NameOf(Name);
}
