using System.Globalization;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Examples.SelectCeramic;

/// <summary>The ranking as text.</summary>
internal static class Report
{
    private static readonly CultureInfo Invariant = CultureInfo.InvariantCulture;

    private const string Columns = "{0,3} {1,-32} {2,5} {3,-9} {4,9} {5,-18} {6,-14} {7,-52} {8}";

    public static void WriteRankings(TextWriter output, CaseFile caseFile, IReadOnlyList<RankedCement> rankings)
    {
        output.WriteLine($"Case: {caseFile.Name}{(caseFile.IsInvented ? " (invented demonstration data)" : "")}");
        output.WriteLine($"Criterion: {caseFile.Criterion}; under {string.Join("; ", caseFile.Colorimeters)}");
        foreach (RankedCement ranked in rankings)
        {
            WriteRanking(output, caseFile, ranked);
        }
    }

    public static void WriteCautions(TextWriter output, IEnumerable<Caution> cautions)
    {
        output.WriteLine("\nCautions");
        foreach (Caution caution in cautions.Where(caution => !IsOfOneTable(caution)).Distinct()
            .OrderBy(caution => caution.Kind))
        {
            output.WriteLine($"- {caution}");
        }
    }

    // One ceramic, or a number of them, says something beside their table only.
    private static bool IsOfOneTable(Caution caution) => caution.Ceramic is not null
        || (caution.Subject is null && caution.Kind is CautionKind.NotReliable or CautionKind.DoesNotFit);

    private static void WriteRanking(TextWriter output, CaseFile caseFile, RankedCement ranked)
    {
        (CementChoice cement, GradeRanking ranking) = (ranked.Cement, ranked.Ranking);
        output.WriteLine(string.Create(
            Invariant, $"\nBonded with {cement.Name}, film {cement.Film.ThicknessMm:0.00} mm"));
        output.WriteLine(string.Format(
            CultureInfo.InvariantCulture, Columns, "", "ceramic", "TP00", "zone", "available", "wall for review",
                "probability", "by colour; limiting stump, illuminant", "against target there"));
        int rank = 0;
        foreach (GradeAssessment assessment in ranking.Assessments)
        {
            rank++;
            for (int z = 0; z < assessment.Masking.Zones.Count; z++)
            {
                ZoneMasking zone = assessment.Masking.Zones[z];
                bool first = z == 0, limits = zone == assessment.Masking.Limiting;
                output.WriteLine(string.Format(
                    CultureInfo.InvariantCulture,
                    Columns,
                    first ? string.Create(Invariant, $"{rank}{(assessment.Masking.IsReliable ? "*" : "")}") : "",
                    first ? assessment.Ceramic.ToString() : "",
                    first ? string.Create(Invariant, $"{assessment.DiscTranslucency:0.0}") : "",
                    zone.Zone.Name + (limits ? "!" : ""),
                    string.Create(Invariant, $"{zone.Zone.AvailableMm:0.00} mm"),
                    Wall(zone),
                    zone.MasksAtAvailable,
                    $"{Mm(zone.Minimum.ByColorMm)}; {zone.Limiting.Stump}, {zone.Limiting.Colorimeter}",
                    AgainstTarget(caseFile, ranked.SpectrumOf(rank - 1, z))));
            }
        }

        output.WriteLine(ranking.Suggested is { } best
            ? $"Suggested for review: {best}. It is the most translucent ceramic that masks reliably in every zone "
                + $"(*); zone '{best.Masking.Limiting.Zone}' limits it (!)."
            : $"No ceramic masks reliably in every zone in the available room; the closest is "
                + $"{ranking.Assessments[0].Ceramic}. Tell dentist and patient before work begins.");
        foreach (Caution caution in ranking.Cautions.Where(IsOfOneTable))
        {
            output.WriteLine($"! {caution}");
        }
    }

    // Never a wall above the available thickness; what does not fit says by how much.
    private static string Wall(ZoneMasking zone) => zone.MarginMm is not double marginMm ? "none"
        : marginMm < 0 ? string.Create(Invariant, $"does not fit: {-MinimumThickness.RoundedUp(-marginMm):0.00}")
        : string.Create(Invariant, $"{Mm(zone.Minimum.RecommendedMm)}, "
            + $"{-MinimumThickness.RoundedUp(-marginMm):+0.00;-0.00;+0.00}");

    private static string Mm(double? thicknessMm) =>
        thicknessMm is double mm ? string.Create(Invariant, $"{MinimumThickness.RoundedUp(mm):0.00} mm") : "none";

    private static string AgainstTarget(CaseFile caseFile, ReflectanceSpectrum spectrum)
    {
        Lab color = caseFile.Colorimeters[0].ToLab(spectrum);
        return string.Create(
            Invariant,
            $"{ColorDifference.Ciede2000(caseFile.TargetColor, color),4:0.0} (L* "
                + $"{Signed(color.L - caseFile.TargetColor.L)}, a* {Signed(color.A - caseFile.TargetColor.A)}, b* "
                + $"{Signed(color.B - caseFile.TargetColor.B)})");
    }

    private static string Signed(double value) => Math.Round(value, 1)
        .ToString("+0.0;-0.0;0.0", CultureInfo.InvariantCulture);
}
