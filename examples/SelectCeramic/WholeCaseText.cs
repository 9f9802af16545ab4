using System.Globalization;
using CeramicOptics.Selection;

namespace CeramicOptics.Examples.SelectCeramic;

/// <summary>The decisions as text.</summary>
internal static class WholeCaseText
{
    public static void Write(TextWriter output, CaseFile caseFile, WholeCase decided)
    {
        output.WriteLine(Text($"\nMatch to the {caseFile.TargetName}: {decided.Ranking.Considered} combinations of ceramic and cement, by the worst zone"));
        int rank = 0;
        foreach (MatchCandidate candidate in decided.Ranking.Candidates.Take(8))
        {
            rank++;
            output.WriteLine(Text($"{rank,3}{(candidate.Meets ? "*" : " ")} {candidate,-32} {candidate.Limiting.Cement.Material,-28} worst {candidate.WorstDifference:0.0}, mean {candidate.MeanDifference:0.0}  {string.Join("  ", candidate.Zones.Select(zone => Text($"{zone.Zone} {zone.WallMm:0.00} mm")))}"));
            output.WriteLine($"       {candidate.Explanation}");
        }

        MatchCandidate chosen = decided.Chosen;
        output.WriteLine(Text($"Take {chosen} with {chosen.Limiting.Cement.Material}: {(chosen.Meets ? "the most translucent that meets the criterion in every zone" : "the nearest, though it does not meet the criterion")} (TP00 {chosen.Translucency:0.0}, worst difference {chosen.WorstDifference:0.0})."));
        output.WriteLine(decided.Remedies.Count == 0 ? "No change of one thing alone would bring it nearer." : "What would bring it nearer:");
        foreach (Remedy remedy in decided.Remedies.Take(4))
        {
            output.WriteLine($"  - {remedy.Text}");
        }

        StainRecipe stain = decided.Stain;
        output.WriteLine(stain.Parts.Count == 0
            ? "Stain: none of the stains brings it nearer."
            : Text($"Stain on it, in {caseFile.StainLayer.Carrier}, {1000 * caseFile.StainLayer.AppliedThicknessMm:0} µm as applied: {string.Join(", ", stain.Parts)} (share of the full load); worst difference {stain.WorstWithout:0.0} with the glaze alone becomes {stain.WorstWith:0.0}, metamerism {stain.Metamerism:0.0}."));

        UncertaintyResult uncertainty = decided.Uncertainty;
        output.WriteLine(Text($"How sure, zone '{chosen.Limiting.Zone}' without stain: difference {uncertainty.Difference:0.0} ± {uncertainty.StandardUncertainty:0.0}, 95 % within {uncertainty.Interval95.Low:0.0} to {uncertainty.Interval95.High:0.0}; acceptable with probability {uncertainty.Acceptable}, not seen with {uncertainty.Imperceptible}. Matters most: {uncertainty.Contributions[0].Input} ({100 * uncertainty.Contributions[0].Share:0} %)."));
        output.WriteLine($"To hide the stump there: {decided.Tolerance}.");
        output.WriteLine(decided.Realism.Sentence);
        if (decided.Wish is not null)
        {
            output.WriteLine($"Asked beside: {caseFile.Wish}. {decided.Wish.Sentence}");
        }
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
