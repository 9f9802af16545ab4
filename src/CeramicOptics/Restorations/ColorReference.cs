namespace CeramicOptics.Restorations;

/// <summary>
/// The colour that a restoration over its stump is compared with: a <see cref="Target"/>, or a
/// <see cref="MaskingReference"/> that moves with it.
/// </summary>
public abstract class ColorReference
{
    private protected ColorReference(string name) => Name = Guard.NotBlank(name);

    /// <summary>What the reference is, in words.</summary>
    public string Name { get; }

    /// <inheritdoc/>
    public sealed override string ToString() => Name;
}
