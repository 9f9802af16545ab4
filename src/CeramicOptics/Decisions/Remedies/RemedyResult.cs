using CeramicOptics.Decisions.Matching;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Remedies;

/// <summary>What would bring a candidate nearer to its target, for review.</summary>
public sealed class RemedyResult
{
    internal RemedyResult(MatchCandidate candidate, IEnumerable<Remedy> remedies, IReadOnlyList<Caution> cautions) =>
        (Candidate, Remedies, Cautions) = (candidate, Guard.Copy(remedies), cautions);

    /// <summary>The candidate.</summary>
    public MatchCandidate Candidate { get; }

    /// <summary>Those that meet the criterion first, then by what remains; empty when nothing helps.</summary>
    public IReadOnlyList<Remedy> Remedies { get; }

    /// <summary>What must be shown with the result.</summary>
    public IReadOnlyList<Caution> Cautions { get; }

    /// <summary>One line for each remedy.</summary>
    public override string ToString() => Remedies.Count == 0 ? "no single change helps" : string.Join("\n", Remedies);
}
