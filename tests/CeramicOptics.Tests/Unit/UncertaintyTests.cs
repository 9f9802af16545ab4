using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Restorations;
using MathNet.Numerics.Distributions;
using static CeramicOptics.Tests.WallData;

namespace CeramicOptics.Tests.Unit;

public class UncertaintyTests
{
    /// <summary>
    /// Closed form: with nothing uncertain but L*, a*, b* each by u, of the target or of the model, the CIELAB
    /// difference over u is distributed as chi with three degrees of freedom: P(difference ≤ d) = erf(x/√2) - √(2/π) x
    /// exp(-x²/2), x = d/u (Maxwell).
    /// </summary>
    [Theory]
    [InlineData(0.5, false)]
    [InlineData(1.5, false)]
    [InlineData(3, false)]
    [InlineData(1.5, true)]
    public void A_closed_form_is_met(double u, bool ofModel)
    {
        WallData data = Coarse("two-flux");
        ZonePrediction zone = PredictionUncertainty.Find(
            Itself(data, ColorCriterion.AcceptabilityThresholdCielab,
            ofModel
                ? Sure with { ModelColor = u }
                : Sure with { TargetColor = u }), new SamplingOptions { Samples = 16384 }).Zones[0];
        double x = zone.Difference + (2.7 / u);
        double expected = MathNet.Numerics.SpecialFunctions.Erf(x / Math.Sqrt(2)) - (
            Math.Sqrt(2 / Math.PI) * x * Math.Exp(-x * x / 2));
        Assert.InRange(
            zone.Meets.Value, expected - (4 * zone.Meets.StandardError) - 1e-3,
            expected + (4 * zone.Meets.StandardError) + 1e-3);
        Assert.InRange(zone.Meets.StandardError, 0, 0.01);
        Assert.Equal(2 * u * Math.Sqrt(2 / Math.PI), zone.MeanDifference, 0.02 * u);
        Assert.Equal(ofModel ? "optical model" : "reading of the target", Assert.Single(zone.Contributions).ToString());
    }

    /// <summary>
    /// The same closed form (tables of chi-square): mean 1.5958, deviation 0.6734, 2.5 % and 97.5 % points 0.4645 and
    /// 3.0575 times the standard deviation of one.
    /// </summary>
    [Fact]
    public void Sampling_finds_the_distribution_of_a_distance()
    {
        const double U = 0.9;
        ZonePrediction zone = PredictionUncertainty.Find(
            Itself(Coarse("two-flux"), new ColorCriterion("own", ColorDifferenceFormula.Cie76, 1.5, "this test"),
            Sure with { TargetColor = U }), new SamplingOptions { Samples = 20000 }).Zones[0];
        Assert.Equal(20000, zone.Samples);
        Assert.Equal(1.5958 * U, zone.MeanDifference, 0.005);
        Assert.Equal(0.6734 * U, zone.StandardUncertainty, 0.005);
        Assert.Equal(0.4645 * U, zone.Interval95.Low, 0.01);
        Assert.Equal(3.0575 * U, zone.Interval95.High, 0.03);
        (double, Probability)[] stated = [(1.5, zone.Meets), (2.7, zone.Acceptable), (1.2, zone.Imperceptible)];
        foreach ((double limit, Probability found) in stated)
        {
            double x = limit / U;
            double expected = MathNet.Numerics.SpecialFunctions.Erf(x / Math.Sqrt(2)) - (
                Math.Sqrt(2 / Math.PI) * x * Math.Exp(-x * x / 2));
            Assert.Equal(expected, found.Value, 0.006);
            Assert.InRange(found.StandardError, 1e-5, 0.004);
        }

        Assert.Equal(1, Assert.Single(zone.Contributions).Share);
    }

    /// <summary>
    /// Where the difference is large against its uncertainty, first order and sampling agree, and masking tells the
    /// same as the prediction.
    /// </summary>
    [Theory]
    [MemberData(nameof(Models), MemberType = typeof(WallData))]
    public void First_order_and_sampling_and_masking_agree(string model)
    {
        WallData data = Coarse(model);
        foreach (Material core in (Material[])[data.Body, data.Dense])
        {
            foreach (double coreMm in (double[])[0.02, 0.05])
            {
                Restoration crown = data.Crown(Zone(data.Dark, MaskingReference.SelfBacked, 0.6),
                    core) with { Viewing = TwoLights, Uncertainty = OfInputs with { CoreMm = coreMm } };
                ZonePrediction sampled = PredictionUncertainty.Find(crown).Zones[0];
                ZoneMasking masking = MaskingThickness.Find(crown).Zones[0];
                UncertaintyModel first = new(new ZoneComparison(new CompiledWall(crown, default), crown.Zones[0]));
                first.Prepare(0.6);
                Assert.InRange(sampled.StandardUncertainty / first.StandardUncertainty(), 0.95, 1.05);
                Assert.InRange(masking.StandardUncertainty / sampled.StandardUncertainty, 0.97, 1.03);
                Assert.Equal(masking.MasksAtAvailable.Value, sampled.Meets.Value, 0.02);
                Assert.Equal(sampled.Difference, masking.AtAvailable.Difference, 1e-12);
                Assert.Equal(sampled.Difference, sampled.MeanDifference, 0.15 * sampled.StandardUncertainty);
                Assert.Equal(1, sampled.Contributions.Sum(item => item.Share), 1e-12);

                // With the same points they are the same figures.
                ZoneMasking same = MaskingThickness.Find(crown,
                    new MaskingOptions { Samples = 2048, Seed = 5 }).Zones[0];
                ZonePrediction too = PredictionUncertainty.Find(
                    crown, new SamplingOptions { Samples = 2048, Seed = 5 }).Zones[0];
                Assert.Equal((too.StandardUncertainty, too.Meets), (same.StandardUncertainty, same.MasksAtAvailable));
            }
        }
    }

