using CeramicOptics.Decisions.Masking;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using static CeramicOptics.Tests.Unit.MapData;

namespace CeramicOptics.Tests.Unit;

public class TwoLayerMappingTests
{
    internal static readonly ThicknessRange VeneerRange = new(0.2, 1.0), CoreRange = new(0.3, 1.6);

    internal static readonly TwoLayerResponse OnBrown = Response(
        Brown, StrengthLimit.Of(1.3, StrengthScope.CoreAndVeneer));

    private static readonly TwoLayerResponse OnLight = Response(
        Light, StrengthLimit.Of(1.5, StrengthScope.CoreAndVeneer));

    /// <summary>The answer is that of the question with one veneer, to a step of the grid and, between veneers, its
    /// margin.</summary>
    [Theory]
    [InlineData(0.2)]
    [InlineData(0.437)]
    [InlineData(0.6)]
    [InlineData(1.0)]
    public void Core_requirement_is_the_answer_of_the_question_with_one_veneer(double veneerMm)
    {
        Restoration crown = Layered(Brown, StrengthLimit.NotGiven) with
        {
            Veneer = Veneer.OfThickness(Glass, veneerMm),
            WallRange = new ThicknessRange(veneerMm + CoreRange.MinMm, veneerMm + CoreRange.MaxMm),
        };
        crown = crown.WithZones([crown.Zones[0].WithWall(crown.WallRange.MaxMm)]);
        MinimumThickness exact = MaskingThickness.Find(crown).Zones[0].Minimum;
        ThicknessRequirement requirement = OnBrown.CoreRequirementAt(veneerMm);
        MinimumThickness minimum = requirement.Minimum;
        Assert.True(exact.ByColorMm - veneerMm > CoreRange.MinMm);
        Assert.InRange(minimum.ByColorMm!.Value - (exact.ByColorMm!.Value - veneerMm), 0, 0.006);
        Assert.InRange(minimum.ReliableMm!.Value - (exact.ReliableMm!.Value - veneerMm), 0, 0.012);
        Assert.Equal(1.3 - veneerMm, minimum.StructuralMm!.Value, 1e-12);
        Assert.Equal(Math.Max(minimum.ReliableMm.Value, 1.3 - veneerMm), minimum.RecommendedMm!.Value, 1e-12);
        Assert.InRange(
            minimum.StandardUncertaintyMm!.Value, 0.8 * exact.StandardUncertaintyMm!.Value,
            1.25 * exact.StandardUncertaintyMm.Value);
        Assert.Contains(requirement.Cautions, caution => caution.Kind == CautionKind.ToothReduction);
        Assert.Equal(
            minimum.StructuralMm > minimum.ReliableMm,
            requirement.Cautions.Any(
                caution =>
                    caution.Kind == CautionKind.StructuralMinimumGoverns && caution.Value == minimum.StructuralMm));
    }

    /// <summary>Colours and differences of both lights compared with stacks made and evaluated here.</summary>
    [Theory]
    [InlineData(0.2, 0.3)]
    [InlineData(0.33, 1.12)]
    [InlineData(0.8, 0.45)]
    [InlineData(1.0, 1.6)]
    public void Colours_and_differences_are_those_of_the_stack(double veneerMm, double coreMm)
    {
        (Lab color, double difference) = Plain(
            Brown, MaskingReference.SelfBacked, ColorCriterion.AcceptabilityThreshold, new Layer(Glass, veneerMm),
            new Layer(Zirconia, coreMm));
        Assert.InRange(
            ColorDifference.Cie76(color, OnBrown.ColorAt(veneerMm, coreMm)), 0, ThicknessResponse.WantedError);
        Assert.Equal(difference, OnBrown.DifferenceAt(veneerMm, coreMm), OnBrown.ErrorBound);
    }

