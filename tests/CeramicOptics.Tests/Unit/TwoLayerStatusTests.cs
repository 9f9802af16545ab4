using CeramicOptics.Decisions.Masking;
using CeramicOptics.Exchange;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;

namespace CeramicOptics.Tests.Unit;

/// <summary>As <see cref="StatusAgreementTests"/>, for veneer and core.</summary>
public class TwoLayerStatusTests
{
    private static readonly ThicknessRange Veneers = new(0.21, 0.83), Cores = new(0.31, 1.63);

    // Number 9 is by radiative transfer; three are for a target.
    private static readonly int[] Numbers = [2, 3, 4, 9, 12];

    private static readonly TwoLayerResponse[] Responses = [.. Numbers.Select(Response)];

    [Fact]
    public void Statuses_and_missing_cores_agree_with_the_answer()
    {
        int recommended = 0, targets = 0;
        foreach (TwoLayerResponse response in Responses)
        {
            TwoLayerMap map = new([response]);
            for (int i = 0; i < 25; i++)
            {
                double veneer = Math.Min(Veneers.MinMm + (0.62 * i / 24), Veneers.MaxMm);
                MinimumThickness minimum = response.CoreRequirementAt(veneer).Minimum;
                if (minimum.RecommendedMm is double mm)
                {
                    recommended++;
                    targets += minimum.ByColorUpToMm is null ? 0 : 1;
                    double[] cores = [mm, (float)mm, Math.Min(MinimumThickness.RoundedUp(mm), Cores.MaxMm)];
                    Assert.All(
                        Statuses(map, veneer, cores), status => Assert.Equal(PointStatus.MaskedReliably, status));
                    Assert.Equal([0, 0, 0], Missing(map, ThicknessGoal.Recommended, veneer, cores));
                    Assert.All(
                        Statuses(map, (float)veneer, cores),
                        status => Assert.Contains(
                            status, (PointStatus[])[PointStatus.MaskedReliably, PointStatus.MaskedByColorOnly]));
                }

                if (minimum.ByColorMm is double from)
                {
                    double[] cores = [from, (float)from, Math.Min(from + response.ErrorBound,
                        minimum.ByColorUpToMm ?? Cores.MaxMm)];
                    Assert.DoesNotContain(PointStatus.Shows, Statuses(map, veneer, cores));
                }
            }
        }

        Assert.True(recommended > 20 && targets > 5, $"{recommended}, {targets}");
    }

    /// <summary>At random points: what is enough for a goal never shows, and what shows by more than the bound is
    /// never masked.</summary>
    [Fact]
    public void No_core_that_is_enough_shows_and_no_bad_news_is_hidden()
    {
        Random random = new(8);
        for (int i = 0; i < 4000; i++)
        {
            int which = random.Next(Responses.Length), number = Numbers[which];
            TwoLayerMap map = new([Responses[which]]);
            double veneer = Veneers.MinMm + (0.62 * random.NextDouble()), core = 0.2 + (1.6 * random.NextDouble());
            PointStatus status = Statuses(map, veneer, core)[0];
            double byColor = Missing(map, ThicknessGoal.ByColor, veneer, core)[0],
                reliable = Missing(map, ThicknessGoal.Reliable, veneer, core)[0];
            if (!Cores.Contains(core))
            {
                Assert.Equal(core < 1 ? PointStatus.BelowRange : PointStatus.AboveRange, status);
                continue;
            }

            Assert.False(byColor == 0 && status == PointStatus.Shows);
            Assert.Equal(reliable == 0, status == PointStatus.MaskedReliably);
            if (i % 20 == 0)
            {
                Restoration crown = Crown(number);
                Layer[] wall = [new(crown.Veneer!.Material, veneer), new(crown.Core.Material, core)];
                double above = RandomWalls.Difference(crown, wall) - crown.Criterion.Limit;
                double bound = Responses[which].ErrorBound;
                Assert.True(above <= bound || status == PointStatus.Shows, $"{number}: {veneer} {core} shows");
                Assert.True(above >= -bound || status != PointStatus.Shows, $"{number}: {veneer} {core} is masked");
            }
        }
    }

