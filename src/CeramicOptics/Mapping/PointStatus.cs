namespace CeramicOptics.Mapping;

/// <summary>What can be said of one point of a map.</summary>
public enum PointStatus : byte
{
    /// <summary>The difference is within the criterion and strength allows the thickness.</summary>
    Masked,

    /// <summary>The difference is above the criterion.</summary>
    Shows,

    /// <summary>The difference is within the criterion, but the wall is below the structural minimum.</summary>
    BelowStructuralMinimum,

    /// <summary>No thickness was given (NaN).</summary>
    NoData,

    /// <summary>The thickness is outside the range of the response.</summary>
    OutOfRange,
}
