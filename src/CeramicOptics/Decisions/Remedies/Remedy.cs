namespace CeramicOptics.Selection;

/// <summary>A change that would bring a candidate nearer to its target.</summary>
/// <param name="Kind">What is changed.</param>
/// <param name="Text">The change in words.</param>
/// <param name="DifferenceAfter">Largest difference afterwards: of the limiting zone, or of all zones where the change concerns all (grade, liner).</param>
/// <param name="Meets">True when that is within the criterion.</param>
/// <param name="Cautions">What must be shown with it.</param>
public sealed record Remedy(RemedyKind Kind, string Text, double DifferenceAfter, bool Meets, IReadOnlyList<Caution> Cautions);
