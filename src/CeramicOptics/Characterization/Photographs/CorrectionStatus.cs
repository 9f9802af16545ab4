namespace CeramicOptics.Characterization.Photographs;

/// <summary>Whether a method could be judged with the chart given.</summary>
public enum CorrectionStatus
{
    /// <summary>Judged: its leave-one-out errors are known.</summary>
    Evaluated,

    /// <summary>
    /// Not judged: the chart has fewer than three patches for every two terms (common practice, no source).
    /// </summary>
    TooFewPatches,

    /// <summary>
    /// Not judged: the colours of the chart repeat, or lie in a plane, so that they do not determine the terms.
    /// </summary>
    NotDetermined,
}
