using CeramicOptics.Layers;

namespace CeramicOptics.Selection;

/// <summary>Where the stain is laid, and what the colour there should be.</summary>
/// <param name="Name">Name to show in results, such as the zone.</param>
/// <param name="Stack">The restoration there without stain.</param>
/// <param name="Position">The stain comes above the layer of this number: 0 for external stain, higher for stain between layers.</param>
/// <param name="Target">The colour wanted; a target, not a masking reference that moves with the stack.</param>
public sealed record StainPlace(string Name, LayerStack Stack, int Position, MaskingReference Target);
