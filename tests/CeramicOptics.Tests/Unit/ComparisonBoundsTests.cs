using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Restorations;
using static CeramicOptics.Tests.WallData;

namespace CeramicOptics.Tests.Unit;

/// <summary>
/// Bounds on a difference between two thicknesses, from bounds on second derivatives, against dense evaluation between
/// them.
/// </summary>
public class ComparisonBoundsTests
{
    private const int Between = 200;

    [Theory]
    [MemberData(nameof(Models), MemberType = typeof(WallData))]
    public void Bounds_hold_at_every_thickness_between_the_ends(string model)
    {
        Random random = new(3);
        WallData data = Coarse(model);
        int decided = 0;
        for (int round = 0; round < 120; round++)
        {
            double LogUniform(double from, double to) => from * Math.Pow(to / from, random.NextDouble());
            Material any = data.Make(
                "any", LogUniform(0.01, 1), LogUniform(0.01, 2), LogUniform(0.3, 15),
                1.5 + (0.6 * random.NextDouble()));
            Substrate under = data.Stump("under", LogUniform(0.02, 0.9), LogUniform(0.02, 0.9));
            ColorReference reference = (round % 3) switch
            {
                0 => Wish(new LayerStack([new Layer(any, LogUniform(0.3, 2))], data.Good).Reflectance()),
                1 => MaskingReference.Over(data.Good),
                _ => MaskingReference.SelfBacked,
            };
            ColorCriterion criterion = round % 2 == 0
                ? ColorCriterion.AcceptabilityThreshold
                : ColorCriterion.AcceptabilityThresholdCielab;
            Restoration restoration = new(
                [Zone(under, reference)], new Ceramic("any", 1, any), CouplingMedium.Glycerine, criterion)
            {
                Viewing = TwoLights, WallRange = new ThicknessRange(0.05, 4), Uncertainty = Sure,
            };
            ZoneComparison comparison = new(new CompiledWall(restoration, default), restoration.Zones[0]);
            double from = 0.05 + random.NextDouble(), width = Math.Pow(10, -3 * random.NextDouble());
            ComparisonPoint a = comparison.Sample(from), b = comparison.Sample(from + width);
            (double lower, double upper) = comparison.Bounds(a, b);
            for (int i = 0; i <= Between; i++)
            {
                double mm = from + (width * i / Between), difference = comparison.Difference(Math.Min(mm, 4));
                Assert.InRange(difference, lower - 1e-9, upper + 1e-9);
                if (i % 50 == 0)
                {
                    Assert.Equal(
                        Worst(new LayerStack([new Layer(any, mm)], under, CouplingMedium.Glycerine), reference, 0,
                        criterion), difference, 0.003);
                }
            }

            decided += upper <= criterion.Limit || lower > criterion.Limit ? 1 : 0;

            // And they close in: twice the steepness times the way to either end.
            (lower, upper) = comparison.Bounds(a, comparison.Sample(from + 1e-5));
            Assert.InRange(upper - lower, 0, 0.3);
        }

        Assert.InRange(decided, 40, 119);
    }

