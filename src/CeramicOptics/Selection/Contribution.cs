namespace CeramicOptics.Selection;

/// <summary>What one uncertain input does to a difference.</summary>
/// <param name="Input">The input, such as "thickness of body ceramic".</param>
/// <param name="DifferenceLow">Largest difference over illuminants with the input one standard uncertainty lower, all others at their values.</param>
/// <param name="DifferenceHigh">The same, one standard uncertainty higher.</param>
/// <param name="Share">Share of this input in the sum of squared changes of all, 0 to 1.</param>
public sealed record Contribution(string Input, double DifferenceLow, double DifferenceHigh, double Share);
