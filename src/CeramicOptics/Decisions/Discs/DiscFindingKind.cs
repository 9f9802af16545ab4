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
    /// The prediction does not reach the limit in the range of the wall, so that there is no masking thickness; discs
    /// are chosen for the difference at the available thickness.
    /// </summary>
    NoCrossing,

    /// <summary>
    /// The readings given deviate by more than noise from what the material's K and S predict: the constants come from
    /// other readings, or the fit is poor. Value: root mean square of the deviations, in standard uncertainties.
    /// </summary>
    PoorFit,

    /// <summary>
    /// The readings given do not determine K or S at some wavelength: no uncertainty can be stated without a further
    /// disc.
    /// </summary>
    Undetermined,

    /// <summary>Readings through a window were treated as those of a large area.</summary>
    WindowAsLarge,
}
