using CeramicOptics.Decisions;
using CeramicOptics.Decisions.Cementing;
using CeramicOptics.Decisions.Feasibility;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Decisions.Remedies;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Restorations;
using static CeramicOptics.Tests.InventedData;

namespace CeramicOptics.Tests.Unit;

public class DecisionTests
{
    // A compiled stack follows the public one to 2e-6 in reflectance.
    private const double Compiled = 2e-4;

    private static readonly ColorCriterion Acceptable = ColorCriterion.AcceptabilityThreshold, Perceptible =
        ColorCriterion.PerceptibilityThreshold;

    private static readonly Ceramic[] Ceramics =
        [.. Enumerable.Range(1, 4).SelectMany(grade => (Ceramic[])[GlassCeramic(grade), Zirconia(grade)])];

    private static readonly Layer[] Cements = [Cement, OpaqueCement];

    [Theory]
    [InlineData(3)]
    [InlineData(1000)]
    public void Pruned_search_equals_brute_force(int keep)
    {
        Restoration restoration = Case(72);
        MatchOptions options = Options() with { Keep = keep };
        MatchRanking ranking = Match.Find(restoration, options);

        // Every combination by the public stack, all zones, all thicknesses, no early end.
        List<(double Worst, double Mean)> all = [];
        foreach (Ceramic ceramic in options.Ceramics)
        {
            foreach ((Material? veneer, double share) in ((Material?, double)[])[
                (null, 0), (options.Veneers[0], 0.3), (options.Veneers[0], 0.5)])
            {
                foreach (Layer cement in Cements)
                {
                    double[] zones = [.. restoration.Zones.Select(zone => Walls(zone).Min(wall => WorstOf(
                        new LayerStack(
                            veneer is null ? [new(ceramic.Material, wall), cement]
                                : [new(veneer, share * wall), new(ceramic.Material, (1 - share) * wall), cement],
                            zone.Stump),
                        (Target)zone.Reference,
                        Acceptable)))];
                    double weights = restoration.Zones.Sum(zone => zone.Weight);
                    all.Add((zones.Max(), restoration.Zones.Zip(zones, (zone, worst) => zone.Weight * worst)
                        .Sum() / weights));
                }
            }
        }

        all.Sort();
        Assert.Equal(all.Count, ranking.Considered);
        Assert.Equal(Math.Min(keep, all.Count), ranking.Candidates.Count);
        Assert.Equal(keep < all.Count, ranking.Pruned > 0);
        for (int i = 0; i < ranking.Candidates.Count; i++)
        {
            MatchCandidate candidate = ranking.Candidates[i];
            Assert.Equal(all[i].Worst, candidate.WorstDifference, Compiled);
            Assert.Equal(all[i].Mean, candidate.MeanDifference, Compiled);
            Assert.Equal(candidate.WorstDifference <= Acceptable.Limit, candidate.Meets);
            Assert.All(candidate.Zones, zone => Assert.Equal(
                WorstOf(candidate.Restoration.StackOver(zone.Zone.Stump, zone.WallMm), (Target)zone.Zone.Reference,
                    Acceptable), zone.Difference, Compiled));
            Assert.Equal(candidate.Zones.Select(zone => zone.WallMm),
                candidate.Restoration.Zones.Select(zone => zone.AvailableMm));
        }
    }