    [Fact]
    public void Ends_of_the_ranges_in_single_precision_are_inside()
    {
        foreach (TwoLayerResponse response in Responses[..3])
        {
            double[] veneer = [Veneers.MinMm, Veneers.MaxMm, Veneers.MinMm, Veneers.MaxMm],
                core = [Cores.MinMm, Cores.MinMm, Cores.MaxMm, Cores.MaxMm];
            double[] veneers = [.. veneer.Select(mm => (double)(float)mm)];
            double[] cores = [.. core.Select(mm => (double)(float)mm)];
            double[] differences = new double[4], expected = [.. veneer.Zip(core, response.DifferenceAt)];
            Lab[] colors = new Lab[4];
            TwoLayerMap map = new([response]);
            map.Differences(veneers, cores, differences);
            map.Colors(veneers, cores, colors);
            for (int i = 0; i < 4; i++)
            {
                Assert.Equal(expected[i], differences[i], 1e-5);
                Assert.Equal(0, ColorDifference.Cie76(response.ColorAt(veneer[i], core[i]), colors[i]), 1e-5);
            }

            PointStatus[] statuses = new PointStatus[4], same = new PointStatus[4];
            map.Statuses(veneer, core, statuses);
            map.Statuses(veneers, cores, same);
            Assert.Equal(statuses, same);
            Assert.Equal(PointStatus.BelowRange, Statuses(map, 0.1, 5)[0]);
            Assert.Equal(PointStatus.AboveRange, Statuses(map, 2, 1)[0]);
        }
    }

    [Fact]
    public void A_saved_target_has_the_same_statuses()
    {
        TwoLayerResponse response = Responses[1];
        Assert.True(response.Requirements.IsTarget);
        using MemoryStream stream = new();
        ResponseJson.Write(response, stream);
        stream.Position = 0;
        TwoLayerResponse read = ResponseJson.ReadTwoLayer(stream, "r.json");
        double[] cores = [.. Enumerable.Range(0, 200).Select(i => 0.25 + (0.007 * i))];
        foreach (double veneer in (double[])[0.21, 0.4, 0.83])
        {
            Assert.Equal(response.CoreRequirementAt(veneer), read.CoreRequirementAt(veneer));
            Assert.Equal(
                Statuses(new TwoLayerMap([response]), veneer, cores), Statuses(new TwoLayerMap([read]), veneer, cores));
        }
    }

    private static Restoration Crown(int number)
    {
        Restoration crown = RandomWalls.Of(number);
        Material veneer = RandomWalls.Of(number + 100).Core.Material;
        if (crown.Zones[0].Reference is Target)
        {
            LayerStack like = new(
                [new Layer(veneer, 0.5), new Layer(crown.Core.Material, 0.9), crown.Cement!], crown.Zones[0].Stump);
            crown = crown.WithZones([crown.Zones[0].ComparedWith(Target.FromReflectance(
                "wish", like.Reflectance(), MeasurementGeometry.DiffuseSpecularIncluded))]);
        }

        return crown with { Veneer = Veneer.OfShare(veneer, 0.4) };
    }

    private static TwoLayerResponse Response(int number)
    {
        Restoration crown = Crown(number);
        return TwoLayerResponse.Compile(
            crown, crown.Zones[0], Veneers, Cores, new MaskingOptions { Samples = 256 });
    }

    private static PointStatus[] Statuses(TwoLayerMap map, double veneerMm, params double[] coreMm)
    {
        PointStatus[] statuses = new PointStatus[coreMm.Length];
        map.Statuses([.. coreMm.Select(_ => veneerMm)], coreMm, statuses);
        return statuses;
    }

    private static double[] Missing(TwoLayerMap map, ThicknessGoal goal, double veneerMm, params double[] coreMm)
    {
        double[] missing = new double[coreMm.Length];
        map.MissingCoreThicknesses([.. coreMm.Select(_ => veneerMm)], coreMm, missing, goal: goal);
        return missing;
    }
}
