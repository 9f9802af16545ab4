namespace CeramicOptics.Restorations;

/// <summary>What a user of a result must keep in mind.</summary>
public enum CautionKind
{
    /// <summary>Thicknesses concern colour alone; strength is not assessed.</summary>
    StrengthNotAssessed,

    /// <summary>No strength limit was given, so that no thickness is recommended.</summary>
    StrengthLimitNotGiven,

    /// <summary>The strength limit is larger than colour requires, so it decides.</summary>
    StructuralMinimumGoverns,

    /// <summary>
    /// The available room is less than strength requires, or some choices were left out because of that.
    /// </summary>
    BelowStructuralMinimum,

    /// <summary>More thickness may mean that more tooth is removed, which this library does not decide.</summary>
    ToothReduction,

    /// <summary>
    /// No thickness in the range masks in the required share of pieces; without a subject, the number of ceramics for
    /// which this holds in some zone.
    /// </summary>
    NotReliable,

    /// <summary>A suggested thickness is above the range for which colours were computed.</summary>
    AboveRange,

    /// <summary>Constants are of two-flux theory, whose own error is larger than that of radiative transfer.</summary>
    TwoFluxTheory,

    /// <summary>A colour known only as L*a*b* was turned into an estimated spectrum.</summary>
    EstimatedSpectrum,

    /// <summary>Spectra do not cover the whole visible range; their end values were continued.</summary>
    ShortSpectrum,

    /// <summary>An uncertainty is not known and therefore not included.</summary>
    UncertaintyIncomplete,

    /// <summary>Light that spreads sideways was computed for flat layers and sharp rims.</summary>
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

    /// <summary>
    /// A target is met only up to some thickness; thicker walls are too thick for it, or were not considered.
    /// </summary>
    TooThickForTarget,

    /// <summary>Limits at single points keep a suggested wall below the goal; the stump can show there.</summary>
    WallBelowGoal,

    /// <summary>
    /// A zone has no thickness that meets the goal; its walls follow only strength, limits and neighbours.
    /// </summary>
    NoWallMeetsGoal,

    /// <summary>Locked walls contradict other limits, so that the wall is steeper there than allowed.</summary>
    SteepLockedWall,

    /// <summary>
    /// The cement film is thicker than 0.2 mm, which films rarely exceed: it hides part of the stump, and a thinner one
    /// would hide less.
    /// </summary>
    ThickCement,

    /// <summary>
    /// How strongly the layers scatter forward is not known; colours beside the rim of a stump depend on it.
    /// </summary>
    UnknownAnisotropy,

    /// <summary>The points of a mesh are too far apart to resolve the rim of a stump.</summary>
    CoarseMesh,

    /// <summary>
    /// The wall that reliability and strength require is thicker than the room of a zone, by the value in mm; without a
    /// subject, the number of ceramics for which this holds in some zone.
    /// </summary>
    DoesNotFit,

    /// <summary>
    /// A change is judged by the prediction alone: where it just meets the criterion, about half of all pieces miss it.
    /// </summary>
    PredictionAlone,
}