    [Fact]
    public void Strength_leaves_thin_walls_out_and_says_so()
    {
        Restoration restoration = Case(72);
        MatchOptions Strong(double minimumMm) =>
            new(Ceramics.Select(ceramic => ceramic with { Strength = StrengthLimit.Of(minimumMm) }))
        {
            Cements = Cements, Veneers = Options().Veneers, Keep = 1000, ThicknessStepMm = 0.1,
        };
        MatchRanking ranking = Match.Find(restoration, Strong(0.8));
        Assert.All(ranking.Candidates, candidate => Assert.All(candidate.Restoration.Zones, zone => Assert.True(
            (1 - (candidate.Restoration.Veneer?.Share ?? 0)) * zone.AvailableMm >= 0.8 - 1e-9)));
        Assert.True(ranking.TooThin > 0);
        Assert.Contains(ranking.Cautions, caution =>
            caution.Kind == CautionKind.BelowStructuralMinimum && caution.Value == ranking.TooThin);
        Assert.DoesNotContain(ranking.Cautions, caution => caution.Kind == CautionKind.StrengthLimitNotGiven);
        MatchRanking none = Match.Find(restoration, Strong(5));
        Assert.Null(none.Closest);
        Assert.Equal(none.Considered, none.TooThin);
        Assert.Equal("no choice leaves room for the wall that strength requires", none.ToString());

        // A limit of one zone counts as well, and so does a limit that is not given: it is said.
        Restoration zoned = restoration.WithZones(restoration.Zones.Select(zone =>
            zone.Name == "cervical" ? zone with { Strength = StrengthLimit.Of(0.75) } : zone));
        MatchRanking byZone = Match.Find(zoned, new MatchOptions(Ceramics) { ThicknessStepMm = 0.1 });
        Assert.All(byZone.Candidates, candidate => Assert.InRange(candidate.Zones[0].WallMm, 0.75, 0.9));
        Assert.Contains(byZone.Cautions, caution => caution.Kind == CautionKind.StrengthLimitNotGiven);
    }

    [Fact]
    public void Cement_stands_in_one_place()
    {
        Restoration restoration = Case(72);
        Assert.Equal([Cement], Match.Find(restoration, new MatchOptions(Ceramics))
            .Candidates.Select(item => item.Restoration.Cement!).Distinct());
        Assert.Equal([OpaqueCement], Match.Find(restoration, new MatchOptions(Ceramics) { Cements = [OpaqueCement] })
            .Candidates.Select(item => item.Restoration.Cement!).Distinct());
        MatchCandidate dry =
            Match.Find(restoration.Unbonded(CouplingMedium.Air), new MatchOptions([Zirconia(2)])).Closest!;
        Assert.Null(dry.Restoration.Cement);
        Assert.Equal("Granary zirconia, grade 2 coupled by air", dry.ToString());
        Restoration bonded = Match.Find(restoration.Unbonded(CouplingMedium.Air),
            new MatchOptions([Zirconia(2)]) { Cements = [Cement] }).Closest!.Restoration;
        Assert.Equal((Cement, null), (bonded.Cement, bonded.Coupling));
        Assert.Equal(["Core", "Cement"], bonded.LayersOf(1).Select(item => item.Role.ToString()));
    }

    [Fact]
    public void A_veneer_of_the_restoration_is_kept_unless_others_are_given()
    {
        Veneer own = Veneer.OfThickness(GlassCeramic(1).Material, 0.2);
        Restoration veneered = Case(72) with { Veneer = own };
        Assert.All(Match.Find(veneered, new MatchOptions(Ceramics)).Candidates, item =>
            Assert.Equal(own, item.Restoration.Veneer));
        Assert.Contains(Match.Find(veneered, Options() with { Keep = 1000 }).Candidates, item =>
            item.Restoration.Veneer is null);
        Assert.Contains(
            "there is nothing to choose", Assert.Throws<ArgumentException>(() =>
                Match.Find(Case(72), new MatchOptions(Ceramics) { AllowsMonolithic = false })).Message);
    }

    [Fact]
    public void A_zone_that_has_no_target_is_refused() =>
        Assert.Contains(
            "Zone 'cervical' is compared with the same ceramic, infinitely thick, which is not a target colour.",
            Assert.Throws<ArgumentException>(() => Match.Find(
                new Restoration([new Zone("cervical", BrownTooth, 1, MaskingReference.SelfBacked)], Zirconia(1), Cement,
                    Acceptable), Options())).Message);

