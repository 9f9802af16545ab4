using System.Text.Json.Serialization;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Discs;

/// <summary>Which discs make an answer more certain, and by how much.</summary>
/// <remarks>Uncertainties are mm for a thickness and units of the criterion's formula for a difference.</remarks>
[JsonConverter(typeof(ReportConverter))]
public sealed class DiscPlan : Report
{
    internal DiscPlan(
        DiscGoal goal, string material, Zone zone, double answer, double? fromMaterial, double fromOthers,
        IReadOnlyList<Contribution> others, IEnumerable<PlannedDisc> candidates, IEnumerable<PlannedDisc> sequence,
        IEnumerable<DiscFinding> findings)
    {
        (Goal, Material, Zone, Answer) = (goal, material, zone, answer);
        (FromMaterial, FromOthers, Others) = (fromMaterial, fromOthers, others);
        StandardUncertainty = fromMaterial is double own
            ? Math.Sqrt((own * own) + (fromOthers * fromOthers))
            : null;
        Candidates = Guard.Copy(candidates.OrderBy(disc => disc.StandardUncertainty));
        Sequence = Guard.Copy(sequence);
        Findings = Guard.Copy(findings);
    }

    /// <summary>The answer for which discs are chosen.</summary>
    internal DiscGoal Goal { get; }

    /// <summary>Name of the material that the discs are of.</summary>
    internal string Material { get; }

    /// <summary>The zone that governs: of the thickest masking wall, or of the largest difference.</summary>
    public Zone Zone { get; }

    /// <summary>The answer by the constants given: mm, or a difference.</summary>
    public double Answer { get; }

    /// <summary>Standard uncertainty of the answer with the readings given; null while there are none.</summary>
    public double? StandardUncertainty { get; }

    /// <summary>The part of it that comes from K and S of the material; null while there are no readings.</summary>
    public double? FromMaterial { get; }

    /// <summary>The part that comes from everything else, which no disc of the material changes.</summary>
    public double FromOthers { get; }

    /// <summary>
    /// The other inputs, the largest share first; shares are those in <see cref="FromOthers"/>, squared.
    /// </summary>
    public IReadOnlyList<Contribution> Others { get; }

    /// <summary>Each disc that could come next, alone; the smallest expected uncertainty first.</summary>
    public IReadOnlyList<PlannedDisc> Candidates { get; }

    /// <summary>
    /// The discs to make, in this order, each the best addition to those before it; it ends where the next one would
    /// not lower the uncertainty by 5 %. Empty when no disc helps.
    /// </summary>
    public IReadOnlyList<PlannedDisc> Sequence { get; }

    /// <summary>What limits the plan.</summary>
    public IReadOnlyList<DiscFinding> Findings { get; }

    /// <summary>The answer with its uncertainty, and the discs to make.</summary>
    private protected override string InWords(Language language)
    {
        string discs = Sequence.Count > 0 ? language.Join("; ", Sequence) : language.Text("DiscPlan.None");
        return language.Text(
            $"DiscPlan.{Goal}{(FromMaterial is null ? ".New" : "")}", Zone.Name, Answer, StandardUncertainty,
            FromMaterial, language.NameOf(Material), FromOthers, discs);
    }
}
