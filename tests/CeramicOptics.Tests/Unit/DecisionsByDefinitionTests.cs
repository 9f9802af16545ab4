using CeramicOptics.Decisions;
using CeramicOptics.Decisions.Cementing;
using CeramicOptics.Decisions.Feasibility;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Decisions.Remedies;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Restorations;
using static CeramicOptics.Tests.CoarseData;
using static System.FormattableString;

namespace CeramicOptics.Tests.Unit;

/// <summary>Remedies, matches and wishes against brute force with the public stack.</summary>
public class DecisionsByDefinitionTests
{
    // A compiled stack follows the public one to 2e-6 in reflectance.
    private const double Compiled = 2e-4;

    private static readonly ColorCriterion Criterion = ColorCriterion.AcceptabilityThreshold;

    private static readonly Material Liner = LinerByDefinitionTests.Liner;

    private static readonly Layer Thin = new(Film, 0.05), Opaque = new(
        new Material("opaque film", TwoFluxModel.Instance, Film.Absorption, new(Grid, [20, 19, 18, 17]), 1.5), 0.05);

    /// <summary>
    /// Every remedy by the public stack: its difference, its words, and that nothing worth telling is left out.
    /// </summary>
    [Theory]
    [InlineData(0, null, 0.3, null)]
    [InlineData(0, 0.8, 0.3, null)]
    [InlineData(0.4, 0.45, 0.3, null)]
    [InlineData(0, null, 0.8, null)]
    [InlineData(0, null, 0.3, 0.4)]
    [InlineData(0, null, 0.3, 1.3)]
    [InlineData(0, 0.6, 0.3, 0.4)]
    public void Remedies_are_what_one_change_makes(double share, double? structural, double thinnest, double? wantedMm)
    {
        // The target of the other cases is out of reach; that of a wall of the wanted thickness is met by many walls,
        // of which the nearest is told.
        StrengthLimit strength = structural is double minimum ? StrengthLimit.Of(minimum) : StrengthLimit.NotGiven;
        Ceramic[] ceramics = [.. (
            (Ceramic[])[Dense("made up", 1, 1), Dense("made up", 2, 2.5), Dense("made up", 3, 5), Dense("other", 2, 3)])
            .Select(ceramic => ceramic with { Strength = ceramic.Grade == 3 ? StrengthLimit.Of(0.9) : strength })];
        Target target = wantedMm is double wanted
            ? Like("another wall",
                new LayerStack([new Layer(Glaze, 0.02), new Layer(ceramics[0].Material, wanted), Thin], Dark))
            : Neighbour;
        double bodyMm = wantedMm is double mm && mm > (structural ?? 0) ? mm : 1.0;
        Zone cervical = new("cervical", Dark, 0.8, target), body =
            new("body", wantedMm is null ? Good : Dark, bodyMm, target);
        Restoration restoration = new([cervical, body], ceramics[0], Thin, Criterion)
        {
            Glaze = new Layer(Glaze, 0.02), Viewing = TwoLights, WallRange = new ThicknessRange(thinnest, 2.5), Veneer =
                share > 0 ? Veneer.OfShare(Glaze, share) : null,
        };
        MatchCandidate candidate = Match.Find(restoration, new MatchOptions([ceramics[0]])).Closest!;
        RemedyResult result = RemedySearch.Find(candidate,
            new RemedyOptions { Ceramics = ceramics, Cements = [Thin, Opaque], Liner = Liner, BuildUp = Good });
        IReadOnlyList<Remedy> remedies = result.Remedies;
        double[] now = [WallOf(ceramics[0], cervical.Stump, 0.8, Thin), WallOf(ceramics[0], body.Stump, bodyMm, Thin)];
        bool isCervical = now[0] >= now[1];
        (Zone limiting, double limitingMm, double before) =
            isCervical ? (cervical, 0.8, now[0]) : (body, bodyMm, now[1]);
        Assert.Equal(limiting.Name, candidate.Limiting.Zone.Name);
        double other = isCervical ? now[1] : now[0];
        List<(RemedyKind Kind, double After, string Text)> expected = [];

        double from = Math.Max(thinnest, (structural ?? 0) / (1 - share));
        int steps = (int)Math.Ceiling(((2.5 - from) / 0.01) - 1e-9);
        (double Mm, double After)[] useful =
            [.. Enumerable.Range(0, steps + 1).Select(i => from + (i * (2.5 - from) / steps))
            .Select(wall => (wall, WallOf(ceramics[0], limiting.Stump, wall, Thin)))
                .Where(item => item.Item2 <= 1.8 || item.wall < limitingMm)];
        if (useful.Length > 0)
        {
            (double wall, double after) = useful.OrderBy(item => item.After > 1.8 ? item.After : 0)
                .ThenBy(item => Math.Abs(item.Mm - limitingMm)).First();
            Add(RemedyKind.Thickness, Math.Max(after, other),
                Invariant(
                    $"a wall {Math.Abs(wall - limitingMm):0.00} mm {(wall > limitingMm ? "thicker" : "thinner")} in ")
                    + Invariant($"zone '{limiting}' ({Math.Ceiling((100 * wall) - 1e-9) / 100:0.00} mm)"));
        }

        // Grade 3 needs 0.9 mm of core, which the cervical zone does not have.
        Add(RemedyKind.Grade, AllZones(ceramics[1], Thin), "grade 2 instead of grade 1");
        Add(RemedyKind.Cement, AllZones(ceramics[0], Opaque), "0.05 mm of opaque film instead of 0.05 mm of film");
        Add(RemedyKind.StumpBuildUp, Math.Max(WallOf(ceramics[0], Good, limitingMm, Thin), other),
            $"good over the stump in zone '{limiting}'");
        BlockingLinerResult liner = BlockingLiner.Find(candidate.Restoration, Liner);
        if (liner.Lined is not null)
        {
            double linerMm = liner.Lined.Liner!.ThicknessMm;
            Add(RemedyKind.BlockingLiner, ((Zone[])[cervical, body]).Max(zone => WorstOf(Lined(zone, linerMm), target,
                Criterion)), Invariant(
                    $"{Math.Ceiling((1000 * linerMm) - 1e-9) / 1000:0.000} mm of liner under the core"));
        }

        Assert.Equal(expected.Select(item => item.Text).Order(), remedies.Select(remedy => remedy.ToString()).Order());
        Assert.Equal(
            remedies.OrderByDescending(remedy => remedy.Meets).ThenBy(remedy => remedy.DifferenceAfter), remedies);
        foreach ((RemedyKind kind, double after, string text) in expected)
        {
            Remedy remedy = remedies.Single(item => item.ToString() == text);
            Assert.Equal(kind, remedy.Kind);
            Assert.Equal(before, remedy.DifferenceBefore, Compiled);
            Assert.Equal(after, remedy.DifferenceAfter, Compiled);
            Assert.Equal(after <= 1.8, remedy.Meets);
            Assert.Contains(remedy.Cautions, caution => caution.Kind == CautionKind.PredictionAlone);
            Assert.Equal(text.Contains("thicker", StringComparison.Ordinal) || kind == RemedyKind.StumpBuildUp,
                remedy.Cautions.Any(caution => caution.Kind == CautionKind.ToothReduction));
            Assert.Equal(
                (kind == RemedyKind.Thickness, kind == RemedyKind.Grade, kind == RemedyKind.Cement,
                    kind == RemedyKind.BlockingLiner, kind == RemedyKind.StumpBuildUp),
                (remedy.WallMm is not null, remedy.Restoration.Core != remedy.Before.Core,
                    remedy.Restoration.Cement != remedy.Before.Cement,
                    remedy.Restoration.Liner != remedy.Before.Liner, remedy.BuildUp is not null));
            Assert.All(remedy.Restoration.Zones, zone =>
                Assert.True(!(remedy.Restoration.StructuralMinimumMm(zone) > zone.AvailableMm + 1e-9)));
        }

        Assert.All(remedies, remedy => Assert.True(remedy.Meets || !(remedy.WallMm > limitingMm)));
        Assert.DoesNotContain(RemedySearch.Find(candidate).Remedies, remedy => remedy.Kind != RemedyKind.Thickness);

        void Add(RemedyKind kind, double after, string change)
        {
            if (after < before - 0.1)
            {
                expected.Add((kind, after,
                    Invariant($"{change}: difference {before:0.0} becomes {after:0.0}")));
            }
        }

        LayerStack StackOf(Ceramic ceramic, Substrate under, double mm, params Layer[] below) => new(
            [
                new Layer(Glaze, 0.02), .. share == 0 ? (Layer[])[new(ceramic.Material, mm)]
                    : [new(Glaze, share * mm), new(ceramic.Material, (1 - share) * mm)], .. below,
            ],
            under);

        double WallOf(Ceramic ceramic, Substrate stump, double mm, Layer cement) =>
            WorstOf(StackOf(ceramic, stump, mm, cement), target, Criterion);

        double AllZones(Ceramic ceramic, Layer cement) =>
            Math.Max(WallOf(ceramic, cervical.Stump, 0.8, cement), WallOf(ceramic, body.Stump, bodyMm, cement));

        LayerStack Lined(Zone zone, double linerMm) =>
            StackOf(ceramics[0], zone.Stump, zone.AvailableMm - linerMm, new Layer(Liner, linerMm), Thin);
    }