    /// <summary>Limits on the core alone stay whatever the veneer; limits on both give way to it; the stricter
    /// counts.</summary>
    [Fact]
    public void Strength_counts_the_layers_it_names()
    {
        Restoration crown = Layered(Light, StrengthLimit.Of(0.7));
        Zone zone = crown.Zones[0] with { Strength = StrengthLimit.Of(1.2, StrengthScope.CoreAndVeneer) };
        TwoLayerResponse response = TwoLayerResponse.Compile(crown, zone, VeneerRange, CoreRange);
        Assert.Equal(1.0, response.CoreRequirementAt(0.2).Minimum.StructuralMm!.Value, 1e-12);
        Assert.Equal(0.8, response.CoreRequirementAt(0.4).Minimum.StructuralMm!.Value, 1e-12);
        Assert.Equal(0.7, response.CoreRequirementAt(0.9).Minimum.StructuralMm!.Value, 1e-12);
        PointStatus[] statuses = new PointStatus[2];
        new TwoLayerMap([response]).Statuses([0.9, 0.9], [0.69, 0.71], statuses);
        Assert.Equal([PointStatus.BelowStructuralMinimum, PointStatus.MaskedReliably], statuses);

        TwoLayerResponse unlimited = Response(Light, StrengthLimit.NotGiven);
        ThicknessRequirement none = unlimited.CoreRequirementAt(0.9);
        Assert.Null(none.Minimum.RecommendedMm);
        Assert.Contains(none.Cautions, caution => caution.Kind == CautionKind.StrengthLimitNotGiven);
        double[] missing = new double[1];
        new TwoLayerMap([unlimited]).MissingCoreThicknesses([0.9], [0.1], missing);
        Assert.True(double.IsNaN(missing[0]));
        new TwoLayerMap([unlimited]).MissingCoreThicknesses([0.9], [0.1], missing, goal: ThicknessGoal.Reliable);
        Assert.Equal(none.Minimum.ReliableMm!.Value - 0.1, missing[0], 1e-12);
        new TwoLayerMap([unlimited]).MissingCoreThicknesses([0.9], [0.1], missing, goal: ThicknessGoal.ByColor);
        Assert.Equal(none.Minimum.ByColorMm!.Value - 0.1, missing[0], 1e-12);
    }

    /// <summary>
    /// A ceramic and a zone may both limit the same layers: the thicker limit counts, wherever it is from.
    /// </summary>
    [Theory]
    [InlineData(0.7, 0.9, StrengthScope.Core, 0.9)]
    [InlineData(0.9, 0.7, StrengthScope.Core, 0.9)]
    [InlineData(1.0, 1.3, StrengthScope.CoreAndVeneer, 1.1)]
    [InlineData(1.3, 1.0, StrengthScope.CoreAndVeneer, 1.1)]
    public void The_thicker_of_two_limits_on_the_same_layers_counts(
        double ofCeramicMm, double ofZoneMm, StrengthScope scope, double coreMm)
    {
        Restoration crown = Layered(Light, StrengthLimit.Of(ofCeramicMm, scope));
        Zone zone = crown.Zones[0] with { Strength = StrengthLimit.Of(ofZoneMm, scope) };
        Assert.Equal(
            coreMm,
            TwoLayerResponse.Compile(crown, zone, VeneerRange, CoreRange)
                .CoreRequirementAt(0.2).Minimum.StructuralMm!.Value,
            1e-12);
    }

    [Fact]
    public void Points_get_status_missing_thickness_and_nothing_where_nothing_is_known()
    {
        double enough = OnBrown.CoreRequirementAt(0.5).Minimum.RecommendedMm!.Value;
        double[] veneer = [0.5, 0.5, double.NaN, 0.5, 1.1, 0.5, 0.5],
            core = [0.4, enough, 0.5, double.NaN, 0.5, 0.2, 1.7];
        PointStatus[] statuses = new PointStatus[veneer.Length];
        double[] missing = new double[veneer.Length], differences = new double[veneer.Length];
        TwoLayerMap map = new([OnBrown]);
        map.Statuses(veneer, core, statuses);
        map.MissingCoreThicknesses(veneer, core, missing);
        map.Differences(veneer, core, differences);
        Assert.Equal(
            [PointStatus.Shows, PointStatus.MaskedReliably, PointStatus.NoData, PointStatus.NoData,
            PointStatus.AboveRange, PointStatus.BelowRange, PointStatus.AboveRange],
            statuses);
        Assert.Equal([enough - 0.4, 0, double.NaN, double.NaN, double.NaN, enough - 0.2, 0], missing);
        Assert.Equal([false, false, true, true, true, true, true], differences.Select(double.IsNaN));

        PointStatus[] thin = new PointStatus[1];
        double[] strength = new double[1];
        TwoLayerMap light = new([OnLight]);
        double masked = OnLight.CoreRequirementAt(0.21).Minimum.ByColorMm!.Value;
        Assert.True(masked < 1.2);
        light.Statuses([0.21], [1.25], thin);
        light.MissingCoreThicknesses([0.21], [1.25], strength);
        Assert.Equal(PointStatus.BelowStructuralMinimum, thin[0]);
        Assert.Equal(0.04, strength[0], 1e-12);

        double[] none = new double[1];
        Restoration hopeless = Crown(MapData.Black, Glass, 0.3,
            ColorCriterion.PerceptibilityThreshold) with { Veneer = Veneer.OfShare(Glass, 0.3) };
        TwoLayerResponse response = TwoLayerResponse.Compile(hopeless, hopeless.Zones[0], VeneerRange, CoreRange);
        new TwoLayerMap([response]).MissingCoreThicknesses([0.3], [0.5], none);
        Assert.True(double.IsNaN(none[0]));
        Assert.Null(response.CoreRequirementAt(0.3).Minimum.ByColorMm);
    }

