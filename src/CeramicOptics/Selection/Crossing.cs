namespace CeramicOptics.Selection;

/// <summary>A thickness at which the worst difference passes the limit of the criterion.</summary>
/// <param name="ThicknessMm">Thickness, mm.</param>
/// <param name="IntoMasking">True when thicker is masked, false when thicker is not masked any more.</param>
public sealed record Crossing(double ThicknessMm, bool IntoMasking);