    [Fact]
    public void A_veneered_match_says_what_it_is_made_of()
    {
        Ceramic[] CeramicsOf(double minimumMm) => [.. ((Ceramic[])[Dense("made up", 1, 2), Dense("made up", 2, 4)])
            .Select(ceramic => ceramic with { Strength = StrengthLimit.Of(minimumMm) })];
        Restoration restoration = new(
            [new Zone("cervical", Dark, 0.8, Neighbour) { ThinnestMm = 0.6, Weight = 0 },
                new Zone("body", Good, 1.2, Neighbour) { Weight = 0 }],
            CeramicsOf(0.42)[0], Thin, Criterion)
        { Viewing = TwoLights };
        MatchOptions OptionsOf(double minimumMm) => new(CeramicsOf(minimumMm)) { Cements = [Thin, Opaque],
            Veneers = [Glaze], VeneerShares = [0.25, 0.5], AllowsMonolithic = false, Keep = 100 };
        MatchRanking ranking = Match.Find(restoration, OptionsOf(0.42));
        Assert.Equal((8, 4), (ranking.Considered, ranking.TooThin));
        Assert.All(ranking.Candidates, candidate =>
        {
            Restoration made = candidate.Restoration;
            Assert.Equal(
                $"{made.Core} under glaze, 25 % of the wall, with {made.Cement!.Material}", candidate.ToString());
            Assert.Equal(
                (candidate.Zones[0].Difference + candidate.Zones[1].Difference) / 2, candidate.MeanDifference, 1e-12);
            Assert.Equal(candidate.Zones.Max(zone => zone.Difference), candidate.WorstDifference);
            Assert.Equal(candidate.WorstDifference <= 1.8, candidate.Meets);
            Assert.Same(candidate.Zones.MaxBy(zone => zone.Difference), candidate.Limiting);
            Assert.StartsWith($"zone '{candidate.Limiting.Zone.Name}' under {candidate.Limiting.AtWall.Colorimeter}: ",
                candidate.Explain());
            double thinnest = candidate.Zones.Min(zone => zone.WallMm);
            Assert.Equal(Translucency(new Layer(Glaze, 0.25 * thinnest),
                new Layer(made.Core.Material, 0.75 * thinnest)), candidate.Translucency, 1e-9);
        });
        Assert.Contains(
            "4 choice(s) were left out because a zone has no room for the wall that strength requires.",
            ranking.Cautions.Select(caution => caution.ToString()));
        Assert.Contains(ranking.Cautions, caution => caution.Kind == CautionKind.ShortSpectrum);
        Assert.DoesNotContain(ranking.Cautions, caution => caution.Kind == CautionKind.EstimatedSpectrum);
        Assert.Same(ranking.Candidates[0], ranking.Closest);

        MatchCandidate plain = Match.Find(restoration, new MatchOptions(CeramicsOf(0.42))).Closest!;
        Assert.Equal($"{plain.Restoration.Core} with film", plain.ToString());

        // A wall of exactly the structural minimum is allowed.
        Assert.Equal(4, Match.Find(restoration, OptionsOf(0.75 * 0.8)).TooThin);
        Target wish = Target.FromColor(
            "wish", new Lab(70, 3, 15), Colorimeter.D65TwoDegree, MeasurementGeometry.DiffuseSpecularIncluded);
        Assert.Contains(
            Match.Find(restoration.WithZones([new Zone("cervical", Dark, 0.8, wish)]), OptionsOf(0.42))
                .Cautions, caution => caution.Kind == CautionKind.EstimatedSpectrum);
    }

