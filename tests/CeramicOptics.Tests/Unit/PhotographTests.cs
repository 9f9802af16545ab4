using CeramicOptics.Characterization.Photographs;
using CeramicOptics.Restorations;

namespace CeramicOptics.Tests.Unit;

public class PhotographTests
{
    private static readonly Colorimeter Under = Colorimeter.D65TwoDegree;
    private static readonly CameraRgb Noise = new(0.004, 0.004, 0.004);

    public static TheoryData<CorrectionMethod> HomogeneousMethods =>
        [CorrectionMethod.Linear, CorrectionMethod.RootPolynomial2, CorrectionMethod.RootPolynomial3,
            CorrectionMethod.RootPolynomial4];

    public static TheoryData<CorrectionMethod> AllMethods => [.. Enum.GetValues<CorrectionMethod>()];

    [Fact]
    public void Camera_that_mixes_tristimulus_values_is_undone_exactly()
    {
        Lab stump = new(55, 8, 22);
        PhotographResult result = PhotographCharacterization.Find(Take([stump]));
        Assert.Equal(CorrectionMethod.Linear, result.Correction.Method);
        Assert.InRange(result.Correction.LargestDifference!.Value, 0, 1e-9);
        AssertClose(stump, result["patch of the tooth 0"].Color, 1e-9);
        Assert.Empty(result.Findings);
    }

    /// <summary>
    /// Twice the light on the tooth is twice X, Y and Z: what the exposure-independent methods are for.
    /// </summary>
    [Theory]
    [MemberData(nameof(HomogeneousMethods))]
    public void Root_polynomials_follow_the_exposure(CorrectionMethod method)
    {
        Photograph photograph = Take([new(60, 5, 20)], curved: 0.1);
        PatchReading tooth = photograph.Patches[0];
        Photograph two = new(
            photograph.Curve, photograph.Chart, Under,
            [tooth, new("brighter", Scaled(tooth.Mean, 1.7)) { PixelDeviation = Noise }]);
        PhotographResult result = PhotographCharacterization.Find(two, Options(method));
        (Xyz one, Xyz other) = (result.Colors[0].Color.ToXyz(Under.White), result.Colors[1].Color.ToXyz(Under.White));
        Assert.Equal(1.7 * one.X, other.X, 8);
        Assert.Equal(1.7 * one.Y, other.Y, 8);
        Assert.Equal(1.7 * one.Z, other.Z, 8);
    }

    [Fact]
    public void Polynomials_do_not_follow_the_exposure()
    {
        Photograph photograph = Take([new(60, 5, 20)], curved: 0.1);
        PatchReading tooth = photograph.Patches[0];
        Photograph two = new(
            photograph.Curve, photograph.Chart, Under,
            [tooth, new("brighter", Scaled(tooth.Mean, 1.7)) { PixelDeviation = Noise }]);
        PhotographResult result = PhotographCharacterization.Find(
            two, new PhotographOptions { Method = CorrectionMethod.Polynomial10 });
        Assert.True(
            Math.Abs(
                result.Colors[1].Color.ToXyz(Under.White).Y
                    - (1.7 * result.Colors[0].Color.ToXyz(Under.White).Y)) > 0.01);
    }

    /// <summary>Chart and tooth darker alike: the same colours, by every method.</summary>
    [Theory]
    [MemberData(nameof(AllMethods))]
    public void Exposure_of_the_whole_picture_does_not_matter(CorrectionMethod method)
    {
        PhotographOptions options = Options(method);
        Lab[] teeth = [new(60, 5, 20), new(72, 1, 15)];
        PhotographResult one = PhotographCharacterization.Find(Take(teeth, curved: 0.1), options);
        PhotographResult other = PhotographCharacterization.Find(Take(teeth, curved: 0.1, exposure: 0.4), options);
        for (int i = 0; i < teeth.Length; i++)
        {
            AssertClose(one.Colors[i].Color, other.Colors[i].Color, 1e-6);
        }
    }

