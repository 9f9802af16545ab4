using CeramicOptics.Characterization;

namespace CeramicOptics.Exchange;

/// <summary>Readings of discs as read from a file, how they came about, and what the file did not say.</summary>
public sealed class DiscFile
{
    internal DiscFile(DiscSet discs, Provenance provenance, IEnumerable<ImportAssumption> assumptions) =>
        (Discs, Provenance, Assumptions) = (discs, provenance, Guard.Copy(assumptions));

    /// <summary>The readings, ready for <see cref="DiscCharacterization"/>.</summary>
    public DiscSet Discs { get; }

    /// <summary>How they came about.</summary>
    public Provenance Provenance { get; }

    /// <summary>What the file did not say and was taken for granted; empty where there is nothing.</summary>
    public IReadOnlyList<ImportAssumption> Assumptions { get; }
}
