namespace CeramicOptics.Restorations;

/// <summary>
/// The colour that a restoration over its stump is compared with: a <see cref="Target"/>, or a
/// <see cref="MaskingReference"/> that moves with it.
/// </summary>
public abstract class ColorReference : IFormattable
{
    private protected ColorReference(string name) => Name = Guard.NotBlank(name);

    /// <summary>What the reference is, in words.</summary>
    public string Name { get; }

    /// <inheritdoc/>
    public sealed override string ToString() => ToString(null);

    /// <summary>The same in the language of a culture.</summary>
    /// <param name="provider">A culture or a <see cref="Language"/>; null for English.</param>
    public string ToString(IFormatProvider? provider) => InWords(Language.Of(provider));

    string IFormattable.ToString(string? format, IFormatProvider? provider) => ToString(provider);

    private protected virtual string InWords(Language language) => language.NameOf(Name);
}
