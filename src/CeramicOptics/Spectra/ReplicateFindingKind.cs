namespace CeramicOptics.Spectra;

/// <summary>What is conspicuous among replicates.</summary>
public enum ReplicateFindingKind
{
    /// <summary>One replicate lies farther from the others than chance explains.</summary>
    Outlier,

    /// <summary>The replicates rise or fall in the order in which they were read.</summary>
    Drift,
}
