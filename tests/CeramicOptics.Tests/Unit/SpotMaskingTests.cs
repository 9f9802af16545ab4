using CeramicOptics.Decisions.Masking;
using CeramicOptics.Layers.Lateral;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;

namespace CeramicOptics.Tests.Unit;

/// <summary>A dark spot on a lighter stump: thickness that hides it everywhere, and how far it shows.</summary>
public class SpotMaskingTests
{
    private static readonly WallData Data = WallData.Coarse("transport");
    private static readonly Restoration Crown = Data.Crown(
        WallData.Zone(Data.Good, MaskingReference.Over(Data.Good))) with
    {
        WallRange = new ThicknessRange(0.5, 3),
        Viewing = WallData.TwoLights,
    };

    private static Zone Zone => Crown.Zones[0];

    [Fact]
    public void A_wide_spot_is_a_stump_of_its_own_and_a_narrow_one_shows_less()
    {
        MinimumThickness whole = MaskingThickness.Find(
            Crown.WithZones([WallData.Zone(Data.Dark, MaskingReference.Over(Data.Good))])).Zones[0].Minimum;
        double before = double.PositiveInfinity;
        foreach (double radius in (double[])[10, 3, 1, 0.5])
        {
            SpotMaskingResult result = SpotMasking.Find(Crown, Zone, Data.Dark, radius);
            double byColor = result.Minimum.ByColorMm!.Value;
            Assert.InRange(byColor, 0.5, before);
            Assert.InRange(result.Minimum.ReliableMm!.Value, byColor, whole.ReliableMm!.Value + 0.01);
            if (radius == 10)
            {
                Assert.Equal(whole.ByColorMm!.Value, byColor, 0.01);
                Assert.Equal(whole.ReliableMm!.Value, result.Minimum.ReliableMm!.Value, 0.02);
            }

            // Everywhere within the criterion from there on, and not just below.
            foreach (double more in (double[])[0, 0.1, 0.5])
            {
                Assert.All(
                    result.ProfileAt(byColor + more),
                    point => Assert.InRange(point.Difference, 0, result.Restoration.Criterion.Limit + 1e-3));
            }

            double limit = result.Restoration.Criterion.Limit;
            Assert.Contains(result.ProfileAt(byColor - 0.02), point => point.Difference > limit);
            before = byColor;
        }
    }

    /// <summary>The stack with the spot solved at a thickness between the nodes, colour by colour.</summary>
    [Fact]
    public void Profiles_are_those_of_the_spot_solved_there()
    {
        const double Wall = 0.83, Radius = 1.5;
        SpotMaskingResult result = SpotMasking.Find(Crown, Zone, Data.Dark, Radius);
        IReadOnlyList<SpotPoint> profile = result.ProfileAt(Wall);
        LayerStack stack = Crown.StackOver(Data.Good, Wall);
        IReadOnlyList<ReflectanceSpectrum> seen = LateralReflectance.AboveSpot(
            stack, Data.Dark, Crown.Viewing.Geometry,
            new SpotBelow(Radius, [.. profile.Select(point => point.DistanceMm)]),
            new TransportLateralSampler(stack, Crown.Viewing.Geometry, TransportModel.Default, anisotropy: 0.4));
        ReflectanceSpectrum reference = stack.Reflectance();
        for (int r = 0; r < profile.Count; r++)
        {
            double expected = WallData.Lights.Max(
                light => Crown.Criterion.Difference(light.ToLab(reference), light.ToLab(seen[r])));
            Assert.Equal(expected, profile[r].Difference, 0.02);
        }

        double reach = result.ReachMm(Wall);
        Assert.InRange(reach, 0.01, 5);
        Assert.All(profile, point => Assert.Equal(
            point.DistanceMm < Radius + reach, point.Difference > result.Restoration.Criterion.Limit));
        Assert.Equal(0, result.ReachMm(result.Minimum.ByColorMm!.Value + 0.01));
    }

