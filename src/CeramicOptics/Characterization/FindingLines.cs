using CeramicOptics.Spectra;

namespace CeramicOptics.Characterization;

/// <summary>Findings in words, one line a kind instead of one a wavelength.</summary>
internal static class FindingLines
{
    public static IReadOnlyList<string> Of(IReadOnlyList<Finding> findings, WavelengthGrid grid, Language language) =>
        Guard.Copy(findings.Where(finding => finding.WavelengthNm is null)
            .Select(finding => finding.ToString(language))
            .Concat(findings.Where(finding => finding.WavelengthNm is not null)
                .GroupBy(finding => (finding.Kind, finding.Case, finding.Values.Count))
                .Select(kind => Line([.. kind], grid, language))));

    private static string Line(Finding[] alike, WavelengthGrid grid, Language language)
    {
        if (alike.Length == 1)
        {
            return alike[0].ToString(language);
        }

        Finding worst = alike.OrderByDescending(Severity).First();
        string where = Ranges([.. alike.Select(finding => grid.IndexOf(finding.WavelengthNm!.Value))], grid, language);
        return alike[0].Values.Count == 0
            ? language.Text("Finding", where, worst.Words(language))
            : language.Text("Finding.Worst", where, worst.WavelengthNm, worst.Words(language));
    }

    // Neighbours on the grid are one range.
    private static string Ranges(int[] at, WavelengthGrid grid, Language language)
    {
        List<string> ranges = [];
        for (int first = 0, last; first < at.Length; first = last + 1)
        {
            last = first;
            while (last + 1 < at.Length && at[last + 1] == at[last] + 1)
            {
                last++;
            }

            ranges.Add(first == last
                ? language.Join("", [grid[at[first]]])
                : language.Text("Finding.Range", grid[at[first]], grid[at[last]]));
        }

        return string.Join(", ", ranges);
    }

    // The larger, the worse; values as each kind states them.
    private static double Severity(Finding finding) => finding.Kind switch
    {
        FindingKind.BlackNotBelowWhite or FindingKind.BackingsAlike => finding.Values[0] - finding.Values[1],
        FindingKind.TooOpaque => -finding.Values[0],
        FindingKind.OutsideSurfaceModel =>
            Math.Max(finding.Values[2] - finding.Values[0], finding.Values[1] - finding.Values[3]),
        FindingKind.Inconsistent or FindingKind.PoorFit => finding.Values[0],
        FindingKind.Undetermined when finding.Values.Count > 0 => finding.Values[3],
        _ => 0,
    };
}
