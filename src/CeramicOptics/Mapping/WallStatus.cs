namespace CeramicOptics.Mapping;

/// <summary>Status of the suggested wall at one point.</summary>
public enum WallStatus : byte
{
    /// <summary>
    /// The wall meets the goal of its zone, and the point's own minimum where it has one. A wall above the range of its
    /// zone, lifted by a lock or a neighbour, counts as the end of the range does: its colour was not computed, as a
    /// caution says.
    /// </summary>
    MeetsGoal,

    /// <summary>A maximum, a locked wall or a margin nearby keeps the wall below the goal or the point's own
    /// minimum.</summary>
    BelowGoal,

    /// <summary>Likewise, and the wall is below the structural minimum of its zone.</summary>
    BelowStructuralMinimum,

    /// <summary>A neighbour, a minimum or a locked wall makes the wall thicker than the zone's target allows.</summary>
    TooThickForTarget,

    /// <summary>
    /// No thickness meets the goal in this zone. The wall is not an answer: it is what strength, limits and neighbours
    /// ask, and NaN where they ask nothing.
    /// </summary>
    NoAnswer,

    /// <summary>No thickness was given (NaN), and no wall is suggested.</summary>
    NoData,
}
