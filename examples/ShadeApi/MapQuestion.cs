namespace CeramicOptics.Examples.ShadeApi;

/// <summary>Thicknesses of many points of one crown.</summary>
/// <param name="Crown">The crown.</param>
/// <param name="ThicknessesMm">Thickness at each point, mm, at most 100,000 points.</param>
public sealed record MapQuestion(Question Crown, double[] ThicknessesMm);
