namespace CeramicOptics.Mapping;

/// <summary>What can be said of one point of a map.</summary>
/// <remarks>
/// The first that applies counts: <see cref="NoData"/>, <see cref="BelowRange"/>, <see cref="AboveRange"/>,
/// <see cref="Shows"/>, <see cref="BelowStructuralMinimum"/>, <see cref="MaskedByColorOnly"/>,
/// <see cref="MaskedReliably"/>. Thicknesses are compared with those of the answer of the zone: at its thickness by
/// colour no point shows, and at its recommended thickness it is masked reliably, also where that is rounded to single
/// precision or up to 0.01 mm inside the range. For a target, "masked" means that it is met, and "shows" that it is
/// missed, whether the wall is too thin or too thick.
/// </remarks>
public enum PointStatus : byte
{
    /// <summary>
    /// The stated share of pieces meets the criterion, with every input uncertain, and the thickness is not below a
    /// strength limit, where one is given.
    /// </summary>
    MaskedReliably,

    /// <summary>
    /// The predicted difference is within the criterion, but by less than the uncertainty: at the thin end of this
    /// region half of all pieces show the stump. Also where no reliable thickness is known.
    /// </summary>
    MaskedByColorOnly,

    /// <summary>The predicted difference is above the criterion.</summary>
    Shows,

    /// <summary>The difference is within the criterion, but the wall is below the structural minimum.</summary>
    BelowStructuralMinimum,

    /// <summary>No thickness was given (NaN).</summary>
    NoData,

    /// <summary>A thickness is below the range of the response: nothing is known of its colour.</summary>
    BelowRange,

    /// <summary>A thickness is above the range of the response: nothing is known of its colour.</summary>
    AboveRange,
}
