namespace CeramicOptics.Decisions.Masking;

/// <summary>The difference seen at a distance from the middle of a spot on the stump.</summary>
/// <param name="DistanceMm">Distance along the surface, mm.</param>
/// <param name="Difference">Largest difference over the lights from the reference of the zone.</param>
public readonly record struct SpotPoint(double DistanceMm, double Difference);