    [Fact]
    public void Nothing_is_recommended_without_a_strength_limit_or_below_it()
    {
        SpotMaskingResult none = SpotMasking.Find(Crown, Zone, Data.Dark, 1);
        Assert.Null(none.Minimum.RecommendedMm);
        Assert.Contains(none.Cautions, caution => caution.Kind == CautionKind.StrengthLimitNotGiven);
        foreach (CautionKind kind in (CautionKind[])
            [CautionKind.StrengthNotAssessed, CautionKind.ToothReduction, CautionKind.SidewaysLight])
        {
            Assert.Contains(none.Cautions, caution => caution.Kind == kind);
        }

        Zone strong = Zone with { Strength = StrengthLimit.Of(2.5) };
        SpotMaskingResult limited = SpotMasking.Find(Crown, strong, Data.Dark, 1);
        Assert.Equal(2.5, limited.Minimum.RecommendedMm);
        Assert.Equal(none.Minimum.ByColorMm, limited.Minimum.ByColorMm);
        Assert.Contains(limited.Cautions, caution => caution.Kind == CautionKind.StructuralMinimumGoverns);
        Assert.Contains(limited.Cautions, caution => caution.Kind == CautionKind.BelowStructuralMinimum);
    }

    [Fact]
    public void A_zone_that_shows_by_itself_has_no_answer_and_no_end()
    {
        Zone dark = WallData.Zone(Data.Dark, MaskingReference.Over(Data.Good));
        Restoration thin = Crown.WithZones([dark]) with { WallRange = new ThicknessRange(0.5, 1.2) };
        SpotMaskingResult result = SpotMasking.Find(thin, dark, Data.Good, 1);
        Assert.Null(result.Minimum.ByColorMm);
        Assert.Null(result.Minimum.RecommendedMm);
        Assert.Null(result.Minimum.StandardUncertaintyMm);
        Assert.Equal(double.PositiveInfinity, result.ReachMm(1));
        Assert.Contains(result.Cautions, caution => caution.Kind == CautionKind.NotReliable);
    }

    /// <summary>
    /// A large spot that never masks leaves nothing to be uncertain about, although the wall around it masks from some
    /// thickness on.
    /// </summary>
    [Fact]
    public void A_thickness_that_is_not_there_has_no_uncertainty()
    {
        Restoration crown = Crown with { WallRange = new ThicknessRange(0.5, 1.2) };
        Zone zone = Enumerable.Range(1, 12).Select(i => WallData.Zone(
                Data.Stump("dull", 0.35 - (0.02 * i), 0.65 - (0.03 * i)), MaskingReference.Over(Data.Good), 1.1))
            .First(one => MaskingThickness.Find(crown.WithZones([one])).Zones[0].Minimum.StandardUncertaintyMm > 0);
        MinimumThickness spot = SpotMasking.Find(crown, zone, Data.Dark, 10).Minimum;
        Assert.Null(spot.ByColorMm);
        Assert.Null(spot.StandardUncertaintyMm);
    }

    /// <summary>A metal takes the index of the cement; as a wide spot it is the zone of its own all the same.</summary>
    [Fact]
    public void A_metal_without_an_index_of_its_own_may_be_the_spot()
    {
        Substrate metal = Substrate.OpaqueMetal("metal", ReflectanceSpectrum.Uniform(Data.Grid, 0.15));
        MinimumThickness whole = MaskingThickness.Find(
            Crown.WithZones([WallData.Zone(metal, MaskingReference.Over(Data.Good))])).Zones[0].Minimum;
        SpotMaskingResult result = SpotMasking.Find(Crown, Zone, metal, 10);
        Assert.Equal(whole.ByColorMm!.Value, result.Minimum.ByColorMm!.Value, 0.01);
    }

    /// <summary>Stumps that no zone has are named too when their area is not stated.</summary>
    [Fact]
    public void A_spot_read_over_an_area_that_is_not_stated_is_a_caution()
    {
        Substrate unknown = Substrate.FromMeasuredReflectance(
            "unknown", ReflectanceSpectrum.Uniform(Data.Grid, 0.2), 1.54,
            MeasurementGeometry.DiffuseSpecularIncluded);
        Assert.Contains(
            SpotMasking.Find(Crown, Zone, unknown, 1).Cautions,
            caution => caution is { Kind: CautionKind.AreaNotStated, Subject: "unknown" });
        Assert.Contains(
            SpreadMap.Compile(Crown, [Data.Good, unknown]).Cautions,
            caution => caution is { Kind: CautionKind.AreaNotStated, Subject: "unknown" });
    }

    [Fact]
    public void Long_work_reports_and_stops()
    {
        List<double> done = [];
        SpotMasking.Find(Crown, Zone, Data.Dark, 1, progress: new Immediate(done.Add));
        Assert.Equal(done.Order(), done);
        Assert.True(done.Count > 5 && done[^1] == 1);
        Assert.ThrowsAny<OperationCanceledException>(
            () => SpotMasking.Find(Crown, Zone, Data.Dark, 1, cancellation: new CancellationToken(true)));
    }
}
