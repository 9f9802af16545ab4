using CeramicOptics.Layers;

namespace CeramicOptics.Restorations;

/// <summary>What a restoration would look like without the influence of the stump.</summary>
/// <remarks>Immutable and safe to share.</remarks>
public sealed class MaskingReference : ColorReference
{
    private MaskingReference(string name, Substrate? substrate)
        : base(name) => Substrate = substrate;

    /// <summary>The same restoration with its core infinitely thick: the stump has no influence at all.</summary>
    public static MaskingReference SelfBacked { get; } = new("the same ceramic, infinitely thick", null);

    /// <summary>The same restoration, at the same thickness, over a good substrate such as a light tooth.</summary>
    /// <param name="substrate">The good substrate.</param>
    public static MaskingReference Over(Substrate substrate) =>
        new(NameOver(Guard.NotNull(substrate), Language.English), substrate);

    /// <summary>The good substrate; null for <see cref="SelfBacked"/>.</summary>
    public Substrate? Substrate { get; }

    private protected override string InWords(Language language) =>
        Substrate is null ? base.InWords(language) : NameOver(Substrate, language);

    private static string NameOver(Substrate substrate, Language language) =>
        language.Text("MaskingReference.Over", substrate.Name);
}
