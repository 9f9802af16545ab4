using CeramicOptics.Layers;

namespace CeramicOptics.Restorations;

/// <summary>A ceramic to choose: one translucency grade of a family.</summary>
public sealed record Ceramic : IFormattable
{
    /// <summary>A ceramic.</summary>
    /// <param name="family">Name of the family.</param>
    /// <param name="grade">Translucency grade within the family, 1 to 100; 1 is the most translucent.</param>
    /// <param name="material">Its optical constants.</param>
    /// <exception cref="ArgumentOutOfRangeException">Grade outside its range.</exception>
    public Ceramic(string family, int grade, Material material)
    {
        Family = Guard.NotBlank(family);
        Grade = Guard.InRange(grade, 1, 100);
        Material = Guard.NotNull(material);
    }

    /// <summary>Name of the family.</summary>
    public string Family { get; }

    /// <summary>Translucency grade within the family; 1 is the most translucent.</summary>
    public int Grade { get; }

    /// <summary>Its optical constants.</summary>
    public Material Material { get; }

    /// <summary>Smallest thickness that strength requires of this ceramic; not given by default.</summary>
    public StrengthLimit Strength
    {
        get;
        init => field = Guard.NotNull(value, nameof(Strength));
    } = StrengthLimit.NotGiven;

    /// <summary>Family and grade.</summary>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider) =>
        Language.Of(provider).Text("Ceramic", Family, Grade);
}
