namespace CeramicOptics.Decisions.Masking;

/// <summary>A thickness at which the largest difference passes the limit of the criterion.</summary>
/// <param name="WallMm">Thickness of the wall, mm.</param>
/// <param name="IntoMasking">True when thicker is masked, false when thicker is not masked any more.</param>
public readonly record struct Crossing(double WallMm, bool IntoMasking);
