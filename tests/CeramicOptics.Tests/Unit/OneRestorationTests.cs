using CeramicOptics.Decisions.Cementing;
using CeramicOptics.Decisions.Feasibility;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Decisions.Remedies;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Restorations;
using static CeramicOptics.Tests.CoarseData;

namespace CeramicOptics.Tests.Unit;

/// <summary>
/// One restoration asked of every decision: they read it the same way and none suggests less than strength asks.
/// </summary>
public class OneRestorationTests
{
    private static readonly Pigment Brown =
        new("brown", TwoFluxModel.Instance, new(Grid, [40, 20, 8, 3]), new(Grid, [5, 5, 5, 5]));

    private static readonly Material Liner =
        new("liner", TwoFluxModel.Instance, new(Grid, [0.9, 0.7, 0.5, 0.4]), new(Grid, [40, 38, 36, 34]), 1.53);

    private static readonly Layer Cement = new(Film, 0.05), Opaque = new(
        new Material("opaque film", TwoFluxModel.Instance, Film.Absorption, new(Grid, [20, 19, 18, 17]), 1.5), 0.05);

    private static readonly string[] Kinds = ["monolithic", "veneer of a share", "veneer of fixed thickness"];

    public static TheoryData<string> Walls => new(Kinds);

    [Theory]
    [MemberData(nameof(Walls))]
    public void Every_decision_reports_the_same_differences(string wall)
    {
        Restoration restoration = new(
            [new Zone("cervical", Dark, 0.8, Neighbour), new Zone("body", Good, 1.3, Neighbour)],
            Dense("made up", 2, 1.4) with { Strength = StrengthLimit.Of(0.4) }, Cement,
            ColorCriterion.AcceptabilityThreshold)
        {
            Viewing = TwoLights, Glaze = new Layer(Glaze, 0.04), Veneer = VeneerOf(wall),
        };

        // By the public stack: each zone at its available thickness, the larger of two lights.
        double[] direct = [.. restoration.Zones.Select(zone =>
            WorstOf(restoration.StackOver(zone.Stump, zone.AvailableMm), Neighbour, restoration.Criterion))];
        double[] masking = [.. MaskingThickness.Find(restoration).Zones.Select(zone => zone.AtAvailable.Difference)];
        Assert.Equal(direct, masking, (one, other) => Math.Abs(one - other) < 2e-4);
        void Agrees(string decision, IEnumerable<double> differences) =>
            Assert.True(masking.Zip(differences, (one, other) => Math.Abs(one - other) <= 1e-6)
                .Count(equal => equal) == masking.Length, $"{decision}: {string.Join(" ", differences)}");

        MatchOptions own = new([restoration.Core]);
        Agrees("curve", restoration.Zones.Select(zone =>
            MaskingThickness.FindCurve(restoration, zone, [zone.AvailableMm])[0].Difference));
        Agrees("grade", GradeChoice.Find(restoration, [restoration.Core])
            .Assessments[0].Masking.Zones.Select(zone => zone.AtAvailable.Difference));
        Agrees("uncertainty", PredictionUncertainty.Find(restoration, new SamplingOptions { Samples = 256 })
            .Zones.Select(zone => zone.Difference));
        Agrees("match", Match.Find(restoration, own).Closest!.Zones.Select(zone => zone.Difference));
        Agrees("match among cements", Match.Find(restoration, own with { Cements = [Opaque, Cement] })
            .Candidates.Single(item => item.Restoration.Cement == Cement).Zones.Select(zone => zone.Difference));
        Agrees("front", Match.FindPareto(restoration, own, 10).Candidates.Single()
            .Zones.Select(zone => zone.Difference));
        Agrees("feasibility", restoration.Zones.Select(zone => ReachableColors.Find(restoration, zone, own)
            .Points.Single(point => point.WallMm == zone.AvailableMm).Difference));
        Agrees("stain", Stain.Find(restoration, new StainOptions(new StainLayer(Glaze, 0.05), [Brown]))
            .Zones.Select(zone => zone.Without.Difference));
        Agrees("liner", BlockingLiner.Find(restoration, Liner).Without.Select(zone => zone.Difference));
        Agrees("cement", CementComparison.Find(restoration, [new CementOption(Opaque), new CementOption(Cement)])
            .Effects[1].Zones.Select(zone => zone.AtAvailable.Difference));

        RemedyResult remedies = RemedySearch.Find(Match.Find(restoration, own)
            .Closest!, new RemedyOptions { Ceramics = [Dense("made up", 3, 4)], Cements = [Opaque], BuildUp = Good });
        Assert.NotEmpty(remedies.Remedies);
        Assert.All(remedies.Remedies, remedy => Assert.Equal(masking.Max(), remedy.DifferenceBefore, 1e-6));

        // What a remedy or a liner promises is what every decision finds in the restoration that it gives.
        Assert.All(remedies.Remedies, remedy => Assert.Equal(
            MaskingThickness.Find(remedy.Restoration).Zones.Where(zone =>
                remedy.Zone is null || zone.Zone.Name == remedy.Zone.Name).Max(zone => zone.AtAvailable.Difference),
            remedy.DifferenceAfter,
            1e-6));
        if (BlockingLiner.Find(restoration, Liner) is { Lined: { } lined } blocked)
        {
            Assert.Equal(MaskingThickness.Find(lined).WorstDifference, blocked.WorstDifference, 1e-6);
        }
    }

