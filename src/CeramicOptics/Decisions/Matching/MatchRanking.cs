using System.Text.Json.Serialization;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Matching;

/// <summary>The best ways to make a restoration, for review, best first.</summary>
[JsonConverter(typeof(ReportConverter))]
public sealed class MatchRanking : Answer
{
    internal MatchRanking(Restoration restoration, IEnumerable<MatchCandidate> candidates, int considered, int pruned,
        int tooThin, IReadOnlyList<Caution> cautions)
        : base(cautions)
    {
        (Restoration, Candidates) = (restoration, Guard.Copy(candidates));
        (Considered, Pruned, TooThin) = (considered, pruned, tooThin);
    }

    /// <summary>The restoration that was asked about.</summary>
    public Restoration Restoration { get; }

    /// <summary>By largest difference, among equals by mean; empty when strength allows none of the choices.</summary>
    public IReadOnlyList<MatchCandidate> Candidates { get; }

    /// <summary>
    /// The candidate closest in colour, which need not meet the criterion; null when there is none.
    /// <see cref="Uncertainty.PredictionUncertainty"/> of its restoration gives the probability that it does.
    /// </summary>
    public MatchCandidate? Closest => Candidates.Count > 0 ? Candidates[0] : null;

    /// <summary>Number of combinations of ceramic, veneer, share and cement.</summary>
    public int Considered { get; }

    /// <summary>
    /// Number of combinations dropped before all zones were evaluated, because a zone was already worse than the worst
    /// one kept.
    /// </summary>
    internal int Pruned { get; }

    /// <summary>Number of combinations left out because a zone has no thickness that strength allows.</summary>
    public int TooThin { get; }

    /// <summary>One line for each candidate.</summary>
    private protected override string InWords(Language language) => MatchCandidate.Lines(
        language, Candidates, candidate => candidate.AgainstLimit(language));
}
