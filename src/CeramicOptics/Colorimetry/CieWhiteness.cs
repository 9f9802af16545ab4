namespace CeramicOptics.Colorimetry;

/// <summary>CIE whiteness and tint (CIE 15:2004, 9.4).</summary>
/// <param name="Whiteness">W; 100 for the perfect diffuser.</param>
/// <param name="Tint">T; positive greenish, negative reddish.</param>
/// <param name="IsInRange">True where the formula is meant to hold.</param>
public readonly record struct CieWhiteness(double Whiteness, double Tint, bool IsInRange);