    /// <summary>
    /// The nearest colour of a scan in steps of 0.0005 mm over all combinations, walls as strength and range allow.
    /// </summary>
    [Theory]
    [InlineData(0.8, 62, 2, 12)]
    [InlineData(0.2, 62, 2, 12)]
    [InlineData(1.1, 45, 4, 6)]
    public void A_wish_is_compared_with_everything_that_can_be_made(double structural, double l, double a, double b)
    {
        Ceramic[] ceramics = [.. ((Ceramic[])[Dense("made up", 1, 1), Dense("made up", 2, 3)])
            .Select(ceramic => ceramic with { Strength = StrengthLimit.Of(structural) })];
        MatchOptions options = new(ceramics) { Cements = [Thin, Opaque], Veneers = [Glaze], VeneerShares = [0.3] };
        Zone zone = new("body", Dark, 1.6, Target.FromColor(
            "wish", new Lab(l, a, b), Colorimeter.D65TwoDegree, MeasurementGeometry.DiffuseSpecularIncluded));
        Restoration restoration = new([zone], ceramics[0], Thin,
            new ColorCriterion("easy match", ColorDifferenceFormula.Ciede2000, 3, "this test"))
        {
            WallRange = new ThicknessRange(0.4, 3),
        };
        FeasibilityResult answer = ReachableColors.Find(restoration, zone, options);
        double best = double.PositiveInfinity;
        foreach (Ceramic ceramic in ceramics)
        {
            foreach (double share in (double[])[0, 0.3])
            {
                double thinnest = Math.Max(0.4, structural / (1 - share));
                foreach (Layer cement in (Layer[])[Thin, Opaque])
                {
                    for (double mm = thinnest; mm <= 1.6; mm += 0.0005)
                    {
                        best = Math.Min(best, ColorDifference.Ciede2000(answer.Wish, Made(ceramic, share, mm, cement)));
                    }
                }
            }
        }

        ReachablePoint nearest = answer.Nearest!;
        Restoration made = nearest.Restoration;
        double share3 = made.Veneer?.Share ?? 0;
        Assert.Equal(best, answer.Difference!.Value, 0.002);
        Assert.Equal(ColorDifference.Ciede2000(answer.Wish, nearest.Color), answer.Difference!.Value, 1e-12);
        Assert.Equal(0, ColorDifference.Cie76(
            nearest.Color, Made(made.Core, share3, nearest.WallMm, made.Cement!)), Compiled);
        Assert.InRange((1 - share3) * nearest.WallMm, structural - 1e-9, 1.6);
        Assert.All(answer.Points, point =>
            Assert.InRange((1 - (point.Restoration.Veneer?.Share ?? 0)) * point.WallMm, structural - 1e-9, 1.6));
        Assert.Equal(
            Invariant($"{Math.Ceiling(100 * nearest.WallMm) / 100:0.00} mm of ")
                + Invariant($"{made.Core}{(made.Veneer is null ? "" : " under glaze, 30 % of the wall,")} with ")
                + Invariant($"{made.Cement!.Material}"),
            nearest.ToString());
        Assert.Contains("the limit is 3.0 (easy match)", answer.ToString());
        Assert.Equal(
            !answer.IsFeasible, answer.ToString().EndsWith("would be needed first.", StringComparison.Ordinal));
        Assert.Equal(answer.Difference <= 3, answer.IsFeasible);
        Assert.Equal(Colorimeter.D65TwoDegree, answer.Under);

        Lab Made(Ceramic ceramic, double share, double mm, Layer cement) =>
            Colorimeter.D65TwoDegree.ToLab(new LayerStack(
            [.. share == 0 ? (Layer[])[new(ceramic.Material, mm)]
                : [new(Glaze, share * mm), new(ceramic.Material, (1 - share) * mm)], cement], Dark).Reflectance());
    }

