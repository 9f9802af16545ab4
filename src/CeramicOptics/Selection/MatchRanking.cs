namespace CeramicOptics.Selection;

/// <summary>The best ways to make a restoration, best first.</summary>
/// <param name="Candidates">By largest difference, among equals by mean; empty when strength allows none of the choices.</param>
/// <param name="Considered">How many combinations of ceramic, veneer, share and cement there were.</param>
/// <param name="Pruned">How many of them were dropped before all zones were evaluated, because a zone was already worse than the worst kept.</param>
/// <param name="TooThin">How many were left out because a zone has no thickness that strength allows.</param>
/// <param name="Cautions">What must be shown with the ranking.</param>
public sealed record MatchRanking(
    IReadOnlyList<MatchCandidate> Candidates, int Considered, int Pruned, int TooThin, IReadOnlyList<Caution> Cautions)
{
    /// <summary>The best candidate; null when there is none.</summary>
    public MatchCandidate? Best => Candidates.Count > 0 ? Candidates[0] : null;
}
