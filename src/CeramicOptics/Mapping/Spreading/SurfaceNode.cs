using System.Numerics;

namespace CeramicOptics.Mapping.Spreading;

/// <summary>A piece of surface.</summary>
/// <param name="Position">Its middle, mm.</param>
/// <param name="Normal">Unit vector.</param>
/// <param name="AreaMm2">Its area, mm², above 0.</param>
internal readonly record struct SurfaceNode(Vector3 Position, Vector3 Normal, float AreaMm2);
