using CeramicOptics.Characterization.Photographs;
using static CeramicOptics.Tests.Repository;

namespace CeramicOptics.Tests.Reference;

/// <summary>Against tests/reference/photograph.py, and against bodies that simulated cameras photograph.</summary>
public class PhotographReferenceTests
{
    private static readonly Colorimeter Under = new(Observer.Cie1931TwoDegree, Illuminant.Named("E"));

    public static TheoryData<string, CorrectionMethod> Cases
    {
        get
        {
            TheoryData<string, CorrectionMethod> cases = [];
            foreach (string[] row in ReferenceRows("photograph.csv").DistinctBy(row => (row[0], row[1])))
            {
                cases.Add(row[0], Enum.Parse<CorrectionMethod>(row[1]));
            }

            return cases;
        }
    }

    [Fact]
    public void All_methods_are_compared() => Assert.Equal((3 * 15) - 2, Cases.Count);

    [Theory]
    [MemberData(nameof(Cases))]
    public void Colours_uncertainties_and_leave_one_out_errors_agree(string picture, CorrectionMethod method)
    {
        string[][] rows = [.. ReferenceRows("photograph.csv").Where(row => row[0] == picture && row[1] == $"{method}")];
        PhotographResult result = Solve(picture, method);
        Assert.Equal(method, result.Correction.Method);
        string[][] chart = [.. rows.Where(row => row[2] == "chart")], teeth = [.. rows.Where(row => row[2] == "tooth")];
        Assert.Equal(chart.Length, result.Chart.Count);
        for (int i = 0; i < chart.Length; i++)
        {
            ChartError error = result.Chart[i];
            Assert.Equal(chart[i][3], error.Patch.Reading.Name);
            AssertClose(
                chart[i], Tolerance(method), error.LeftOut.L, error.LeftOut.A, error.LeftOut.B, error.Difference);
        }

        AssertClose(
            chart.Average(row => Number(row[7])), result.Correction.MeanDifference!.Value, Tolerance(method), "mean");
        AssertClose(
            chart.Max(row => Number(row[7])), result.Correction.LargestDifference!.Value, Tolerance(method), "largest");
        Assert.Equal(teeth.Length, result.Colors.Count);
        for (int i = 0; i < teeth.Length; i++)
        {
            PhotographedColor color = result.Colors[i];
            double outside = color.Findings.SingleOrDefault(
                finding => finding.Kind == PhotographFindingKind.OutsideChartGamut)?.Value ?? 0;
            (Lab at, ColorDeviation u) = (color.Color, color.StandardUncertainty);
            AssertClose(teeth[i], Tolerance(method), at.L, at.A, at.B, u.L, u.A, u.B, outside);
        }
    }

    /// <summary>By numpy, the condition number of its scaled terms is 7e14 and 4e13 for these two charts.</summary>
    [Theory]
    [InlineData("raw")]
    [InlineData("display")]
    public void Method_beyond_double_precision_is_refused(string picture) => Assert.Contains(
        "does not determine",
        Assert.Throws<ArgumentException>(() => Solve(picture, CorrectionMethod.RootPolynomial4)).Message,
        StringComparison.Ordinal);

    [Theory]
    [InlineData("raw")]
    [InlineData("display")]
    [InlineData("regularized")]
    public void Method_chosen_agrees(string picture)
    {
        string[] row = Assert.Single(ReferenceRows("photograph.csv"), row => row[0] == picture && row[2] == "chosen");
        Assert.Equal(row[1], $"{Solve(picture, null).Correction.Method}");
    }

