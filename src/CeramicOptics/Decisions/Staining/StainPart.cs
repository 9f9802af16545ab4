namespace CeramicOptics.Selection;

/// <summary>One pigment of a mixture.</summary>
/// <param name="Pigment">The pigment.</param>
/// <param name="Load">How much of it, in the caller's unit of load, as applied.</param>
public sealed record StainPart(Pigment Pigment, double Load)
{
    /// <summary>For example "ochre 0.42".</summary>
    public override string ToString() => FormattableString.Invariant($"{Pigment} {Load:0.###}");
}
