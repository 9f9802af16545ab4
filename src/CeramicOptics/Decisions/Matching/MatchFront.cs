using System.Text.Json.Serialization;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Matching;

/// <summary>
/// The ways to make a restoration that no other way beats in colour, translucency and thickness of the wall at once
/// (the Pareto set), for review.
/// </summary>
[JsonConverter(typeof(ReportConverter))]
public sealed class MatchFront : Answer
{
    internal MatchFront(Restoration restoration, double wantedTranslucency, IEnumerable<MatchCandidate> candidates,
        int considered, int tooThin, IReadOnlyList<Caution> cautions)
        : base(cautions)
    {
        (Restoration, WantedTranslucency, Candidates) = (restoration, wantedTranslucency, Guard.Copy(candidates));
        (Considered, TooThin) = (considered, tooThin);
    }

    /// <summary>The restoration that was asked about.</summary>
    public Restoration Restoration { get; }

    /// <summary>TP00 that was wanted for the thinnest wall.</summary>
    internal double WantedTranslucency { get; }

    /// <summary>By largest difference; empty when strength allows none of the choices.</summary>
    public IReadOnlyList<MatchCandidate> Candidates { get; }

    /// <summary>Number of combinations of ceramic, veneer, share and cement.</summary>
    public int Considered { get; }

    /// <summary>Number of combinations left out because a zone has no thickness that strength allows.</summary>
    public int TooThin { get; }

    /// <summary>One line for each candidate.</summary>
    private protected override string InWords(Language language) => MatchCandidate.Lines(
        language, Candidates, candidate => language.Text(
            "MatchFront.Candidate", candidate.AgainstLimit(language), candidate.Translucency,
            candidate.Zones.Max(zone => zone.WallMm)));
}