    [Fact]
    public void A_seed_gives_the_same_result_and_another_one_a_like_one()
    {
        WallData data = Coarse("two-flux");
        Restoration crown = data.Crown(Zone(data.Dark, MaskingReference.SelfBacked, 1),
            data.Dense) with { Viewing = TwoLights };
        ZonePrediction Run(ulong seed) =>
            PredictionUncertainty.Find(crown, new SamplingOptions { Samples = 2048, Seed = seed }).Zones[0];
        Assert.Equal(Run(3).Meets, Run(3).Meets);
        Assert.Equal(Run(3).Interval95, Run(3).Interval95);
        Assert.NotEqual(Run(3).MeanDifference, Run(4).MeanDifference);
        Assert.Equal(Run(3).Meets.Value, Run(4).Meets.Value, 6 * Math.Max(0.003, Run(3).Meets.StandardError));
        Assert.Equal(1, Run(3).Contributions.Sum(item => item.Share), 1e-12);
        Assert.Equal(2048, Run(3).Samples);
    }

    /// <summary>
    /// Without uncertainty a prediction is sure: no spread, no contributions, a probability of 1 or 0.
    /// </summary>
    [Fact]
    public void Without_uncertainty_a_prediction_is_sure()
    {
        WallData data = Coarse("two-flux");
        Restoration At(double limit) => new(
            [Zone(data.Dark, MaskingReference.Over(data.Good), 1)], new Ceramic("sure", 1, data.Plain),
            CouplingMedium.Water, new ColorCriterion("own", ColorDifferenceFormula.Ciede2000, limit, "this test"))
        {
            Uncertainty = Sure,
        };
        double difference = Worst(
            At(1).StackOver(data.Dark, 1), MaskingReference.Over(data.Good), 0, ColorCriterion.AcceptabilityThreshold,
            Lights[0]);
        ZonePrediction met = PredictionUncertainty.Find(At(1.001 * difference)).Zones[0],
            missed = PredictionUncertainty.Find(At(0.999 * difference)).Zones[0];
        Assert.Equal(difference, met.Difference, 1e-4);
        Assert.Equal(0, met.StandardUncertainty, 1e-12);
        Assert.Equal((1, 0), (met.Meets.Value, missed.Meets.Value));
        Assert.Equal(met.Difference, met.Interval95.Low, 1e-12);
        Assert.Equal(met.Difference, met.Interval95.High, 1e-12);
        Assert.Empty(met.Contributions);
    }

    [Fact]
    public void The_zone_with_the_least_probability_limits()
    {
        WallData data = Coarse("two-flux");
        Zone[] zones = [new("light", data.Good, 1, MaskingReference.SelfBacked), new(
            "dark", data.Dark, 1, MaskingReference.SelfBacked), new("thin", data.Good, 0.4,
            MaskingReference.SelfBacked)];
        UncertaintyResult result = PredictionUncertainty.Find(data.Crown(zones[0], data.Dense).WithZones(zones));
        Assert.Equal(zones, result.Zones.Select(zone => zone.Zone));
        Assert.Equal(result.Zones.Min(zone => zone.Meets.Value), result.Limiting.Meets.Value);
        Assert.NotEqual("light", result.Limiting.Zone.Name);
        Assert.Matches(
            @"^light: \d+\.\d ± \d\.\d, meets the criterion with probability "
                + @"(0\.\d{3} ± 0\.\d{3}|at (least|most) 0\.\d{3}); "
                + "dark: .*; thin: .*$",
            result.ToString());
    }

    /// <summary>
    /// Mean and standard error of sixteen replicates by hand: shares of 1/16 to 16/16, of which the mean is 8.5/16 and
    /// the variance 340/15/256.
    /// </summary>
    [Fact]
    public void Standard_error_is_that_of_the_replicates()
    {
        // Replicate r holds r + 1 differences of 1 and the rest of 3.
        SampledDifferences sampled = new([.. Enumerable.Range(0, 256).Select(k => k % 16 <= k / 16 ? 1.0 : 3)], 16);
        Probability found = sampled.Within(2);
        Assert.Equal(8.5 / 16, found.Value, 1e-12);
        Assert.Equal(Math.Sqrt(340.0 / 15 / 16) / 16, found.StandardError, 1e-12);
        Assert.Equal((1, 0), (sampled.Within(3).Value, sampled.Within(3).StandardError));
        Assert.Equal(0, sampled.Within(0.9).Value);
        Assert.Equal(3 - (2 * 8.5 / 16), sampled.Mean, 1e-12);
        Assert.Equal((1, 3), (sampled.Quantile(0.025), sampled.Quantile(0.975)));
    }

