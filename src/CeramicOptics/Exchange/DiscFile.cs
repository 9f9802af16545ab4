using CeramicOptics.Characterization;

namespace CeramicOptics.Exchange;

/// <summary>Readings of discs as read from a file, their origin, and what the file did not say.</summary>
public sealed class DiscFile
{
    internal DiscFile(DiscSet discs, Provenance provenance, IEnumerable<ImportAssumption> assumptions) =>
        (Discs, Provenance, Assumptions) = (discs, provenance, Guard.Copy(assumptions));

    /// <summary>The readings, ready for <see cref="DiscCharacterization"/>.</summary>
    public DiscSet Discs { get; }

    /// <summary>Origin of the readings.</summary>
    public Provenance Provenance { get; }

    /// <summary>What the file did not say and was assumed; empty where there is nothing.</summary>
    public IReadOnlyList<ImportAssumption> Assumptions { get; }
}
