namespace CeramicOptics.Decisions.Feasibility;

/// <summary>One face of a convex hull: positions of its three corners, counter-clockwise seen from outside.</summary>
/// <param name="A">Position of the first corner.</param>
/// <param name="B">Position of the second corner.</param>
/// <param name="C">Position of the third corner.</param>
internal readonly record struct HullTriangle(int A, int B, int C);