    /// <summary>
    /// Points of a sequence are evenly spread: mean, variance and a tail of 4,096 points closer to their limits than
    /// the spread of random ones (0.016, 0.022, 0.006); replicates differ.
    /// </summary>
    [Fact]
    public void Points_of_a_sequence_are_normal_and_even()
    {
        NormalSequence sequence = new(4, 4090, seed: 5);
        Assert.Equal((256, 4096), (sequence.PerReplicate, sequence.Count));
        double[][] points = [.. Enumerable.Range(0, sequence.Count).Select(_ => Next(sequence, 4))];
        for (int j = 0; j < 4; j++)
        {
            Assert.Equal(0, points.Average(point => point[j]), 0.01);
            Assert.Equal(1, points.Average(point => point[j] * point[j]), 0.02);
            Assert.Equal(0.158655, points.Count(point => point[j] < -1) / 4096.0, 0.004);
            for (int other = 0; other < j; other++)
            {
                Assert.Equal(0, points.Average(point => point[j] * point[other]), 0.03);
            }
        }

        Assert.NotEqual(points[0][0], points[256][0], 1e-3);
        double Uniform(double normal) => Normal.CDF(0, 1, normal);

        // SplitMix64 gives 6457827717110365317, 3203168211198807973, 9817491932198370423 for the seed 1234567 (Rosetta
        // Code, Pseudo-random numbers/Splitmix64, as quoted in public test suites); divided by 2^64 these are the
        // shifts of the first sequence, and the first point lies one step from them.
        double[] first = Next(new NormalSequence(3, 256, 1234567), 3);
        (ulong Number, double Step)[] published = [(6457827717110365317, Math.Sqrt(2) - 1), (
            3203168211198807973, Math.Sqrt(3) - 1), (9817491932198370423, Math.Sqrt(5) - 2)];
        Assert.Equal(
            published.Select(item => ((item.Number / Math.Pow(2, 64)) + item.Step) % 1), first.Select(Uniform),
            (one, other) => Math.Abs(one - other) < 1e-9);

        // Richtmyer: the step of the first dimension is the fraction of the root of 2.
        double step = Uniform(points[1][0]) - Uniform(points[0][0]);
        Assert.Equal(Math.Sqrt(2) - 1, step < 0 ? step + 1 : step, 1e-6);
        step = Uniform(points[1][3]) - Uniform(points[0][3]);
        Assert.Equal(Math.Sqrt(7) - 2, step < 0 ? step + 1 : step, 1e-6);

        // Points kept, and points made for each replicate on its own, are those of the sequence.
        foreach (int samples in (int[])[4090, 1_100_000])
        {
            NormalSequence whole = new(4, samples, seed: 5);
            NormalPoints kept = new(4, new SamplingOptions { Samples = samples, Seed = 5 });
            Assert.Equal((whole.Count, whole.PerReplicate), (kept.Count, kept.PerReplicate));
            for (int k = 0; k < 2 * whole.PerReplicate; k++)
            {
                double[] point = Next(whole, 4);
                if (k % whole.PerReplicate < 2)
                {
                    Assert.Equal(
                        point, kept.Replicate(k / whole.PerReplicate).Slice(4 * (k % whole.PerReplicate), 4).ToArray());
                }
            }
        }
    }

    /// <summary>Against the general routine of MathNet.Numerics.</summary>
    [Fact]
    public void Normal_quantiles_agree_with_the_mathematics_library()
    {
        double[] probabilities = [1e-12, 1e-7, 0.001, 0.0749, 0.0751, 0.3, 0.5, 0.6, 0.9249, 0.9251, 0.999, 1 - 1e-9];
        foreach (double p in probabilities)
        {
            Assert.Equal(Normal.InvCDF(0, 1, p), NormalQuantile.Of(p), 1e-9);
        }
    }

    private static double[] Next(NormalSequence sequence, int dimensions)
    {
        double[] point = new double[dimensions];
        sequence.Next(point);
        return point;
    }

    // A wall compared with its own colour.
    private static Restoration Itself(WallData data, ColorCriterion criterion, InputUncertainty inputs)
    {
        Restoration crown = new(
            [Zone(data.Dark, MaskingReference.SelfBacked, 1)], new Ceramic("itself", 1, data.Plain),
            CouplingMedium.Water, criterion)
        {
            Uncertainty = inputs, WallRange = new ThicknessRange(1, 1),
        };
        Lab color = Colorimeter.D65TwoDegree.ToLab(crown.StackOver(data.Dark, 1).Reflectance());
        return crown.WithZones(
            [crown.Zones[0].ComparedWith(
                Target.FromColor("itself", color, Colorimeter.D65TwoDegree,
                MeasurementGeometry.DiffuseSpecularIncluded))]);
    }
}
