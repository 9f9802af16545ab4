using System.Globalization;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Decisions.Remedies;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Decisions.Uncertainty;

namespace CeramicOptics.Examples.SelectCeramic;

/// <summary>The decisions as text.</summary>
internal static class WholeCaseText
{
    private static readonly CultureInfo Invariant = CultureInfo.InvariantCulture;

    public static void Write(TextWriter output, CaseFile caseFile, WholeCase decided)
    {
        output.WriteLine(string.Create(
            Invariant,
            $"\nMatch to the {caseFile.TargetName}: {decided.Ranking.Considered} combinations of ceramic and cement, "
                + $"by the worst zone"));
        int rank = 0;
        foreach (MatchCandidate candidate in decided.Ranking.Candidates.Take(8))
        {
            rank++;
            string walls = string.Join("  ", candidate.Zones.Select(zone =>
                string.Create(Invariant, $"{zone.Zone} {zone.WallMm:0.00} mm")));
            output.WriteLine(string.Create(
                Invariant,
                $"{rank,3}{(candidate.Meets ? "*" : " ")} {candidate,-60} worst {candidate.WorstDifference:0.0}, mean "
                    + $"{candidate.MeanDifference:0.0}  {walls}"));
            output.WriteLine($"       {candidate.Explain()}");
        }

        MatchCandidate chosen = decided.Chosen;
        ZonePrediction sure = decided.Uncertainty;
        bool hides = decided.Masking.IsReliable;
        if (!hides)
        {
            output.WriteLine($"The stump is not reliably hidden: {decided.LeastHidden}.");
        }

        string lead = decided.IsReliable
            ? string.Create(Invariant, $"Suggested for review: {chosen}: the most translucent that meets the criterion "
                + $"in {100 * WholeCase.ReliableShare:0} % of pieces")
            : chosen.Meets
            ? string.Create(Invariant, $"No choice meets the criterion in {100 * WholeCase.ReliableShare:0} % of "
                + $"pieces. The most translucent of the most certain is {chosen}")
            : $"No choice meets the criterion. The closest is {chosen}";
        output.WriteLine(string.Create(
            Invariant,
            $"{lead} (TP00 {chosen.Translucency:0.0}, worst difference {chosen.WorstDifference:0.0}, limit "
                + $"{caseFile.Criterion.Limit:0.0}, margin "
                + $"{caseFile.Criterion.Limit - chosen.WorstDifference:+0.0;-0.0;0.0}, met with probability "
                + $"{sure.Meets})."));
        output.WriteLine(decided.Remedies.Remedies.Count == 0
            ? "No single change would bring it closer."
            : "What would bring it closer:");
        foreach (Remedy remedy in decided.Remedies.Remedies.Take(4))
        {
            output.WriteLine($"  - {remedy}{(remedy.Meets ? ", within the limit" : "")}");
        }

        StainRecipe stain = decided.Stain;
        output.WriteLine(!stain.Helps
            ? "Stain: none of the stains brings it visibly closer."
            : string.Create(
                Invariant,
                $"Stain on it, in {caseFile.StainLayer.Carrier}, {1000 * caseFile.StainLayer.AppliedThicknessMm:0} µm "
                    + $"thick as applied: {string.Join(", ", stain.Parts)} (share of the full load); worst difference "
                    + $"{stain.WorstWithout:0.0} without becomes {stain.WorstWith:0.0}, metamerism "
                    + $"{stain.Metamerism:0.0}."));
        output.WriteLine(string.Create(
            Invariant,
            $"Uncertainty, zone '{sure.Zone}' without stain: difference {sure.Difference:0.0} ± "
                + $"{sure.StandardUncertainty:0.0}, 95 % within {sure.Interval95}; within the acceptability threshold "
                + $"with probability {sure.Acceptable}, within the perceptibility threshold with {sure.Imperceptible}. "
                + $"Matters most: {sure.Contributions[0]} ({100 * sure.Contributions[0].Share:0} %)."));
        if (hides)
        {
            ZoneMasking least = decided.LeastHidden;
            string margin = least.MarginMm is double marginMm
                ? string.Create(Invariant, $"; margin {-MinimumThickness.RoundedUp(-marginMm):+0.00;-0.00;0.00} mm")
                : "";
            output.WriteLine(string.Create(
                Invariant,
                $"Hiding the stump: the walls of this choice hide it reliably. In zone '{least.Zone}', where the "
                    + $"margin is smallest, a wall of {least.Zone.AvailableMm:0.00} mm hides it with probability "
                    + $"{least.MasksAtAvailable}; needed there: {least.Minimum}{margin}."));
        }

        output.WriteLine(decided.Feasibility);
        if (decided.Wish is not null)
        {
            output.WriteLine($"Also wished for: {caseFile.Wish}. {decided.Wish}");
        }
    }
}
