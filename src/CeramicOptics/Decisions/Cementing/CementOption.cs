using CeramicOptics.Layers;

namespace CeramicOptics.Selection;

/// <summary>A cement as it is bonded, and the paste that stands for it at try-in.</summary>
/// <param name="Bonded">The set cement and its film.</param>
/// <param name="TryInPaste">The paste and its film; null where there is none.</param>
public sealed record CementOption(Layer Bonded, Layer? TryInPaste = null);