    /// <summary>
    /// CIEDE2000 jumps where two hues are opposite (Sharma, Wu, Dalal 2005, 2.1). Nearly neutral colours that pass that
    /// on the way from one thickness to another, by their hue angles at 100 thicknesses between, keep to the bounds all
    /// the same.
    /// </summary>
    [Theory]
    [InlineData("two-flux", 2000)]
    [InlineData("transport", 300)]
    public void Bounds_hold_where_hues_pass_opposition(string model, int rounds)
    {
        Random random = new(8);
        WallData data = Coarse(model);
        int passed = 0, decided = 0;
        for (int round = 0; round < rounds; round++)
        {
            double[] Flat(double level) =>
                [.. Enumerable.Range(0, 4).Select(_ => level * (1 + (0.03 * (random.NextDouble() - 0.5))))];
            Substrate Grey(string name, double level) =>
                Substrate.FromInternalReflectance(name, new ReflectanceSpectrum(data.Grid, Flat(level)), 1.54);
            Material any = With(data.Body, Flat(0.3), Flat(3), 1.5);
            ColorReference reference = round % 2 == 0
                ? Wish(new ReflectanceSpectrum(data.Grid, Flat(0.45)))
                : MaskingReference.Over(Grey("grey", 0.6));
            Restoration restoration = new(
                [Zone(Grey("under", 0.2), reference)], new Ceramic("any", 1, any), CouplingMedium.Water,
                ColorCriterion.AcceptabilityThreshold)
            {
                WallRange = new ThicknessRange(0.1, 2), Uncertainty = Sure,
            };
            ZoneComparison comparison = new(new CompiledWall(restoration, default), restoration.Zones[0]);
            double from = 0.1 + random.NextDouble(), width = 0.5 * Math.Pow(random.NextDouble(), round % 4 < 2 ? 1 : 3);
            (double lower, double upper) = comparison.Bounds(comparison.Sample(from), comparison.Sample(from + width));
            ComparisonPoint[] between = [.. Enumerable.Range(0, 101).Select(
                i => comparison.Sample(from + (width * i / 100)))];
            Assert.All(between, point => Assert.InRange(point.Largest, lower, upper));

            // From -180 to 180 shifted by 180, so that opposition is where the angle wraps.
            double[] apart = [.. between.Select(
                point => (point.Labs[0].HueDegrees - point.Others[0].HueDegrees + 540) % 360)];
            passed += Enumerable.Range(1, 100).Any(i => Math.Abs(apart[i] - apart[i - 1]) > 180) ? 1 : 0;
            decided += upper <= 1.8 || lower > 1.8 ? 1 : 0;
        }

        Assert.InRange(passed, rounds / 200, rounds / 4);
        Assert.InRange(decided, rounds / 20, rounds);
    }

    /// <summary>
    /// Two colours of chroma 10, whose hues are opposite but for 0.1 rad, can become opposite when both turn by more
    /// than half of that: sin 0.05 = 0.04998, 0.4998 of CIELAB each. Then CIEDE2000 can jump by 2 √2 1.5 times all
    /// chroma.
    /// </summary>
    [Theory]
    [InlineData(0.0)]
    [InlineData(0.9)]
    [InlineData(2.2)]
    [InlineData(-2.0)]
    [InlineData(-0.6)]
    public void A_jump_is_allowed_for_just_where_hues_can_become_opposite(double hue)
    {
        foreach (double side in (double[])[-0.1, 0.1])
        {
            Lab reference = new(50, 10 * Math.Cos(hue), 10 * Math.Sin(hue)), color = new(
                50, 10 * Math.Cos(hue + Math.PI + side), 10 * Math.Sin(hue + Math.PI + side));
            double Width(double move)
            {
                ColorMove each = new(move, move);
                (double lower, double upper) = ColorMove.Bounds(
                    ColorDifferenceFormula.Ciede2000, 7, 7, color, color, reference, reference, each, each);
                Assert.Equal(7, (lower + upper) / 2, 1e-12);
                return (upper - lower) / 2;
            }

            // Beyond a distance of 15, CIEDE2000 is as steep as 3 (distance / 15)².
            double Steep(double move) => 2 * move * 3 * Math.Pow(
                ((20 * Math.Cos(0.05)) + (2 * move)) / 15, 2);
            Assert.Equal(Steep(0.499), Width(0.499), 1e-9);
            Assert.Equal(Steep(0.5), Width(0.5) - (2 * Math.Sqrt(2) * 1.5 * 21), 0.01);
        }

        // From hues within a right angle the way is longer than what the steepness covers.
        Lab near = new(50, 10, 0), beside = new(50, 1, 10);
        (double low, double high) = ColorMove.Bounds(
            ColorDifferenceFormula.Ciede2000, 7, 7, near, near, beside, beside, new(12, 12), new(12, 12));
        double far = Math.Sqrt(181) + 24;
        Assert.Equal(24 * 3 * far * far / 225, (high - low) / 2, 1e-9);
    }
}
