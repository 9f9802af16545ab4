namespace CeramicOptics.Selection;

/// <summary>The nominal thickness that makes a stated share of pieces meet the criterion.</summary>
/// <param name="OpticalMinimumMm">Smallest nominal thickness from which on the share is reached up to the end of the range, mm (to 0.001); null when it is not.</param>
/// <param name="RecommendedMinimumMm">The same, or the structural minimum where that is larger, mm; null where that is above the range.</param>
/// <param name="Share">The share asked for, 0 to 1.</param>
/// <param name="Reached">Probability at the recommended minimum, or at the end of the range where there is none.</param>
/// <param name="Cautions">What must be shown with the result.</param>
public sealed record ToleranceResult(
    double? OpticalMinimumMm, double? RecommendedMinimumMm, double Share, Probability Reached, IReadOnlyList<Caution> Cautions)
{
    /// <summary>In words, such as "0.92 mm or more, for 95 % of pieces".</summary>
    public override string ToString() => RecommendedMinimumMm is double mm
        ? FormattableString.Invariant($"{Math.Ceiling(100 * mm) / 100:0.00} mm or more, for {100 * Share:0.#} % of pieces")
        : FormattableString.Invariant($"no thickness of the range is enough for {100 * Share:0.#} % of pieces; at its end {100 * Reached.Value:0} % meet the criterion");
}