    [Fact]
    public void Zones_floats_and_strides_agree()
    {
        TwoLayerMap map = new([OnBrown, OnLight]);
        Random random = new(6);
        for (int length = 0; length <= 70; length += 7)
        {
            double[] veneer = [.. Enumerable.Range(0, length).Select(_ => 0.2 + (0.8 * random.NextDouble()))];
            double[] core = [.. Enumerable.Range(0, length).Select(_ => 0.3 + (1.3 * random.NextDouble()))];
            byte[] zones = [.. Enumerable.Range(0, length).Select(_ => (byte)random.Next(2))];
            double[] expected = [.. veneer.Select((mm, i) => map.Zones[zones[i]].DifferenceAt(mm, core[i]))],
                actual = new double[length];
            map.Differences(veneer, core, actual, zones);
            Assert.Equal(expected, actual);
            float[] buffer = [.. Enumerable.Range(0, 5 * length).Select(
                i => i % 5 == 1 ? (float)veneer[i / 5] : i % 5 == 4 ? (float)core[i / 5] : -1f)];
            float[] single = new float[length];
            map.Differences(buffer, single, stride: 5, veneerOffset: 1, coreOffset: 4, zones);
            Assert.All(single.Zip(expected), pair => Assert.Equal(pair.Second, pair.First, 3e-5));
        }

        Assert.Throws<ArgumentOutOfRangeException>(() => map.Differences([0.5], [0.5], new double[1], [2]));
        Assert.Throws<ArgumentException>(() => map.Differences(new double[2], new double[1], new double[1]));
        Assert.Throws<ArgumentException>(() => map.Differences(new double[1], new double[2], new double[1]));
        Assert.Throws<ArgumentOutOfRangeException>(
            () => map.Differences(new float[4], new float[2], stride: 2, veneerOffset: 0, coreOffset: 2));
        Assert.Throws<ArgumentOutOfRangeException>(() => OnBrown.DifferenceAt(0.1, 0.5));
        Assert.Throws<ArgumentOutOfRangeException>(() => OnBrown.ColorAt(0.5, double.NaN));
    }

    [Fact]
    public void Questions_without_an_answer_are_refused_and_long_work_stops()
    {
        Restoration monolithic = Crown(Light, Zirconia, 0.5), layered = Layered(Light, StrengthLimit.Of(0.5));
        Assert.Contains("no veneer", Assert.Throws<ArgumentException>(
            () => TwoLayerResponse.Compile(monolithic, monolithic.Zones[0], VeneerRange, CoreRange)).Message);
        Assert.Throws<ArgumentOutOfRangeException>(
            () => TwoLayerResponse.Compile(layered, layered.Zones[0], VeneerRange, new ThicknessRange(0.5, 0.5)));
        Assert.Throws<ArgumentOutOfRangeException>(
            () => TwoLayerResponse.Compile(layered, layered.Zones[0], new ThicknessRange(0, 1), CoreRange));
        Assert.ThrowsAny<OperationCanceledException>(
            () => TwoLayerResponse.Compile(layered, layered.Zones[0], VeneerRange, CoreRange,
            cancellation: new CancellationToken(true)));
    }

    internal static Restoration Layered(Substrate stump, StrengthLimit strength)
    {
        Restoration crown = Crown(stump, Zirconia, null) with { Veneer = Veneer.OfShare(Glass, 0.4) };
        return crown.WithCore(crown.Core with { Strength = strength });
    }

    private static TwoLayerResponse Response(Substrate stump, StrengthLimit strength)
    {
        Restoration crown = Layered(stump, strength);
        return TwoLayerResponse.Compile(crown, crown.Zones[0], VeneerRange, CoreRange);
    }
}
