namespace CeramicOptics.Decisions.Delivered;

/// <summary>What questions or limits a correction.</summary>
public enum CorrectionFindingKind
{
    /// <summary>Fewer than ten pieces: the prior still dominates.</summary>
    FewPieces,

    /// <summary>
    /// All pieces of a ceramic have the same thickness over the same stump: errors of thickness, K and S cannot be told
    /// apart, and the prior decides which of them was corrected. Predictions for other thicknesses and stumps gain
    /// little.
    /// </summary>
    EqualPieces,

    /// <summary>
    /// A piece fits none of the others: check whether its reading belongs to another piece. It is left out.
    /// </summary>
    OutlyingPiece,

    /// <summary>The stored prediction is not what the given constants predict: it was made with others.</summary>
    OtherPrediction,

    /// <summary>
    /// A quantity moved by more than 2.5 standard uncertainties: find the cause before relying on it.
    /// </summary>
    LargeCorrection,

    /// <summary>
    /// Pieces scatter more than their stated uncertainties: by the factor given, in standard deviation.
    /// </summary>
    LargeScatter,

    /// <summary>The iteration did not converge; the result is the last step.</summary>
    NotSettled,

    /// <summary>
    /// With the correction the wall of a piece would be thinner than a fifth of what was planned, or than its veneer:
    /// its colour was taken at that thickness, and the correction of walls does not hold for it.
    /// </summary>
    ImpossibleWall,

    /// <summary>
    /// With the correction the film of a cement would be thinner than none: colours were taken without it, and the
    /// correction of films does not hold.
    /// </summary>
    ImpossibleFilm,
}