    [Fact]
    public void Display_values_of_a_stated_curve_give_the_same_colours_and_say_what_they_are()
    {
        Photograph raw = Take([new(60, 5, 20)], curved: 0.1);
        static CameraRgb Encode(CameraRgb light) =>
            new(Srgb.Encode(light.Red), Srgb.Encode(light.Green), Srgb.Encode(light.Blue));
        Photograph display = new(
            TransferCurve.Srgb,
            raw.Chart.Select(patch => new ChartPatch(new PatchReading(patch.Reading.Name, Encode(patch.Reading.Mean)),
            patch.Known)),
            Under,
            raw.Patches.Select(patch => new PatchReading(patch.Name, Encode(patch.Mean))));
        PhotographResult one = PhotographCharacterization.Find(raw), other = PhotographCharacterization.Find(display);
        AssertClose(one.Colors[0].Color, other.Colors[0].Color, 1e-6);
        Assert.Contains(
            other.Findings, finding => finding is { Kind: PhotographFindingKind.DisplayValues, Subject: "sRGB" });
        Assert.Contains(other.Findings, finding => finding.Kind == PhotographFindingKind.NoiseNotGiven);
    }

    [Fact]
    public void Curves_are_those_of_the_standards()
    {
        Assert.Equal(0.5, TransferCurve.Linear.ToLinear(0.5));
        Assert.Equal(Math.Pow(0.5, 2.2), TransferCurve.Power(2.2).ToLinear(0.5), 15);
        Assert.Same(TransferCurve.Linear, TransferCurve.Power(1));

        // 8-bit 188 is 0.5028865 of linear light by IEC 61966-2-1 ((188/255 + 0.055) / 1.055)^2.4; by hand.
        Assert.Equal(0.5028865, TransferCurve.Srgb.ToLinear(188 / 255.0), 7);
        Assert.Equal(0.02 / 12.92, TransferCurve.Srgb.ToLinear(0.02), 15);
        foreach (
            TransferCurve curve in (TransferCurve[])[TransferCurve.Linear, TransferCurve.Srgb,
            TransferCurve.Power(1.8)])
        {
            Assert.Equal((curve.ToLinear(0.6 + 1e-6) - curve.ToLinear(0.6 - 1e-6)) / 2e-6, curve.Slope(0.6), 7);
        }
    }

    [Theory]
    [InlineData(0.99, 0)]
    [InlineData(0.95, 0.02)]
    [InlineData(0, 0)]
    [InlineData(0.01, 0.006)]
    public void Clipped_tooth_has_no_colour(double green, double deviation)
    {
        Photograph photograph = Take([new(60, 5, 20)]);
        PatchReading glare = new("glare", new CameraRgb(0.5, green, 0.4)) { PixelDeviation = new CameraRgb(
            0, deviation, 0) };
        PhotographResult result = PhotographCharacterization.Find(
            new Photograph(photograph.Curve, photograph.Chart, Under, [.. photograph.Patches, glare]));
        PhotographedColor color = result["glare"];
        Assert.False(color.IsDetermined);
        PhotographFinding finding = Assert.Single(color.Findings);
        Assert.Equal(
            (PhotographFindingKind.ClippedChannel, "glare", CameraChannel.Green, green),
            (finding.Kind, finding.Subject, finding.Channel, finding.Value));
        Assert.Contains(finding, result.Findings);
        Assert.Equal(finding.ToString(), Assert.Throws<InvalidOperationException>(() => color.Color).Message);
        Assert.Throws<InvalidOperationException>(() => color.StandardUncertainty);
        Assert.Throws<InvalidOperationException>(
            () => color.ToSubstrate(WavelengthGrid.Range(400, 700, 10), 1.54, MeasurementGeometry.FortyFiveZero));
        Assert.Equal("glare: not determined", color.ToString());
        Assert.True(result.Colors[0].IsDetermined);
    }

    [Fact]
    public void Clipped_patch_of_the_chart_is_left_out_and_named()
    {
        Photograph photograph = Take([new(60, 5, 20)], curved: 0.1);
        ChartPatch clipped = new(new PatchReading("white", new CameraRgb(1, 1, 0.97)), new Lab(97, 0, 1));
        PhotographResult with = PhotographCharacterization.Find(
            new Photograph(photograph.Curve, [clipped, .. photograph.Chart], Under, photograph.Patches));
        PhotographResult without = PhotographCharacterization.Find(photograph);
        Assert.Equal(without.Colors[0].Color, with.Colors[0].Color);
        Assert.Equal(without.Chart.Count, with.Chart.Count);
        Assert.Contains(
            with.Findings,
            finding => finding is { Kind: PhotographFindingKind.ClippedChartPatch, Subject: "white",
            Channel: CameraChannel.Red });
    }

