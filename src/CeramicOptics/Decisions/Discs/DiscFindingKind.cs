namespace CeramicOptics.Decisions.Discs;

/// <summary>What limits a plan of discs.</summary>
public enum DiscFindingKind
{
    /// <summary>
    /// No disc beyond those of <see cref="DiscPlan.Sequence"/> lowers the standard uncertainty of the answer by 5 %
    /// or more. Value: the uncertainty with the best further disc relative to that without it.
    /// <see cref="DiscFinding.Dominant"/> is the input to improve instead.
    /// </summary>
    NoDiscHelps,

    /// <summary>
    /// The prediction crosses the limit nowhere in the range of the wall, so that there is no masking thickness; discs
    /// are chosen for the difference at the available thickness.
    /// </summary>
    NoCrossing,

    /// <summary>
    /// The readings given miss what the material's K and S predict by more than noise: these are not the constants that
    /// the readings give, or the fit is poor. Value: root mean square of the misses, in standard uncertainties.
    /// </summary>
    PoorFit,

    /// <summary>
    /// The readings given leave K or S open at some wavelength: there is no uncertainty without a further disc.
    /// </summary>
    Undetermined,

    /// <summary>Readings through a window were counted as those of a large area.</summary>
    WindowAsLarge,
}
