using CeramicOptics.Mapping;

namespace CeramicOptics.Examples.ShadeApi;

/// <summary>A map of many points.</summary>
/// <param name="Differences">Colour difference at each point; null where the thickness is outside the range.</param>
/// <param name="Swatches">Display colour at each point; null there too.</param>
/// <param name="Walls">A wall for each point, with the cautions that belong to the whole map.</param>
public sealed record MapAnswer(double?[] Differences, string?[] Swatches, WallSuggestion Walls);
