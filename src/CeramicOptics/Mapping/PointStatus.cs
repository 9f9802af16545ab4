namespace CeramicOptics.Mapping;

/// <summary>What can be said of one point of a map.</summary>
public enum PointStatus : byte
{
    /// <summary>
    /// The predicted difference is within the criterion, and the thickness is not below a strength limit, where one is
    /// given. Half of all pieces at the edge of this region show the stump: missing thickness by
    /// <see cref="ThicknessGoal.Reliable"/> or <see cref="ThicknessGoal.Recommended"/> tells where a wall is enough.
    /// </summary>
    MaskedByColor,

    /// <summary>The difference is above the criterion.</summary>
    Shows,

    /// <summary>The difference is within the criterion, but the wall is below the structural minimum.</summary>
    BelowStructuralMinimum,

    /// <summary>No thickness was given (NaN).</summary>
    NoData,

    /// <summary>The thickness is outside the range of the response.</summary>
    OutOfRange,
}
