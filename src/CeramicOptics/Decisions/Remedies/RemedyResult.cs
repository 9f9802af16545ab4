using System.Text.Json.Serialization;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Remedies;

/// <summary>Single changes that would bring a candidate closer to its target, for review.</summary>
[JsonConverter(typeof(ReportConverter))]
public sealed class RemedyResult : Answer
{
    internal RemedyResult(MatchCandidate candidate, IEnumerable<Remedy> remedies, IReadOnlyList<Caution> cautions)
        : base(cautions) => (Candidate, Remedies) = (candidate, Guard.Copy(remedies));

    /// <summary>The candidate.</summary>
    public MatchCandidate Candidate { get; }

    /// <summary>Those that meet the criterion first, then by what remains; empty when nothing helps.</summary>
    public IReadOnlyList<Remedy> Remedies { get; }

    /// <summary>One line for each remedy.</summary>
    private protected override string InWords(Language language) => Remedies.Count == 0
        ? language.Text("RemedyResult.None")
        : language.Join("\n", Remedies);
}
