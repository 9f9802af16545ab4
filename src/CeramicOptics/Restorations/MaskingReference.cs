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
        new($"the same restoration over {Guard.NotNull(substrate).Name}", substrate);

    /// <summary>The good substrate; null for <see cref="SelfBacked"/>.</summary>
    public Substrate? Substrate { get; }
}