    /// <summary>
    /// Random walls, limits of ceramics and zones, for the core or for core and veneer: every wall that is offered is
    /// thick enough by each limit.
    /// </summary>
    [Theory]
    [InlineData(1)]
#if !SECOND_BUILD
    [InlineData(2)]
    [InlineData(3)]
#endif
    public void No_suggestion_is_below_what_strength_asks(int seed)
    {
        Random random = new(seed);
        int offered = 0, refused = 0;
        double Between(double from, double to) => from + ((to - from) * random.NextDouble());
        StrengthLimit AnyLimit() => random.Next(3) == 0
            ? StrengthLimit.NotGiven
            : StrengthLimit.Of(
                Between(0.3, 1.1), random.Next(2) == 0 ? StrengthScope.Core : StrengthScope.CoreAndVeneer);
        for (int round = 0; round < 25; round++)
        {
            Ceramic[] ceramics = [.. Enumerable.Range(1, 3)
                .Select(grade => Dense("made up", grade, Between(0.7, 4)) with { Strength = AnyLimit() })];
            Target target = Like("wish",
                new LayerStack([new Layer(Dense("wish", 1, Between(1, 4)).Material, Between(0.8, 3)), Cement], Good));
            Zone[] zones = [.. ((string[])["cervical", "body"]).Select(name =>
            {
                double availableMm = Between(0.45, 1.6);
                return new Zone(name, random.Next(2) == 0 ? Dark : Good, availableMm, target)
                {
                    ThinnestMm = random.Next(2) == 0 ? null : Between(0.4, availableMm), Strength = AnyLimit(),
                };
            })];
            Restoration restoration = new(zones, ceramics[0], Cement, ColorCriterion.AcceptabilityThreshold)
            {
                Viewing = TwoLights, Veneer = VeneerOf(Kinds[random.Next(3)]), Glaze =
                    random.Next(2) == 0 ? null : new Layer(Glaze, 0.03),
            };
            MatchOptions options =
                new(ceramics) { Cements = [Cement, Opaque], Veneers = random.Next(2) == 0 ? [] : [Glaze], Keep = 100 };
            MatchRanking ranking = Match.Find(restoration, options);
            refused += ranking.TooThin;
            Assert.Equal(ranking.Considered, ranking.Candidates.Count + ranking.TooThin);
            Assert.Equal(ranking.TooThin > 0,
                ranking.Cautions.Any(caution => caution.Kind == CautionKind.BelowStructuralMinimum));
            foreach (MatchCandidate candidate in ranking.Candidates.Concat(
                Match.FindPareto(restoration, options, 15).Candidates))
            {
                Check(candidate.Restoration);
            }

            if (ranking.Closest is { } best)
            {
                foreach (Remedy remedy in RemedySearch.Find(best, new RemedyOptions { Ceramics = ceramics,
                    Cements = [Opaque], Liner = Liner, BuildUp = Good }).Remedies)
                {
                    Check(remedy.Restoration);
                }
            }

            foreach (Zone zone in zones)
            {
                FeasibilityResult reachable = ReachableColors.Find(restoration, zone, options);
                Assert.All(reachable.Points, point => Check(point.Restoration));
                Assert.Equal(reachable.Points.Count == 0, reachable.Nearest is null);
                if (reachable.Nearest is { } nearest)
                {
                    Check(nearest.Restoration);
                }
                else
                {
                    refused++;
                    Assert.False(reachable.IsFeasible);
                    Assert.Contains(reachable.Cautions, caution =>
                        caution.Kind == CautionKind.BelowStructuralMinimum && caution.Subject == zone.Name);
                }
            }

            foreach (bool takes in (bool[])[true, false])
            {
                BlockingLinerResult liner =
                    BlockingLiner.Find(restoration, Liner, new BlockingLinerOptions { TakesFromCeramic = takes });
                if (liner.Lined is { } lined)
                {
                    Check(lined);
                }
            }

            Assert.All(MaskingThickness.Find(restoration, new MaskingOptions { Samples = 256 }).Zones, zone =>
                Assert.False(zone.Minimum.RecommendedMm < restoration.StructuralMinimumMm(zone.Zone) - 1e-9));

            // These answer for the available thickness as it is; where that is too thin they say so.
            IReadOnlyList<Caution>[] said =
            [
                Stain.Find(restoration, new StainOptions(new StainLayer(Glaze, 0.05), [Brown]) { MaximumPigments = 1 })
                    .Cautions,
                CementComparison.Find(restoration, [new CementOption(Opaque)]).Cautions,
            ];
            foreach (Zone zone in zones)
            {
                bool isTooThin = !IsStrongEnough(restoration, zone);
                Assert.All(said, cautions => Assert.Equal(isTooThin, cautions.Any(caution =>
                    caution.Kind == CautionKind.BelowStructuralMinimum && caution.Subject == zone.Name)));
            }
        }

        Assert.InRange(offered, 1000, 1_000_000);
        Assert.InRange(refused, 50, 10_000);

        void Check(Restoration made)
        {
            offered++;
            Assert.All(made.Zones, zone => Assert.True(IsStrongEnough(made, zone),
                $"{zone}: {zone.AvailableMm} mm of {made.Core}, {made.Veneer}, {made.Core.Strength}, {zone.Strength}"));
        }
    }

    // The core by the public stack, against each limit by itself.
    private static bool IsStrongEnough(Restoration made, Zone zone)
    {
        double coreMm = made.StackOver(zone.Stump, zone.AvailableMm)
            .Layers.Single(layer => layer.Material == made.Core.Material).ThicknessMm;
        return ((StrengthLimit[])[made.Core.Strength, zone.Strength]).All(limit =>
            !(limit.MinimumMm > (limit.Scope == StrengthScope.Core ? coreMm : zone.AvailableMm) + 1e-9));
    }

    private static Veneer? VeneerOf(string wall) => wall switch
    {
        "veneer of a share" => Veneer.OfShare(Glaze, 0.3),
        "veneer of fixed thickness" => Veneer.OfThickness(Film, 0.25),
        _ => null,
    };
}