    [Fact]
    public void Try_in_gap_is_the_largest_over_lights()
    {
        Restoration crown = new([new Zone("body", Dark, 0.8, Neighbour)], new Ceramic("family", 1, Body), Thin,
            Criterion) { Viewing = TwoLights };
        ZoneCementEffect effect =
            CementComparison.Find(crown, [new CementOption(Thin), new CementOption(Opaque, Thin)]).Effects[1].Zones[0];
        Lab[] Colors(Layer film) =>
            [.. Lights.Select(light => light.ToLab(new LayerStack([new Layer(Body, 0.8), film], Dark).Reflectance()))];
        double[] gaps = [.. Colors(Thin).Zip(Colors(Opaque), (one, other) => ColorDifference.Ciede2000(one, other))];
        Assert.NotEqual(gaps[0], gaps[1], 1e-3);
        Assert.Equal(gaps.Max(), effect.TryInGap!.Value, Compiled);
        Assert.Equal(gaps.Max(), effect.Change, Compiled);
        Assert.Equal(effect.Change, effect.TryInGap.Value, 1e-12);
    }

    [Fact]
    public void References_say_what_they_are()
    {
        Assert.Equal("the same ceramic, infinitely thick", MaskingReference.SelfBacked.ToString());
        Assert.Equal("the same restoration over good", MaskingReference.Over(Good).ToString());
    }
}