    [Fact]
    public void Patches_mistaken_for_one_another_are_named()
    {
        Photograph photograph = Take([new(60, 5, 20)], curved: 0.05);
        ChartPatch[] chart = [.. photograph.Chart];
        (chart[9], chart[14]) = (
            new ChartPatch(chart[9].Reading, chart[14].Known), new ChartPatch(chart[14].Reading, chart[9].Known));
        PhotographResult result = PhotographCharacterization.Find(
            new Photograph(photograph.Curve, chart, Under, photograph.Patches),
            new PhotographOptions { Method = CorrectionMethod.RootPolynomial2 });
        string[] named = [.. result.Findings.Where(
            finding => finding.Kind == PhotographFindingKind.OutlyingChartPatch).Select(finding => finding.Subject!)];
        Assert.Contains("patch 9", named);
        Assert.Contains("patch 14", named);
    }

    [Fact]
    public void Chart_that_does_not_fit_its_colours_is_a_finding()
    {
        Photograph photograph = Take([new(60, 5, 20)]);
        ChartPatch[] chart = [.. photograph.Chart.Select((patch, i) =>
            new ChartPatch(patch.Reading, patch.Known with { A = patch.Known.A + (i % 2 == 0 ? 6 : -6) }))];
        PhotographResult result = PhotographCharacterization.Find(
            new Photograph(photograph.Curve, chart, Under, photograph.Patches));
        PhotographFinding finding = Assert.Single(
            result.Findings, one => one.Kind == PhotographFindingKind.LargeChartError);
        Assert.Equal(result.Correction.MeanDifference, finding.Value);
        Assert.True(finding.Value > 1.8);
        Assert.True(result.Colors[0].StandardUncertainty.A > 4);
    }

    [Fact]
    public void Few_patches_for_the_terms_asked_for_are_a_finding_and_are_not_chosen()
    {
        Photograph photograph = Take([new(60, 5, 20)], curved: 0.1);
        PhotographResult asked = PhotographCharacterization.Find(
            photograph, new PhotographOptions { Method = CorrectionMethod.Polynomial22 });
        Assert.Equal(
            30 / 22.0,
            Assert.Single(asked.Findings,
            finding => finding.Kind == PhotographFindingKind.FewPatchesForTerms).Value!.Value, 12);
        PhotographResult chosen = PhotographCharacterization.Find(photograph);
        Assert.Equal(15, chosen.Evaluations.Count);
        Assert.Equal(
            CorrectionStatus.TooFewPatches,
            chosen.Evaluations.Single(one => one.Method == CorrectionMethod.RootPolynomial4).Status);
        Assert.Contains("too few patches", chosen.Evaluations[^1].ToString(), StringComparison.Ordinal);
        Assert.All(
            chosen.Evaluations.Where(one => one.Status == CorrectionStatus.Evaluated),
            one => Assert.True(one.LargestDifference >= one.MeanDifference));
    }

    [Fact]
    public void Noise_of_the_patch_is_part_of_its_uncertainty()
    {
        Photograph photograph = Take([new(60, 5, 20)]);
        PatchReading tooth = photograph.Patches[0];
        PatchReading[] noisy = [
            .. ((int?[])[null, 100]).Select(pixels => new PatchReading($"{pixels} pixels", tooth.Mean)
        {
            PixelDeviation = new CameraRgb(0.01, 0.01, 0.01),
            IndependentPixels = pixels,
        })];
        PhotographResult result = PhotographCharacterization.Find(
            new Photograph(photograph.Curve, photograph.Chart, Under, noisy));

        // The chart is met exactly, so that noise is all there is; a hundred pixels make it a tenth.
        Assert.True(result.Colors[0].StandardUncertainty.L > 0.1);
        Assert.Equal(
            result.Colors[0].StandardUncertainty.L / 10, result.Colors[1].StandardUncertainty.L, 6);
    }

