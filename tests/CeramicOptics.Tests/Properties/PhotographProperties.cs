using CeramicOptics.Characterization.Photographs;
using CeramicOptics.Tests.Reference;
using FsCheck.Xunit;

namespace CeramicOptics.Tests.Properties;

public class PhotographProperties
{
    /// <summary>Any numbers in range give numbers, or are refused with a message; nothing is NaN.</summary>
    [Property(MaxTest = 60)]
    public bool Any_readings_give_numbers_or_are_refused(int seed)
    {
        Random random = new(seed);
        CameraRgb Any() => new(random.NextDouble(), random.NextDouble(), Math.Pow(random.NextDouble(), 8));
        Photograph photograph = new(
            TransferCurve.Srgb,
            Enumerable.Range(0, random.Next(6, 40)).Select(i => new ChartPatch(
                new PatchReading($"patch {i}", Any()),
                new Lab(100 * random.NextDouble(), (200 * random.NextDouble()) - 100,
                (200 * random.NextDouble()) - 100))),
            Colorimeter.D65TwoDegree,
            [new PatchReading("tooth", Any()) { PixelDeviation = new CameraRgb(0.01, 0.01, 0.001) }]);
        try
        {
            PhotographResult result = PhotographCharacterization.Find(photograph);
            PhotographedColor tooth = result.Colors[0];
            return !tooth.IsDetermined || ((double[])
                [
                    tooth.Color.L, tooth.Color.A, tooth.Color.B, tooth.StandardUncertainty.L,
                    tooth.StandardUncertainty.A, tooth.StandardUncertainty.B,
                ]).All(double.IsFinite);
        }
        catch (ArgumentException refused)
        {
            return refused.Message.Contains("chart", StringComparison.Ordinal);
        }
    }

    [Property(MaxTest = 20)]
    public bool Order_of_the_chart_does_not_matter(int seed)
    {
        Random random = new(seed);
        Photograph photograph = new SimulatedCamera(random.Next(3), Illuminant.D65)
            .Photograph(30, [SimulatedCamera.Tooth(random)], 0.8, random);
        ChartPatch[] shuffled = [.. photograph.Chart];
        random.Shuffle(shuffled);
        PhotographResult one = PhotographCharacterization.Find(photograph);
        PhotographResult other = PhotographCharacterization.Find(
            new Photograph(photograph.Curve, shuffled, photograph.Under, photograph.Patches));
        return one.Correction.Method == other.Correction.Method
            && ColorDifference.Cie76(one.Colors[0].Color, other.Colors[0].Color) < 1e-8
            && Math.Abs(one.Colors[0].StandardUncertainty.B - other.Colors[0].StandardUncertainty.B) < 1e-8;
    }

    /// <summary>
    /// A mixture of colours lies inside their hull; moved beyond the farthest colour in its direction it does not.
    /// </summary>
    [Property(MaxTest = 100)]
    public bool Mixtures_are_inside_the_chart(int seed)
    {
        Random random = new(seed);
        Lab[] chart = [.. Enumerable.Range(0, random.Next(4, 60)).Select(
            _ => new Lab(100 * random.NextDouble(), (120 * random.NextDouble()) - 60,
            (120 * random.NextDouble()) - 60))];
        double[] shares = [.. chart.Select(_ => -Math.Log(1 - random.NextDouble()))];
        double sum = shares.Sum();
        Lab mixture = new(
            chart.Zip(shares, (c, w) => c.L * w / sum).Sum(), chart.Zip(shares, (c, w) => c.A * w / sum).Sum(),
            chart.Zip(shares, (c, w) => c.B * w / sum).Sum());
        double beyond = chart.Max(color => color.A) + 7;
        double distance = ChartGamut.DistanceOutside(new Lab(mixture.L, beyond, mixture.B), chart);
        return ChartGamut.DistanceOutside(mixture, chart) == 0 && distance >= 7 - 1e-6
            && distance <= chart.Min(color =>
                ColorDifference.Cie76(color, new Lab(mixture.L, beyond, mixture.B))) + 1e-6;
    }
}