    [Fact]
    public void No_member_of_the_pareto_set_is_beaten_and_every_other_candidate_is()
    {
        Restoration restoration = Case(72);
        MatchOptions options = Options() with { ThicknessStepMm = 0.2 };
        MatchFront found = Match.FindPareto(restoration, options, 15);
        IReadOnlyList<MatchCandidate> front = found.Candidates;
        (double, double, double) Score(MatchCandidate item) =>
            (item.WorstDifference, Math.Abs(item.Translucency - 15), item.Zones.Max(zone => zone.WallMm));
        static bool Beats((double A, double B, double C) one, (double A, double B, double C) other) =>
            one.A <= other.A && one.B <= other.B && one.C <= other.C && one != other;
        Assert.True(front.Count >= 3);
        Assert.Equal((48, 0, 15), (found.Considered, found.TooThin, found.WantedTranslucency));
        Assert.Equal(front.OrderBy(item => item.WorstDifference), front);
        Assert.DoesNotContain(front, item => front.Any(other => Beats(Score(other), Score(item))));
        Assert.All(
            Match.Find(restoration, options with { Keep = 1000 }).Candidates,
            item => Assert.True(front.Any(member => Score(member) == Score(item) || Beats(Score(member), Score(item))),
                item.ToString()));

        // Thin walls are choices of their own: each limit on the wall by itself, as a case with less room.
        foreach (double limit in (double[])[1.2, 1.3])
        {
            Restoration limited = restoration.WithZones(restoration.Zones.Select(zone =>
                new Zone(zone.Name, zone.Stump, Math.Min(limit, zone.AvailableMm),
                    zone.Reference) { ThinnestMm = zone.ThinnestMm, Weight = zone.Weight }));
            Assert.All(
                Match.Find(limited, options with { Keep = 1000 }).Candidates,
                item => Assert.True(front.Any(member =>
                    Score(member) == Score(item) || Beats(Score(member), Score(item))), $"{limit} {item}"));
        }
    }

    [Fact]
    public void A_remedy_does_what_it_says()
    {
        MatchCandidate candidate = Match.Find(Case(76), Options() with { Keep = 1000 }).Candidates
            .Last(item => item.Restoration.Veneer is null
                && item.Restoration.Core.Family.StartsWith("Meadow", StringComparison.Ordinal));
        RemedyResult result = RemedySearch.Find(candidate,
            new RemedyOptions { Ceramics = Ceramics, Cements = Cements, Liner = Liner, BuildUp = LightTooth });
        Assert.Same(candidate, result.Candidate);
        Remedy cement = result.Remedies.First(remedy => remedy.Kind == RemedyKind.Cement);
        Layer other = Cements.Single(item => item != candidate.Restoration.Cement);
        Assert.Equal(other, cement.Restoration.Cement);
        Assert.Equal(
            candidate.Zones.Max(zone => WorstOf(
                new LayerStack([new Layer(candidate.Restoration.Core.Material, zone.WallMm), other], zone.Zone.Stump),
                (Target)zone.Zone.Reference, Acceptable)),
            cement.DifferenceAfter,
            Compiled);
        Assert.All(result.Remedies, remedy => Assert.Equal(remedy.DifferenceAfter <= Acceptable.Limit, remedy.Meets));
        Assert.All(result.Remedies, remedy =>
            Assert.Contains(remedy.Cautions, caution => caution.Kind == CautionKind.StrengthLimitNotGiven));
    }

    [Fact]
    public void Cements_are_compared_as_bonded_and_as_tried_in()
    {
        Restoration crown = new([new Zone("body", BrownTooth, 0.8, Wish(72, 1, 14))], GlassCeramic(2), Cement,
            Acceptable) { Viewing = ThreeLights };
        CementComparisonResult result = CementComparison.Find(
            crown, [new CementOption(Cements[0]), new CementOption(Cements[1], new Layer(Cements[1].Material, 0.05)),
                new CementOption(Cements[1], Cements[0])]);
        ZoneCementEffect[] effects = [.. result.Effects.Select(effect => effect.Zones.Single())];
        Assert.Equal(0, effects[0].Change);
        Assert.Null(effects[0].TryInGap);
        Assert.Equal(0, effects[1].TryInGap!.Value, 1e-12);
        Assert.Equal(effects[2].Change, effects[2].TryInGap!.Value, 1e-12);
        Lab direct = Lights[1].ToLab(
            new LayerStack([new Layer(GlassCeramic(2).Material, 0.8), Cements[1]], BrownTooth).Reflectance());
        Assert.Equal(0, ColorDifference.Cie76(direct, effects[1].Bonded[1]), Compiled);
        Assert.Equal(WorstOf(new LayerStack([new Layer(GlassCeramic(2).Material, 0.8), Cements[1]], BrownTooth),
            (Target)crown.Zones[0].Reference, Acceptable), result.Effects[1].WorstDifference, Compiled);
        Assert.Equal(Cements[1], result.Effects[1].Restoration.Cement);

        // Common practice, no source: an opaque light cement lifts the value of a translucent crown over a brown stump.
        Assert.StartsWith("lighter by", effects[1].Shift.ToString());
    }

