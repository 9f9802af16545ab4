using CeramicOptics.Layers;

namespace CeramicOptics.Decisions.Cementing;

/// <summary>A cement, and the paste that represents it at try-in.</summary>
/// <remarks>Immutable, equal by value; materials are compared by reference.</remarks>
public sealed record CementOption : IFormattable
{
    /// <summary>A cement, with its try-in paste where there is one.</summary>
    /// <param name="bonded">The set cement and its film.</param>
    /// <param name="tryInPaste">The paste and its film; null where there is none.</param>
    public CementOption(Layer bonded, Layer? tryInPaste = null) =>
        (Bonded, TryInPaste) = (Guard.NotNull(bonded), tryInPaste);

    /// <summary>The set cement and its film.</summary>
    public Layer Bonded { get; }

    /// <summary>The paste and its film; null where there is none.</summary>
    internal Layer? TryInPaste { get; }

    /// <summary>The cement, and its paste where there is one.</summary>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider) => TryInPaste is null
        ? Bonded.ToString(provider)
        : Language.Of(provider).Text("CementOption.TriedIn", Bonded, TryInPaste);
}