    [Fact]
    public void Colour_becomes_a_stump_and_a_target()
    {
        PhotographResult result = PhotographCharacterization.Find(Take([new(55, 8, 22), new(74, 2, 18)]));
        WavelengthGrid grid = WavelengthGrid.Range(400, 700, 10);
        Substrate stump = result.Colors[0].ToSubstrate(grid, 1.54, MeasurementGeometry.FortyFiveZero);
        Assert.True(stump.IsEstimated);
        Assert.Equal(result.Colors[0].Name, stump.Name);

        // Read in the geometry of the photograph it has the colour again.
        SurfaceCorrection surface = new(MeasurementGeometry.FortyFiveZero, 1.54);
        ReflectanceSpectrum read = new(
            grid, [.. Enumerable.Range(0, grid.Count).Select(i => surface.Measured(stump.InternalReflectanceAt(i)))]);
        AssertClose(result.Colors[0].Color, Under.ToLab(read), 1e-6);
        Target target = Target.FromColor(
            "neighbour", result.Colors[1].Color, result.Under, MeasurementGeometry.FortyFiveZero);
        Assert.Equal(MeasurementGeometry.FortyFiveZero, target.Geometry);
    }

    /// <summary>The distance from a box is known without any search.</summary>
    [Fact]
    public void Distance_from_the_chart_is_that_from_its_hull()
    {
        Random random = new(5);
        Lab[] box = [.. Enumerable.Range(0, 8).Select(
            i => new Lab(i % 2 * 60, (i / 2 % 2 * 80) - 40, (i / 4 * 50) - 10))];
        for (int i = 0; i < 500; i++)
        {
            Lab color = new(
                (random.NextDouble() * 120) - 30, (random.NextDouble() * 160) - 80, (random.NextDouble() * 120) - 50);
            static double Beyond(double value, double low, double high) =>
                Math.Max(0, Math.Max(low - value, value - high));
            double l = Beyond(color.L, 0, 60), a = Beyond(color.A, -40, 40), b = Beyond(color.B, -10, 40);
            Assert.Equal(Math.Sqrt((l * l) + (a * a) + (b * b)), ChartGamut.DistanceOutside(color, box), 6);
        }

        Assert.Equal(0, ChartGamut.DistanceOutside(box[3], box));
        Assert.Equal(5, ChartGamut.DistanceOutside(new Lab(5, 0, 0), [default, default, new Lab(-5, 0, 0)]), 9);
    }

    [Fact]
    public void Unknown_patch_is_refused_by_name()
    {
        PhotographResult result = PhotographCharacterization.Find(Take([new(60, 5, 20)]));
        Assert.Contains(
            "patch of the tooth 0", Assert.Throws<ArgumentException>(() => result["stump"]).Message,
            StringComparison.Ordinal);
    }

    // Roots of the fourth degree are too alike for 30 patches alone.
    private static PhotographOptions Options(CorrectionMethod method) =>
        new() { Method = method, Regularization = method == CorrectionMethod.RootPolynomial4 ? 1e-8 : 0 };

    // A camera that mixes tristimulus values, bent a little where told so, before a chart of 30 colours.
    private static Photograph Take(Lab[] teeth, double curved = 0, double exposure = 0.7)
    {
        CameraRgb See(Lab color)
        {
            Xyz xyz = color.ToXyz(Under.White);
            double x = xyz.X / 100, y = xyz.Y / 100, z = xyz.Z / 100;
            double r = (0.8 * x) + (0.15 * y) + (0.02 * z), g = (0.2 * x) + (0.7 * y) + (0.1 * z), b = (0.02 * x) + (
                0.1 * y) + (0.75 * z);
            return Scaled(
                new CameraRgb(r + (curved * Math.Sqrt(g * b)), g - (curved * g * b / (r + g)),
                b + (curved * r * g / (r + b))), exposure);
        }

        Lab Color(int i) => i < 6
            ? new Lab(15 + (16 * i), 0, 0)
            : new Lab(
                30 + (i * 29 % 50), (20 + (i * 7 % 25)) * Math.Cos(2.4 * i), (20 + (i * 7 % 25)) * Math.Sin(2.4 * i));
        return new Photograph(
            TransferCurve.Linear,
            Enumerable.Range(0,
            30).Select(i => new ChartPatch(new PatchReading($"patch {i}", See(Color(i))), Color(i))),
            Under,
            teeth.Select(
                (tooth, i) => new PatchReading($"patch of the tooth {i}",
                See(tooth)) { PixelDeviation = new CameraRgb(0, 0, 0) }));
    }

    private static CameraRgb Scaled(CameraRgb light, double by) =>
        new(by * light.Red, by * light.Green, by * light.Blue);

    private static void AssertClose(Lab expected, Lab actual, double within) =>
        Assert.True(ColorDifference.Cie76(expected, actual) <= within, $"{actual} instead of {expected}");
}