    /// <summary>
    /// Cameras and bodies are invented, noise as in <see cref="SimulatedCamera"/>; the chart does not know the bands of
    /// blood that the teeth have. Two standard uncertainties should hold 95 % of true colours.
    /// </summary>
    [Theory]
    [InlineData(24)]
    [InlineData(48)]
    [InlineData(96)]
    public void True_colours_lie_within_two_standard_uncertainties_in_95_of_100(int chart)
    {
        Random random = new(chart);
        int[] within = new int[3];
        int count = 0;
        double difference = 0;
        foreach (Illuminant lamp in (Illuminant[])[Illuminant.D65, Illuminant.LedB3])
        {
            for (int camera = 0; camera < 3; camera++)
            {
                SimulatedCamera simulated = new(camera, lamp);
                for (int picture = 0; picture < 6; picture++)
                {
                    ReflectanceSpectrum[] teeth = [.. Enumerable.Range(0, 6).Select(
                        _ => SimulatedCamera.Tooth(random))];
                    PhotographResult result = PhotographCharacterization.Find(
                        simulated.Photograph(chart, teeth, 0.85, random));
                    for (int i = 0; i < teeth.Length; i++)
                    {
                        (Lab truth, Lab found, ColorDeviation u) =
                            (SimulatedCamera.Under.ToLab(teeth[i]), result.Colors[i].Color,
                                result.Colors[i].StandardUncertainty);
                        within[0] += Math.Abs(found.L - truth.L) <= 2 * u.L ? 1 : 0;
                        within[1] += Math.Abs(found.A - truth.A) <= 2 * u.A ? 1 : 0;
                        within[2] += Math.Abs(found.B - truth.B) <= 2 * u.B ? 1 : 0;
                        difference += ColorDifference.Ciede2000(truth, found);
                        count++;
                    }
                }
            }
        }

        Assert.All(within, inside => Assert.InRange(inside / (double)count, 0.95, 1));
        Assert.InRange(difference / count, 0, ColorCriterion.PerceptibilityThreshold.Limit);
    }

    private static PhotographResult Solve(string picture, CorrectionMethod? method)
    {
        string[][] rows = [.. ReferenceRows("photograph_readings.csv").Where(row => row[0] == picture)];
        return PhotographCharacterization.Find(
            new Photograph(
                rows[0][1] == "linear" ? TransferCurve.Linear : TransferCurve.Srgb,
                rows.Where(row => row[3] == "chart").Select(row => new ChartPatch(Reading(row), Color(row, 12))),
                Under,
                rows.Where(row => row[3] == "tooth").Select(Reading)),
            new PhotographOptions { Method = method, Regularization = Number(rows[0][2]) });
    }

    private static PatchReading Reading(string[] row) => new(row[4], Rgb(row, 5))
    {
        PixelDeviation = Rgb(row, 8),
        IndependentPixels = (int)Number(row[11]),
    };

    private static CameraRgb Rgb(string[] row, int from) =>
        new(Number(row[from]), Number(row[from + 1]), Number(row[from + 2]));

    private static Lab Color(string[] row, int from) =>
        new(Number(row[from]), Number(row[from + 1]), Number(row[from + 2]));

    // The reference works with 50 digits. Products and roots are nearly alike over a chart: by numpy, the condition
    // number of the scaled terms is at most 3e5 for most methods, 5e5 for 22 terms and 6e8 for the third roots, and a
    // patch left out with 26 for 22 terms magnifies rounding further.
    private static double Tolerance(CorrectionMethod method) => method switch
    {
        CorrectionMethod.RootPolynomial3 => 1e-5,
        CorrectionMethod.Polynomial22 => 1e-6,
        _ => 1e-9,
    };

    private static void AssertClose(string[] row, double tolerance, params double[] actual)
    {
        for (int i = 0; i < actual.Length; i++)
        {
            AssertClose(Number(row[4 + i]), actual[i], tolerance, string.Join(',', row[..4]));
        }
    }

    private static void AssertClose(double expected, double actual, double tolerance, string what) => Assert.True(
        Math.Abs(actual - expected) <= tolerance * Math.Max(1, Math.Abs(expected)),
        $"{what}: {actual:R} instead of {expected:R}");
}
