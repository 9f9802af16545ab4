using CeramicOptics.Characterization;

namespace CeramicOptics.Tests.Unit;

/// <summary>Findings of many wavelengths in few lines.</summary>
public class FindingLinesTests
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 50);

    [Fact]
    public void One_line_names_the_ranges_of_what_is_found_alike()
    {
        Assert.Equal(
            ["400 to 500, 600, 700 nm: absorption is zero within the noise and is set to zero."],
            Lines([.. ((double[])[400, 450, 500, 600, 700]).Select(
                nm => new Finding(nm, FindingKind.AbsorptionBelowDetection))]));
        Assert.Equal(
            ["400 bis 450 nm: die Absorption ist im Rahmen des Rauschens null und wird auf null gesetzt."],
            FindingLines.Of(
                [new Finding(400, FindingKind.AbsorptionBelowDetection),
                    new Finding(450, FindingKind.AbsorptionBelowDetection)], Grid, Language.German));
    }

    /// <summary>A kind whose numbers differ shows the worst, so that no line sounds better than it is.</summary>
    [Theory]
    [InlineData(FindingKind.PoorFit, new[] { 30.0, 2, 3 }, new[] { 90.0, 2, 7 }, "chi-square is 90.0")]
    [InlineData(FindingKind.Inconsistent, new[] { 3.5 }, new[] { 8.0 }, "misses them by 8.0 times")]
    [InlineData(FindingKind.TooOpaque, new[] { 0.004 }, new[] { 0.001 }, "differ by 0.001,")]
    [InlineData(FindingKind.BlackNotBelowWhite, new[] { 0.5, 0.49 }, new[] { 0.6, 0.4 }, "reads 0.6 over black")]
    [InlineData(FindingKind.BackingsAlike, new[] { 0.5, 0.52 }, new[] { 0.5, 0.501 }, "0.5 and 0.501")]
    [InlineData(FindingKind.OutsideSurfaceModel, new[] { 0.03, 0.5, 0.04, 1, 1.5 }, new[] { 0.01, 0.5, 0.04, 1, 1.5 },
        "readings 0.01 and 0.5")]
    [InlineData(FindingKind.OutsideSurfaceModel, new[] { 0.03, 0.5, 0.04, 1, 1.5 }, new[] { 0.5, 1.1, 0.04, 1, 1.5 },
        "readings 0.5 and 1.1")]
    [InlineData(FindingKind.Undetermined, new[] { 0.1, 0.3, 2, 4 }, new[] { 0.2, 0.3, 2, 9 },
        "K 0.2 ± 0.3 and S 2 ± 9")]
    public void The_worst_wavelength_speaks_for_the_others(FindingKind kind, double[] one, double[] worse, string words)
    {
        foreach (bool isLast in (bool[])[false, true])
        {
            string line = Assert.Single(Lines(
                new Finding(550, kind, isLast ? one : worse), new Finding(600, kind, isLast ? worse : one)));
            Assert.StartsWith($"550 to 600 nm, worst at {(isLast ? 600 : 550)} nm: ", line);
            Assert.Contains(words, line, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void What_stands_alone_is_said_as_it_is()
    {
        Finding[] alone =
        [
            new(null, FindingKind.ThickDisc, 4.5), new(450, FindingKind.ScatteringBelowDetection),
            new(500, FindingKind.Undetermined), new(550, FindingKind.Undetermined, 0.1, 0.3, 2, 4),
        ];
        Assert.Equal(alone.Select(finding => finding.ToString()), Lines(alone));
        Assert.Empty(Lines());
    }

    private static IReadOnlyList<string> Lines(params Finding[] findings) =>
        FindingLines.Of(findings, Grid, Language.English);
}
