using CeramicOptics.Characterization;

namespace CeramicOptics.Exchange;

/// <summary>Readings of discs as read from a file, and how they came about.</summary>
public sealed record DiscFile
{
    internal DiscFile(DiscSet discs, Provenance provenance) => (Discs, Provenance) = (discs, provenance);

    /// <summary>The readings, ready for <see cref="DiscCharacterization"/>.</summary>
    public DiscSet Discs { get; }

    /// <summary>How they came about.</summary>
    public Provenance Provenance { get; }
}
