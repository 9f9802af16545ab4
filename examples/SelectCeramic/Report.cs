using System.Globalization;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Selection;

namespace CeramicOptics.Examples.SelectCeramic;

/// <summary>The ranking as text.</summary>
internal static class Report
{
    private const string Columns = "{0,3} {1,-32} {2,5} {3,-5} {4,-13} {5,8} {6,10}  {7,-44} {8}";

    public static void WriteRankings(TextWriter output, CaseFile caseFile, IReadOnlyList<(CementChoice Cement, GradeRanking Ranking)> rankings)
    {
        output.WriteLine($"Case: {caseFile.Name} (invented demonstration data)");
        output.WriteLine($"Asked for: {caseFile.Criterion}; illuminants {string.Join(", ", caseFile.Colorimeters)}");
        foreach ((CementChoice cement, GradeRanking ranking) in rankings)
        {
            WriteRanking(output, caseFile, cement, ranking);
        }
    }

    public static void WriteCautions(TextWriter output, IEnumerable<Caution> cautions)
    {
        output.WriteLine("\nCautions");
        foreach (IGrouping<CautionKind, Caution> kind in cautions.Distinct().GroupBy(caution => caution.Kind))
        {
            Caution[] texts = [.. kind];
            output.WriteLine($"- {texts[0].Text}{(texts.Length > 1 ? Text($" (and {texts.Length - 1} more of this kind)") : "")}");
        }
    }

    private static void WriteRanking(TextWriter output, CaseFile caseFile, CementChoice cement, GradeRanking ranking)
    {
        output.WriteLine(Text($"\nBonded with {cement.Name}, film {cement.Film.ThicknessMm:0.00} mm"));
        output.WriteLine(string.Format(CultureInfo.InvariantCulture, Columns, "", "ceramic", "TP00", "zone", "minimum mm", "there mm", "margin mm", "limiting stump, illuminant", "against target there"));
        int rank = 0;
        foreach (GradeAssessment assessment in ranking.Assessments)
        {
            rank++;
            foreach (ZoneAssessment zone in assessment.Zones)
            {
                bool first = zone == assessment.Zones[0];
                bool limits = zone == assessment.LimitingZone;
                WorstCase limiting = zone.Masking.Limiting;
                output.WriteLine(string.Format(
                    CultureInfo.InvariantCulture,
                    Columns,
                    first ? Text($"{rank}{(assessment.Masks ? "*" : "")}") : "",
                    first ? assessment.Ceramic.ToString() : "",
                    first ? Text($"{assessment.Translucency:0.0}") : "",
                    zone.Zone.Name + (limits ? "!" : ""),
                    Minimum(zone.Masking),
                    Text($"{zone.Zone.AvailableThicknessMm:0.00}"),
                    zone.MarginMm is double margin ? Text($"{margin:+0.00;-0.00}") : "none",
                    $"{limiting.Substrate}, {limiting.Colorimeter}",
                    AgainstTarget(caseFile, cement, assessment, zone)));
            }
        }

        output.WriteLine(ranking.Recommended is { } best
            ? $"Take {best.Ceramic}: the most translucent that masks in every zone (*). It is limited in zone '{best.LimitingZone.Zone.Name}' (!)."
            : $"No ceramic masks in every zone at the thickness that is there; the nearest is {ranking.Assessments[0].Ceramic}. Tell dentist and patient before work begins.");
    }

    private static string Minimum(MaskingResult masking) => masking.Outcome switch
    {
        MaskingOutcome.NotMasked => Text($"none (best {masking.Best.Difference:0.0})"),
        _ when masking.RecommendedMinimumMm > masking.OpticalMinimumMm => Text($"{masking.RecommendedMinimumMm:0.00} strength"),
        MaskingOutcome.MaskedThroughout => Text($"{masking.RecommendedMinimumMm:0.00}"),
        _ => Text($"{masking.RecommendedMinimumMm:0.00} ±{masking.ThicknessStandardUncertaintyMm:0.00}"),
    };

    private static string AgainstTarget(CaseFile caseFile, CementChoice cement, GradeAssessment assessment, ZoneAssessment zone)
    {
        Colorimeter colorimeter = caseFile.Colorimeters[0];
        Lab color = colorimeter.ToLab(
            caseFile.Restoration(cement).StackOf(assessment.Ceramic, zone.Zone.AvailableThicknessMm, zone.Zone.Substrate).Reflectance());
        Ciede2000Terms terms = ColorDifference.Ciede2000Terms(caseFile.TargetColor, color);
        return Text($"{terms.Total,4:0.0} (dL' {Signed(terms.Lightness)}, dC' {Signed(terms.Chroma)}, dH' {Signed(terms.Hue)})");
    }

    private static string Signed(double value) => Math.Round(value, 1).ToString("+0.0;-0.0;0.0", CultureInfo.InvariantCulture);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
