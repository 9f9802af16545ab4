namespace CeramicOptics.Restorations;

/// <summary>
/// The colour with which a restoration over its stump is compared: a <see cref="Target"/>, or a
/// <see cref="MaskingReference"/> that moves with it.
/// </summary>
public abstract class ColorReference : Formattable
{
    private protected ColorReference(string name) => Name = Guard.NotBlank(name);

    /// <summary>What the reference is, in words.</summary>
    public string Name { get; }

    private protected override string InWords(Language language) => language.NameOf(Name);
}
