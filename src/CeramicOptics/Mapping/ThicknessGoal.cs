using CeramicOptics.Decisions.Masking;

namespace CeramicOptics.Mapping;

/// <summary>Which minimum thickness is wanted. A strength limit that was given applies to all of them.</summary>
/// <remarks>For a target all of them hold up to a thickness only (<see cref="MinimumThickness"/>).</remarks>
public enum ThicknessGoal
{
    /// <summary>Reliable by colour and allowed by strength; there is none where no strength limit was given.</summary>
    Recommended,

    /// <summary>
    /// Reliable by colour: the stated share of pieces masks. Also given where no strength limit is known, so that it
    /// may be thinner than strength allows: show the cautions.
    /// </summary>
    Reliable,

    /// <summary>
    /// The prediction meets the criterion, but half of all pieces made this way would show the stump: for comparisons,
    /// not to make a restoration.
    /// </summary>
    ByColor,
}
