namespace CeramicOptics.Decisions.Discs;

/// <summary>The answer that discs are to make more certain.</summary>
public enum DiscGoal
{
    /// <summary>The thickness from which on the wall meets the criterion by the prediction, mm.</summary>
    MaskingThickness,

    /// <summary>
    /// The largest difference over illuminants at the available thickness, as a match or a masking reports it.
    /// </summary>
    Difference,
}