    /// <summary>The gap between try-in and bonding rests on the paste too, whose film may be thick.</summary>
    [Fact]
    public void Cautions_about_a_paste_are_said()
    {
        Restoration crown = new(
            [new Zone("body", BrownTooth, 0.8, Wish(72, 1, 14))], GlassCeramic(2), Cement, Acceptable);
        Material paste = new(
            "paste", Cement.Material.Model, Cement.Material.Absorption, Cement.Material.Scattering,
            Cement.Material.RefractiveIndex);
        IReadOnlyList<Caution> cautions = CementComparison.Find(
            crown, [new CementOption(Cement, new Layer(paste, 0.5))]).Cautions;
        Assert.Contains(
            cautions, caution => caution is { Kind: CautionKind.ThickCement, Subject: "paste", Value: 0.5 });
        Assert.Contains(
            cautions, caution => caution is { Kind: CautionKind.UncertaintyIncomplete, Subject: "paste" });
    }

    [Fact]
    public void Long_work_tells_how_far_it_is_and_can_be_stopped()
    {
        Restoration matching = Case(72);
        Restoration masking = new([new Zone("body", NearlyBlackTooth, 1.0, MaskingReference.SelfBacked)],
            GlassCeramic(2), Cement, Acceptable);
        Restoration staining =
            new([new Zone("body", BrownTooth, 1.0, Wish(66, 4, 22))], Zirconia(2), Cement, Perceptible);
        MatchCandidate candidate = Match.Find(matching, Options()).Closest!;
        Action<IProgress<double>, CancellationToken>[] works =
        [
            (progress, stop) => Match.Find(matching, Options(), progress, stop),
            (progress, stop) =>
                Match.FindPareto(matching, Options() with { ThicknessStepMm = 0.3 }, 10, progress, stop),
            (progress, stop) =>
                Stain.Find(staining, new StainOptions(new StainLayer(Glaze, 0.05), StainTests.Pigments), progress,
                    stop),
            (progress, stop) => BlockingLiner.Find(masking, Liner, null, progress, stop),
            (progress, stop) =>
                RemedySearch.Find(candidate, new RemedyOptions { Ceramics = Ceramics, Liner = Liner }, progress, stop),
            (progress, stop) => ReachableColors.Find(matching, matching.Zones[0], Options(), progress, stop),
            (progress, stop) => CementComparison.Find(matching, [new CementOption(Cement)], progress, stop),
            (progress, stop) => MaskingThickness.Find(masking, null, progress, stop),
            (progress, stop) =>
                PredictionUncertainty.Find(masking, new SamplingOptions { Samples = 256 }, progress, stop),
        ];
        foreach (Action<IProgress<double>, CancellationToken> work in works)
        {
            List<double> values = [];
            work(new Immediate(values.Add), CancellationToken.None);
            Assert.Equal(1, values[^1], 1e-12);
            Assert.Equal(values.Order(), values);
            Assert.InRange(values[0], 1e-9, 1);
            Assert.Throws<OperationCanceledException>(() =>
                work(new Immediate(_ => { }), new CancellationToken(canceled: true)));
        }
    }

    private static MatchOptions Options() =>
        new(Ceramics) { Cements = Cements, Veneers = [GlassCeramic(1).Material], Keep = 20, ThicknessStepMm = 0.1 };

    private static IEnumerable<double> Walls(Zone zone) => zone.ThinnestMm is double thinnest
        ? Enumerable.Range(0, (int)Math.Round((zone.AvailableMm - thinnest) / 0.1) + 1)
            .Select(i => thinnest + (0.1 * i))
        : [zone.AvailableMm];

    private static Restoration Case(double l)
    {
        Target target = Wish(l, 1, 14);
        return new Restoration(
            [
                new Zone("cervical", BrownTooth, 0.9, target) { ThinnestMm = 0.6 },
                new Zone("body", NearlyBlackTooth, 1.2, target) { Weight = 2 },
                new Zone("incisal", LightTooth, 1.3, target) { ThinnestMm = 1.0 },
            ],
            GlassCeramic(1), Cement, Acceptable)
        { Viewing = ThreeLights, WallRange = new ThicknessRange(0.3, 2.5) };
    }
}
