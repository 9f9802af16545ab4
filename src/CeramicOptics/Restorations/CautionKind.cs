namespace CeramicOptics.Restorations;

/// <summary>What a user of a result must keep in mind.</summary>
public enum CautionKind
{
    /// <summary>The thickness is about colour alone; strength is not assessed.</summary>
    StrengthNotAssessed,

    /// <summary>No strength limit was given, so that no thickness is recommended.</summary>
    StrengthLimitNotGiven,

    /// <summary>The strength limit asks for more than colour does, and governs.</summary>
    StructuralMinimumGoverns,

    /// <summary>The room available is below what strength asks, or some choices were left out because of it.</summary>
    BelowStructuralMinimum,

    /// <summary>More thickness may mean that more tooth is removed, which this library does not decide.</summary>
    ToothReduction,

    /// <summary>
    /// No thickness considered masks in the share of pieces asked for; without a subject, the number of ceramics for
    /// which this holds in some zone.
    /// </summary>
    NotReliable,

    /// <summary>A suggested thickness is above the range for which colours were computed.</summary>
    AboveRange,

    /// <summary>Constants are of two-flux theory, whose own error is larger than that of radiative transfer.</summary>
    TwoFluxTheory,

    /// <summary>A colour known only as L*a*b* was turned into an estimated spectrum.</summary>
    EstimatedSpectrum,

    /// <summary>Spectra end before the ends of the visible range and their end values were held.</summary>
    ShortSpectrum,

    /// <summary>An uncertainty is not known and not included.</summary>
    UncertaintyIncomplete,

    /// <summary>Light that goes sideways was computed for even layers and sharp rims.</summary>
    SidewaysLight,

    /// <summary>
    /// A target or stump was read over an area that is not stated and was taken as large; a small window would have
    /// lost light sideways.
    /// </summary>
    AreaNotStated,

    /// <summary>
    /// A target or stump was read through a window and is used without correction for the light lost sideways;
    /// <see cref="Characterization.WindowCorrection"/> corrects it.
    /// </summary>
    LightLostSideways,

    /// <summary>
    /// Each point was judged over the stump of its own zone alone; near another zone a darker stump shows sideways.
    /// </summary>
    EachPointAlone,

    /// <summary>A target is met up to a thickness only; thicker walls are too thick for it, or not known.</summary>
    TooThickForTarget,

    /// <summary>Limits of single points keep a suggested wall below the goal; the stump can show there.</summary>
    WallBelowGoal,

    /// <summary>A zone has no thickness that meets the goal; its walls only follow strength, limits and
    /// neighbours.</summary>
    NoWallMeetsGoal,

    /// <summary>Locked walls contradict other limits, so that the wall is steeper there than allowed.</summary>
    SteepLockedWall,

    /// <summary>
    /// The film of cement is thicker than the 0.2 mm that films usually have at most: it hides part of the stump, and a
    /// thinner one would not.
    /// </summary>
    ThickCement,

    /// <summary>
    /// How far forward the layers scatter is not known; colours beside the rim of a stump depend on it.
    /// </summary>
    UnknownAnisotropy,

    /// <summary>The points of a mesh are too far apart for the rim of a stump.</summary>
    CoarseMesh,

    /// <summary>
    /// The wall that reliability and strength ask for is thicker than the room of a zone, by the value in mm; without a
    /// subject, the number of ceramics for which this holds in some zone.
    /// </summary>
    DoesNotFit,
}
