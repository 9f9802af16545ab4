using CeramicOptics.Decisions.Remedies;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Restorations;
using static CeramicOptics.Tests.CoarseData;

namespace CeramicOptics.Tests.Unit;

/// <summary>Blocking liners against brute force with the public stack.</summary>
public class LinerByDefinitionTests
{
    // A compiled stack follows the public one to 2e-6 in reflectance.
    private const double Compiled = 2e-4;

    private static readonly ColorCriterion Criterion = ColorCriterion.AcceptabilityThreshold;

    private static readonly Layer Thin = new(Film, 0.05);

    internal static Material Liner { get; } =
        new("liner", TwoFluxModel.Instance, new(Grid, [0.2, 0.15, 0.1, 0.1]), new(Grid, [40, 38, 36, 34]), 1.53);

    /// <summary>
    /// The thinnest liner with which both zones meet the criterion, by a scan in steps of 0.0005 mm; else the best of
    /// the steps of 0.005 mm.
    /// </summary>
    [Theory]
    [InlineData(true, 0.6, null)]
    [InlineData(false, 0.6, null)]
    [InlineData(true, 0.02, null)]
    [InlineData(false, 0.02, null)]
    [InlineData(true, 0.6, 0.62)]
    public void The_liner_is_the_thinnest_of_a_scan(bool takesFromCeramic, double maximum, double? structural)
    {
        Zone[] zones = [new("cervical", Dark, 0.7, MaskingReference.SelfBacked),
            new("body", Dark, 1.1, MaskingReference.SelfBacked)];
        Ceramic ceramic = new("family", 1, Body) { Strength = structural is double minimum ? StrengthLimit.Of(minimum)
            : StrengthLimit.NotGiven };
        Restoration restoration = new(zones, ceramic, Thin, Criterion)
        {
            Glaze = new Layer(Glaze, 0.05), Viewing = TwoLights, WallRange = new ThicknessRange(0.001, 3),
        };
        BlockingLinerResult result = BlockingLiner.Find(
            restoration, Liner, new BlockingLinerOptions { MaximumMm = maximum, TakesFromCeramic = takesFromCeramic });
        double last = takesFromCeramic ? Math.Min(maximum, 0.7 - (structural ?? 1e-3)) : maximum;
        double[] scan = [.. Enumerable.Range(0, (int)(last / 0.0005) + 1)
            .Select(i => (i == 0 ? Without() : ZonesWith(i * 0.0005)).Max())];
        int first = Array.FindIndex(scan, worst => worst <= Criterion.Limit);
        double shown = result.ThicknessMm ?? result.BestMm!.Value;
        Assert.Equal(first < 0, result.ThicknessMm is null);
        if (first >= 0)
        {
            Assert.Equal(first * 0.0005, shown, 0.0011);
            Assert.InRange(ZonesWith(shown).Max(), 0, Criterion.Limit + Compiled);
        }
        else
        {
            double[] tried = [.. Enumerable.Range(0, (int)Math.Ceiling((last / 0.005) - 1e-9) + 1)
                .Select(i => i * last / Math.Ceiling((last / 0.005) - 1e-9))];
            Assert.Equal(tried.MinBy(mm => (mm == 0 ? Without() : ZonesWith(mm)).Max()), shown, 1e-12);
        }

        Assert.Equal(ZonesWith(shown), result.Zones.Select(zone => zone.Difference), (one, other) =>
            Math.Abs(one - other) < Compiled);
        Assert.Equal(Without(), result.Without.Select(zone => zone.Difference), (one, other) =>
            Math.Abs(one - other) < Compiled);
        Assert.Equal(ZonesWith(shown).Max(), result.WorstDifference, Compiled);
        Assert.Equal(Without().Max(), result.WorstWithout, Compiled);
        Assert.Equal(Translucency(new Layer(Body, 0.7)), result.TranslucencyWithout, 1e-9);
        Assert.Equal(TranslucencyWith(shown), result.TranslucencyWith, 1e-9);

        double[] ZonesWith(double mm) => [.. zones.Select(zone =>
            WorstSelfBacked(new LayerStack(
                [new Layer(Glaze, 0.05), new Layer(Body, Wall(zone, mm)), new Layer(Liner, mm), Thin], Dark), 1))];

        // Without liner there are no boundaries of one either.
        double[] Without() => [.. zones.Select(zone => WorstSelfBacked(
            new LayerStack([new Layer(Glaze, 0.05), new Layer(Body, zone.AvailableMm), Thin], Dark), 1))];

        double Wall(Zone zone, double mm) => zone.AvailableMm - (takesFromCeramic ? mm : 0);

        double TranslucencyWith(double mm) => Translucency(new Layer(Body, Wall(zones[0], mm)), new Layer(Liner, mm));
    }
}
