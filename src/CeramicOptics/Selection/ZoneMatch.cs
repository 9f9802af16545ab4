using CeramicOptics.Layers;

namespace CeramicOptics.Selection;

/// <summary>One zone of a candidate: what is laid there, and how near it comes to the target.</summary>
/// <param name="Zone">The zone.</param>
/// <param name="Stack">All layers there over the stump.</param>
/// <param name="WallMm">Thickness of ceramic and veneer together, mm.</param>
/// <param name="Cement">The cement and its film.</param>
/// <param name="Worst">The illuminant with the largest difference to the target; its thickness is the wall.</param>
public sealed record ZoneMatch(Zone Zone, LayerStack Stack, double WallMm, Layer Cement, WorstCase Worst);
