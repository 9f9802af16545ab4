using CeramicOptics.Decisions.Masking;
using CeramicOptics.Restorations;
using FsCheck.Xunit;

namespace CeramicOptics.Tests.Properties;

/// <summary>
/// The masking answer equals a brute-force scan: over illuminants, formulas and all three kinds of reference.
/// </summary>
public class MaskingProperties
{
    // A compiled stack is right to 1e-5 in reflectance, which is 0.01 CIEDE2000 at most; where the scan comes that near
    // to the limit, either answer is right.
    private const double MinMm = 0.3, MaxMm = 1.8, Compiled = 0.01;

    [Property(MaxTest = Cases.Some, Arbitrary = [typeof(Generators)])]
    public void Answer_equals_a_scan_in_two_flux_theory(
        CeramicInput ceramic, StumpInput stump, StumpInput good, Fraction choice) =>
        Answer_equals_a_scan("two-flux", 0.003, ceramic, stump, good, choice);

    [Property(MaxTest = Cases.Few, Arbitrary = [typeof(Generators)])]
    public void Answer_equals_a_scan_in_radiative_transfer(
        CeramicInput ceramic, StumpInput stump, StumpInput good, Fraction choice) =>
        Answer_equals_a_scan("transport", 0.05, ceramic, stump, good, choice);

    /// <summary>Near-neutral colours, whose hues pass opposition just where CIEDE2000 jumps over the limit.</summary>
    [Fact]
    public void Answer_is_right_where_the_formula_itself_jumps_over_the_limit() => Answer_equals_a_scan(
        "two-flux", 0.0005,
        new CeramicInput(7.035795704194619, 0.424046, 0.023382664355664357, 0.01076921382363547, 1.9992415, 0.855714),
        new StumpInput(0.49822049, 0.33205535), new StumpInput(0.36294248, 0.70370453), new Fraction(0.735347));

    private static void Answer_equals_a_scan(
        string model, double stepMm, CeramicInput input, StumpInput stump, StumpInput good, Fraction choice)
    {
        WallData data = WallData.Coarse(model);
        Material material = data.Make("ceramic", input.KFloor, input.KBlue, input.S550, input.Index);
        Substrate under = data.Stump("stump", stump.Blue, stump.Red), light = data.Stump("good", good.Blue, good.Red);
        LayerStack At(double mm) => new([new Layer(material, mm), new Layer(data.Film, 0.05)], under);
        ColorReference reference = (int)Math.Min(2, choice.Value * 3) switch
        {
            0 => MaskingReference.SelfBacked,
            1 => MaskingReference.Over(light),
            _ => WallData.Wish(At(1.1).WithSubstrate(light).Reflectance()),
        };
        ColorCriterion criterion = input.DiscMm < 0.6
            ? ColorCriterion.AcceptabilityThresholdCielab
            : ColorCriterion.AcceptabilityThreshold;
        Restoration crown = new(
            [WallData.Zone(under, reference, 1)], new Ceramic("any", 1, material), new Layer(data.Film, 0.05),
            criterion)
        {
            Viewing = WallData.TwoLights, WallRange = new ThicknessRange(MinMm, MaxMm), Uncertainty = WallData.Sure,
        };

        ZoneMasking found = MaskingThickness.Find(crown, new MaskingOptions { Samples = 256 }).Zones[0];

        // Plain evaluation of the public stack at every step.
        int steps = (int)Math.Round((MaxMm - MinMm) / stepMm);
        double[] walls = [.. Enumerable.Range(0, steps + 1).Select(i => i == steps ? MaxMm : MinMm + (i * stepMm))];
        double[] scan = [.. walls.Select(mm => WallData.Worst(At(mm), reference, 0, criterion))];
        int lastSurelyAbove = Array.FindLastIndex(scan, value => value > criterion.Limit + Compiled);
        int lastPerhapsAbove = Array.FindLastIndex(scan, value => value > criterion.Limit - Compiled);
        double? answer = found.Minimum.ByColorMm;
        if (reference is Target)
        {
            AnswersTarget(
                found.Minimum, walls, scan, criterion.Limit, mm => WallData.Worst(At(mm), reference, 0, criterion));
        }
        else if (answer is null)
        {
            Assert.Equal(steps, lastPerhapsAbove);
        }
        else
        {
            Assert.InRange(
                answer.Value, lastSurelyAbove < 0 ? MinMm : walls[lastSurelyAbove],
                lastPerhapsAbove < 0 ? MinMm : walls[Math.Min(steps, lastPerhapsAbove + 1)]);
        }

        Assert.InRange(found.Best.Difference, scan.Min() - (15 * stepMm), scan.Min() + 0.01 + Compiled);
        Assert.Equal(WallData.Worst(At(found.Best.WallMm), reference, 0, criterion), found.Best.Difference, Compiled);
        Assert.All(
            found.Crossings,
            crossing => Assert.True(WallData.Worst(At(crossing.WallMm), reference, 0,
            criterion) <= criterion.Limit + Compiled));
    }

    // Met from end to end, missed beyond, and nothing thinner is met over more than a hundredth, as it is shown.
    private static void AnswersTarget(
        MinimumThickness minimum, double[] walls, double[] scan, double limit, Func<double, double> differenceAt)
    {
        if (minimum.ByColorMm is not double from)
        {
            Assert.All(scan, value => Assert.True(value > limit - Compiled));
            return;
        }

        double upTo = minimum.ByColorUpToMm!.Value;
        Assert.True(from <= upTo);
        Assert.True(from == MinMm || Math.Abs(differenceAt(from) - limit) <= Compiled);
        Assert.True(upTo == MaxMm || Math.Abs(differenceAt(upTo) - limit) <= Compiled);
        double metFrom = double.NaN;
        for (int i = 0; i < walls.Length; i++)
        {
            Assert.True(walls[i] < from || walls[i] > upTo || scan[i] <= limit + Compiled);
            metFrom = scan[i] >= limit - Compiled ? double.NaN : double.IsNaN(metFrom) ? walls[i] : metFrom;
            Assert.False(walls[i] < from && walls[i] - metFrom > 0.02);
        }
    }
}
