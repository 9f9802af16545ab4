using CeramicOptics.Selection;
using FsCheck.Xunit;

namespace CeramicOptics.Tests.Properties;

public class MaskingProperties
{
    private const double ScanStepMm = 0.0005, MinMm = 0.3, MaxMm = 1.8;

    /// <summary>The masking answer equals a brute-force scan: over stumps, illuminants, formulas and all three kinds of reference.</summary>
    [Property(MaxTest = Cases.Many, Arbitrary = [typeof(Generators)])]
    public void Answer_equals_a_brute_force_scan(CeramicInput ceramic, StumpInput one, StumpInput other, StumpInput good, Fraction choice)
    {
        Material material = ceramic.Material(), cement = new("cement", AbsorptionSpectrum.Uniform(material.Grid, 0.03), ScatteringSpectrum.Uniform(material.Grid, 1), 1.52);
        LayerStack stack = new([new Layer(material, 1), new Layer(cement, 0.05)], Substrate.Black);
        Substrate[] stumps = [one.Substrate("one"), other.Substrate("other")];
        int kind = (int)Math.Min(2, choice.Value * 3);
        MaskingReference reference = kind switch
        {
            0 => MaskingReference.SelfBacked,
            1 => MaskingReference.Over(good.Substrate("good")),
            _ => MaskingReference.Target("target", stack.WithThickness(0, 1.1).WithSubstrate(good.Substrate("good")).Reflectance()),
        };
        ColorCriterion criterion = ceramic.DiscMm < 0.6 ? ColorCriterion.AcceptableMatchCielab : ColorCriterion.AcceptableMatch;
        ViewingConditions conditions = new() { Colorimeters = [Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree], ChecksModel = false };

        MaskingResult result = MaskingThickness.Find(stack, 0, (MinMm, MaxMm), reference, criterion, stumps, conditions);

        (double lastAbove, double best) = Scan(stack, stumps, reference, criterion, conditions);
        double? expected = lastAbove >= MaxMm ? null : double.IsNaN(lastAbove) ? MinMm : lastAbove;
        Assert.Equal(expected is null, result.OpticalMinimumMm is null);
        if (expected is not null)
        {
            Assert.InRange(result.OpticalMinimumMm!.Value, expected.Value - 1e-8, expected.Value + ScanStepMm + 1e-8);
        }

        Assert.InRange(result.Best.Difference, best - 0.03, best + 0.011);
    }

    /// <summary>A case found by chance: near-neutral colours, whose hues pass opposition just where CIEDE2000 jumps over the limit.</summary>
    [Fact]
    public void Answer_is_right_where_the_formula_itself_jumps_over_the_limit() => Answer_equals_a_brute_force_scan(
        new CeramicInput(7.035795704194619, 0.424046, 0.023382664355664357, 0.01076921382363547, 1.9992415, 0.855714),
        new StumpInput(0.49822049, 0.33205535), new StumpInput(0.043022285, 0.51381934), new StumpInput(0.36294248, 0.70370453), new Fraction(0.735347));

    // Plain evaluation of the public stack at every step, with no shared code but the physics itself.
    private static (double LastAbove, double Best) Scan(
        LayerStack stack, Substrate[] stumps, MaskingReference reference, ColorCriterion criterion, ViewingConditions conditions)
    {
        ThicknessSweep[] sweeps = [.. stumps.Select(stump => stack.WithSubstrate(stump).Sweep(0))];
        ThicknessSweep? good = reference.Substrate is null ? null : stack.WithSubstrate(reference.Substrate).Sweep(0);
        ReflectanceSpectrum? constant = good is null ? reference.Spectrum ?? sweeps[0].InfiniteReflectance() : null;
        double lastAbove = double.NaN, best = double.PositiveInfinity;
        int steps = (int)Math.Round((MaxMm - MinMm) / ScanStepMm);
        double[] values = new double[stack.Grid.Count], referenceValues = new double[stack.Grid.Count];
        for (int i = 0; i <= steps; i++)
        {
            double t = i == steps ? MaxMm : MinMm + (i * ScanStepMm), worst = 0;
            if (good is null)
            {
                constant!.Values.CopyTo(referenceValues);
            }
            else
            {
                good.Reflectance(t, referenceValues);
            }

            foreach (ThicknessSweep sweep in sweeps)
            {
                sweep.Reflectance(t, values);
                foreach (Colorimeter colorimeter in conditions.Colorimeters)
                {
                    WeightingTable table = colorimeter.Weighting(stack.Grid);
                    Lab sample = Lab.FromXyz(table.ToXyz(values), table.White), aim = Lab.FromXyz(table.ToXyz(referenceValues), table.White);
                    worst = Math.Max(worst, criterion.Difference(aim, sample));
                }
            }

            lastAbove = worst > criterion.Limit ? t : lastAbove;
            best = Math.Min(best, worst);
        }

        return (lastAbove, best);
    }
}
