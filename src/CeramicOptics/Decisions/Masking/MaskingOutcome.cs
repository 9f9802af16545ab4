namespace CeramicOptics.Decisions.Masking;

/// <summary>Whether, and from which thickness on, the substrate is masked.</summary>
public enum MaskingOutcome
{
    /// <summary>Within the criterion at every thickness of the range.</summary>
    MaskedThroughout,

    /// <summary>Within the criterion from some thickness up to the end of the range.</summary>
    MaskedFrom,

    /// <summary>
    /// Outside the criterion at the end of the range, for a target everywhere: no thickness from which on it is masked.
    /// </summary>
    NotMasked,

    /// <summary>
    /// For a target: within the criterion from some thickness up to another, above which the wall is too thick.
    /// </summary>
    MaskedBetween,
}
