using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Exchange;

/// <summary>A material of a catalogue with its role and origin.</summary>
public sealed record CatalogEntry : IFormattable
{
    /// <summary>An entry.</summary>
    /// <param name="material">The material; its name is the entry's name.</param>
    /// <param name="role">What it is used for.</param>
    /// <param name="provenance">How its data came about.</param>
    /// <param name="family">Family; needed for a ceramic.</param>
    /// <param name="grade">
    /// Translucency grade, 1 to 100, 1 the most translucent; needed for a ceramic.
    /// </param>
    /// <param name="strength">Smallest thickness that strength requires of a ceramic; null when not given.</param>
    /// <exception cref="ArgumentException">
    /// A ceramic without family or grade, or a strength limit of anything else.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">Grade outside its range.</exception>
    public CatalogEntry(
        Material material, MaterialRole role, Provenance provenance, string? family = null, int? grade = null,
        StrengthLimit? strength = null)
    {
        Material = Guard.NotNull(material);
        Role = Guard.Defined(role);
        Provenance = Guard.NotNull(provenance);
        if (role == MaterialRole.Ceramic && (family is null || grade is null))
        {
            throw new ArgumentException($"'{material.Name}' is a ceramic and needs a family and a grade.");
        }

        Family = family;
        Strength = strength ?? StrengthLimit.NotGiven;
        if (role != MaterialRole.Ceramic && Strength.IsGiven)
        {
            throw new ArgumentException(
                $"'{material.Name}' is not a ceramic; a strength limit belongs to the ceramic of the core.");
        }

        Grade = grade is null ? null : Guard.InRange(grade.Value, 1, 100, nameof(grade));
    }

    /// <summary>Name of the material.</summary>
    public string Name => Material.Name;

    /// <summary>The material.</summary>
    public Material Material { get; }

    /// <summary>What it is used for.</summary>
    public MaterialRole Role { get; }

    /// <summary>How its data came about.</summary>
    public Provenance Provenance { get; }

    /// <summary>Family; null where there is none.</summary>
    public string? Family { get; }

    /// <summary>Translucency grade; null where there is none.</summary>
    public int? Grade { get; }

    /// <summary>Smallest thickness that strength requires of a ceramic; not given for other materials.</summary>
    public StrengthLimit Strength { get; }

    /// <summary>Name and role.</summary>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider) =>
        Language.Of(provider).Text("CatalogEntry", Name, Role);

    internal Ceramic? Ceramic =>
        Role == MaterialRole.Ceramic ? new Ceramic(Family!, Grade!.Value, Material) { Strength = Strength } : null;
}
