namespace CeramicOptics.Mapping;

/// <summary>Two neighbouring points of a surface and the distance between them.</summary>
/// <param name="A">Index of one point.</param>
/// <param name="B">Index of the other point.</param>
/// <param name="LengthMm">Distance along the surface, mm, 0 or more.</param>
public readonly record struct MeshEdge(int A, int B, double LengthMm);
