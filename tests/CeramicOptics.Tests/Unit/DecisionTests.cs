using CeramicOptics.Selection;
using static CeramicOptics.Tests.DemoData;

namespace CeramicOptics.Tests.Unit;

public class DecisionTests
{
    private static readonly WavelengthGrid Grid = Cement.Material.Grid;

    private static readonly Colorimeter[] Lights = [Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree, new(Observer.Cie1931TwoDegree, Illuminant.F11)];

    private static readonly Ceramic[] Ceramics = [.. Enumerable.Range(1, 4).SelectMany(grade => (Ceramic[])[GlassCeramic(grade), Zirconia(grade)])];

    private static readonly Layer[] Cements = [Cement, new(Materials["Tern cement, opaque"], 0.05)];

    private static readonly Pigment[] Pigments =
    [
        .. Enumerable.Range(0, 12).Select(i => new Pigment(
            $"pigment {i}",
            new AbsorptionSpectrum(Grid, [.. Enumerable.Range(0, Grid.Count).Select(w => 25 * Math.Exp(-Math.Pow((Grid[w] - 400 - (28 * i)) / 45.0, 2)))]),
            ScatteringSpectrum.Uniform(Grid, i == 0 ? 80 : 4))),
    ];

    private static readonly Material Glaze = new("glaze", AbsorptionSpectrum.Uniform(Grid, 0.01), ScatteringSpectrum.Uniform(Grid, 0.2), 1.5);

    private static readonly Material Liner = new("liner", AbsorptionSpectrum.Uniform(Grid, 0.05), ScatteringSpectrum.Uniform(Grid, 60), 1.53);

    [Theory]
    [InlineData(false, 3)]
    [InlineData(true, 3)]
    [InlineData(false, 1000)]
    public void Pruned_search_equals_brute_force(bool cementPerZone, int keep)
    {
        RestorationCase restoration = Case(72);
        MatchOptions options = Options() with { CementPerZone = cementPerZone, Keep = keep };
        MatchRanking ranking = Match.Rank(restoration, options);

        // Every combination by the public stack, all zones, all thicknesses, no early end.
        List<(double Worst, double Mean)> all = [];
        foreach (Ceramic ceramic in options.Ceramics)
        {
            foreach ((Material? veneer, double share) in ((Material?, double)[])[(null, 0), (options.Veneers[0], 0.3), (options.Veneers[0], 0.5)])
            {
                double ZoneBest(Zone zone, IEnumerable<Layer> cements) => cements.Min(cement => Walls(zone).Min(wall =>
                {
                    Layer[] layers = veneer is null
                        ? [new(ceramic.Material, wall), cement]
                        : [new(veneer, share * wall), new(ceramic.Material, (1 - share) * wall), cement];
                    return WorstOf(new LayerStack(layers, zone.Substrate), zone.Reference, restoration.Criterion);
                }));

                foreach (Layer[] cements in cementPerZone ? [Cements] : Cements.Select(cement => (Layer[])[cement]))
                {
                    double[] zones = [.. restoration.Zones.Select(zone => ZoneBest(zone, cements))];
                    double weights = restoration.Zones.Sum(zone => zone.Weight);
                    all.Add((zones.Max(), restoration.Zones.Zip(zones, (zone, worst) => zone.Weight * worst).Sum() / weights));
                }
            }
        }

        all.Sort();
        Assert.Equal(all.Count, ranking.Considered);
        Assert.Equal(Math.Min(keep, all.Count), ranking.Candidates.Count);
        Assert.Equal(keep < all.Count, ranking.Pruned > 0);
        for (int i = 0; i < ranking.Candidates.Count; i++)
        {
            Assert.Equal(all[i].Worst, ranking.Candidates[i].WorstDifference, 1e-9);
            Assert.Equal(all[i].Mean, ranking.Candidates[i].MeanDifference, 1e-9);
            Assert.Equal(ranking.Candidates[i].WorstDifference <= restoration.Criterion.Limit, ranking.Candidates[i].Meets);
            Assert.All(ranking.Candidates[i].Zones, zone => Assert.Equal(WorstOf(zone.Stack, zone.Zone.Reference, restoration.Criterion), zone.Worst.Difference, 1e-9));
        }
    }

    [Fact]
    public void Strength_leaves_thin_walls_out_and_says_so()
    {
        RestorationCase restoration = Case(72) with { Conditions = new ViewingConditions { StructuralMinimumMm = 0.8 } };
        MatchRanking ranking = Match.Rank(restoration, Options() with { Keep = 1000 });
        Assert.All(ranking.Candidates.SelectMany(candidate => candidate.Zones.Select(zone => (1 - candidate.VeneerShare) * zone.WallMm)), core => Assert.True(core >= 0.8 - 1e-9));
        Assert.True(ranking.TooThin > 0);
        Assert.Contains(ranking.Cautions, caution => caution.Kind == CautionKind.StructuralMinimumGoverns);
        Assert.Null(Match.Rank(restoration with { Conditions = new ViewingConditions { StructuralMinimumMm = 5 } }, Options()).Best);
    }

    [Fact]
    public void A_zone_that_has_no_target_is_refused() =>
        Assert.Contains(
            "Zone 'neck' is compared with the same ceramic, infinitely thick, which is no target colour.",
            Assert.Throws<ArgumentException>(() => Match.Rank(
                new RestorationCase([new Zone("neck", BrownTooth, 1, MaskingReference.SelfBacked)], ColorCriterion.AcceptableMatch), Options())).Message);

    [Fact]
    public void No_member_of_the_pareto_set_is_beaten_and_every_other_candidate_is()
    {
        RestorationCase restoration = Case(72);
        MatchOptions options = Options() with { ThicknessStepMm = 0.2 };
        IReadOnlyList<MatchCandidate> front = Match.Pareto(restoration, options, 15);
        (double, double, double) Score(MatchCandidate item) => (item.WorstDifference, Math.Abs(item.Translucency - 15), item.Zones.Max(zone => zone.WallMm));
        static bool Beats((double A, double B, double C) one, (double A, double B, double C) other) =>
            one.A <= other.A && one.B <= other.B && one.C <= other.C && one != other;
        Assert.True(front.Count >= 3);
        Assert.Equal(front.OrderBy(item => item.WorstDifference), front);
        Assert.DoesNotContain(front, item => front.Any(other => Beats(Score(other), Score(item))));
        Assert.All(
            Match.Rank(restoration, options with { Keep = 1000 }).Candidates,
            item => Assert.True(front.Any(member => Score(member) == Score(item) || Beats(Score(member), Score(item))), item.ToString()));
    }

    [Fact]
    public void A_remedy_does_what_it_says()
    {
        RestorationCase restoration = Case(76);
        MatchOptions options = Options();
        MatchCandidate candidate = Match.Rank(restoration, options with { Keep = 1000 }).Candidates.Last(item => item.Veneer is null && item.Ceramic.Family.StartsWith("Meadow", StringComparison.Ordinal));
        IReadOnlyList<Remedy> remedies = Remedies.For(candidate, restoration, options, Liner, LightTooth);
        Assert.Equal([.. Enum.GetValues<RemedyKind>()], remedies.Select(remedy => remedy.Kind).Distinct().OrderBy(kind => kind));
        Remedy cement = remedies.First(remedy => remedy.Kind == RemedyKind.Cement);
        ZoneMatch limiting = candidate.Limiting;
        Layer other = Cements.Single(item => item != limiting.Cement);
        LayerStack mended = new([.. limiting.Stack.Layers.Take(limiting.Stack.Layers.Count - 1), other], limiting.Stack.Substrate);
        Assert.Equal(WorstOf(mended, limiting.Zone.Reference, restoration.Criterion), cement.DifferenceAfter, 1e-9);
        Assert.Contains("Tern cement, opaque in zone '", cement.Text);
        Remedy thickness = remedies.First(remedy => remedy.Kind == RemedyKind.Thickness);
        Assert.Contains(thickness.Cautions, caution => caution.Kind == CautionKind.ToothReduction);
        Assert.All(remedies, remedy => Assert.Equal(remedy.DifferenceAfter <= restoration.Criterion.Limit, remedy.Meets));
    }

    [Fact]
    public void Words_tell_the_weightiest_part_first()
    {
        Lab tooth = new(75, 2, 16);
        string Between(Lab color) => new WorstCase(1, 0, BrownTooth, Lights[0], tooth, color).InWords;
        Assert.Equal("no visible difference", Between(tooth));
        Assert.StartsWith("too dark by 4.", Between(tooth with { L = 69 }));
        Assert.StartsWith("too light by ", Between(tooth with { L = 81 }));
        Assert.StartsWith("too saturated by ", Between(new Lab(75, 3, 24)));
        Assert.StartsWith("too red by ", Between(new Lab(75, 8, 15)));
        Assert.StartsWith("too pale by ", Between(new Lab(75, 1, 8)));
        Assert.Matches("^too dark by .*, too pale by .*$", Between(new Lab(65, 1.5, 12)));
    }

    /// <summary>A truth hidden in a spectrum is found again: which pigments, and how much of each.</summary>
    [Theory]
    [InlineData(2, 0.3, 7, 0.15)]
    [InlineData(0, 0.2, 4, 0.4)]
    [InlineData(9, 0.5, 3, 0.1)]
    public void A_hidden_stain_recipe_is_found_again(int one, double loadOfOne, int other, double loadOfOther)
    {
        StainLayer layer = new(Glaze, 0.06, firingShrinkage: 0.3);
        LayerStack bare = Bonded(Zirconia(2), 1.0, BrownTooth);
        Layer hidden = layer.Fired([new(Pigments[one], loadOfOne), new(Pigments[other], loadOfOther)]);
        ReflectanceSpectrum truth = new LayerStack([hidden, .. bare.Layers], bare.Substrate).Reflectance();
        StainRecipe recipe = Stain.Find(
            [new StainPlace("body", bare, 0, MaskingReference.Target("hidden", truth))], layer, Pigments, ColorCriterion.ImperceptibleMatch, new ViewingConditions { Colorimeters = Lights });
        Assert.True(recipe.Meets);
        Assert.InRange(recipe.WorstWith, 0, 0.8);
        Assert.True(recipe.WorstWithout > 2);

        // Whatever is found gives the colours that are stated, by the public stack.
        LayerStack stained = new([layer.Fired(recipe.Parts), .. bare.Layers], bare.Substrate);
        Assert.Equal(WorstOf(stained, MaskingReference.Target("hidden", truth), ColorCriterion.ImperceptibleMatch), recipe.WorstWith, 1e-9);

        // With a criterion that only the truth meets, the truth comes out.
        ColorCriterion exact = new("exact", ColorDifferenceFormula.Ciede2000, 1e-4, "this test");
        StainRecipe found = Stain.Find(
            [new StainPlace("body", bare, 0, MaskingReference.Target("hidden", truth))], layer, Pigments, exact, new ViewingConditions { Colorimeters = Lights });
        Assert.Equal(2, found.Parts.Count);
        Assert.Equal(loadOfOne, found.Parts.Single(part => part.Pigment == Pigments[one]).Load, 1e-3);
        Assert.Equal(loadOfOther, found.Parts.Single(part => part.Pigment == Pigments[other]).Load, 1e-3);
        Assert.InRange(found.Metamerism, 0, 1e-3);
        Assert.Equal(found.Starts, found.StartsAgreeing);
    }

    /// <summary>For one and two pigments a fine scan over the loads finds nothing better.</summary>
    [Fact]
    public void No_scan_over_loads_beats_the_recipe()
    {
        StainLayer layer = new(Glaze, 0.05) { MaximumLoad = 0.5, MaximumPigments = 2 };
        LayerStack bare = Bonded(GlassCeramic(3), 1.0, LightTooth);
        MaskingReference target = MaskingReference.Target("wish", new Lab(66, 4, 22), Colorimeter.D65TwoDegree);
        ColorCriterion criterion = ColorCriterion.ImperceptibleMatch;
        Pigment[] palette = [Pigments[0], Pigments[2], Pigments[5]];
        StainRecipe recipe = Stain.Find([new StainPlace("body", bare, 0, target)], layer, palette, criterion, new ViewingConditions { Colorimeters = Lights });
        double best = double.PositiveInfinity;
        for (int p = 0; p < 3; p++)
        {
            for (int q = p + 1; q < 3; q++)
            {
                for (int i = 0; i <= 25; i++)
                {
                    for (int j = 0; j <= 25; j++)
                    {
                        LayerStack stained = new([layer.Fired([new(palette[p], 0.02 * i), new(palette[q], 0.02 * j)]), .. bare.Layers], bare.Substrate);
                        best = Math.Min(best, WorstOf(stained, target, criterion));
                    }
                }
            }
        }

        Assert.InRange(recipe.WorstWith, 0, best + 0.02);
        Assert.All(recipe.Parts, part => Assert.InRange(part.Load, 0, 0.5));
    }

    [Fact]
    public void Firing_keeps_the_pigment_and_thins_the_layer()
    {
        StainLayer layer = new(Glaze, 0.1, 0.4);
        Layer fired = layer.Fired([new(Pigments[3], 0.5)]);
        Assert.Equal(0.06, fired.ThicknessMm, 1e-12);
        Assert.Equal(0.1 * 0.5 * Pigments[3].Absorption[20], (fired.Material.Absorption[20] - Glaze.Absorption[20]) * fired.ThicknessMm, 1e-9);
    }

    [Fact]
    public void The_blocking_liner_is_the_thinnest_that_works()
    {
        Zone zone = new("body", NearlyBlackTooth, 1.0, MaskingReference.SelfBacked);
        RestorationCase restoration = new([zone], ColorCriterion.AcceptableMatch) { LayersBelow = [Cement] };
        BlockingLinerResult result = BlockingLiner.Find(restoration, GlassCeramic(2), Liner);
        double mm = result.ThicknessMm!.Value;

        // The same zone as a masking question at its wall thickness, with the liner as a layer below.
        double With(double liner) => MaskingThickness.WorstDifferences(
            new LayerStack([new Layer(GlassCeramic(2).Material, 1), new Layer(Liner, liner), Cement], NearlyBlackTooth), 0, [1 - liner], zone.Reference, restoration.Criterion, [NearlyBlackTooth])[0].Difference;
        Assert.InRange(With(mm), 0, restoration.Criterion.Limit + 1e-9);
        Assert.True(With(mm - 0.001) > restoration.Criterion.Limit);
        Assert.InRange(result.TranslucencyWith, 0, result.TranslucencyWithout - 1);
        Assert.Throws<ArgumentOutOfRangeException>(() => BlockingLiner.Find(
            restoration with { Conditions = new ViewingConditions { StructuralMinimumMm = 2 } }, GlassCeramic(2), Liner));
    }

    [Fact]
    public void Cements_are_compared_as_bonded_and_as_tried_in()
    {
        LayerStack crown = new([new Layer(GlassCeramic(2).Material, 0.8)], BrownTooth);
        IReadOnlyList<CementEffect> effects = CementComparison.Compare(
            crown, [new CementOption(Cements[0]), new CementOption(Cements[1], new Layer(Cements[1].Material, 0.05)), new CementOption(Cements[1], Cements[0])], new ViewingConditions { Colorimeters = Lights });
        Assert.Equal(0, effects[0].Change);
        Assert.Null(effects[0].TryInGap);
        Assert.Equal(0, effects[1].TryInGap!.Value, 1e-12);
        Assert.Equal(effects[2].Change, effects[2].TryInGap!.Value, 1e-12);
        Assert.Equal(Lights[1].ToLab(new LayerStack([crown.Layers[0], Cements[1]], BrownTooth).Reflectance()), effects[1].Bonded[1]);

        // Common practice, no source: an opaque light cement lifts the value of a translucent crown over a brown stump.
        Assert.StartsWith("too light by", effects[1].ChangeInWords);
    }

    [Fact]
    public void Long_work_tells_how_far_it_is_and_can_be_stopped()
    {
        RestorationCase matching = Case(72);
        RestorationCase masking = new([new Zone("body", NearlyBlackTooth, 1.0, MaskingReference.SelfBacked)], ColorCriterion.AcceptableMatch) { LayersBelow = [Cement] };
        LayerStack stack = Bonded(Zirconia(2), 1, BrownTooth);
        InputUncertainty inputs = new([0.05, 0.02]);
        StainPlace place = new("body", stack, 0, MaskingReference.Target("wish", new Lab(66, 4, 22), Colorimeter.D65TwoDegree));
        Action<IProgress<double>, CancellationToken>[] works =
        [
            (progress, stop) => Match.Rank(matching, Options(), progress, stop),
            (progress, stop) => Match.Pareto(matching, Options() with { ThicknessStepMm = 0.3 }, 10, progress, stop),
            (progress, stop) => Stain.Find([place], new StainLayer(Glaze, 0.05), Pigments, ColorCriterion.ImperceptibleMatch, null, progress, stop),
            (progress, stop) => BlockingLiner.Find(masking, GlassCeramic(2), Liner, 0.3, true, progress, stop),
            (progress, stop) => ReachableColors.Find(matching, matching.Zones[0], Options(), progress, stop),
            (progress, stop) => PredictionUncertainty.Sample(stack, 0, MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch, inputs, null, 256, 1, progress, stop),
            (progress, stop) => ToleranceThickness.Find(stack, 0, (0.3, 2), MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch, inputs, null, 0.95, 256, 1, progress, stop),
        ];
        foreach (Action<IProgress<double>, CancellationToken> work in works)
        {
            Recorder recorder = new();
            work(recorder, CancellationToken.None);
            Assert.Equal(1, recorder.Values[^1], 1e-12);
            Assert.Equal(recorder.Values.Order(), recorder.Values);
            Assert.InRange(recorder.Values[0], 1e-9, 1);
            Assert.Throws<OperationCanceledException>(() => work(new Recorder(), new CancellationToken(canceled: true)));
        }
    }

    private sealed class Recorder : IProgress<double>
    {
        public List<double> Values { get; } = [];

        public void Report(double value) => Values.Add(value);
    }

    private static MatchOptions Options() => new(Ceramics, Cements) { Veneers = [Materials["Meadow glass-ceramic, grade 1"]], Keep = 20, ThicknessStepMm = 0.1 };

    private static IEnumerable<double> Walls(Zone zone) => zone.ThinnestMm is double thinnest
        ? Enumerable.Range(0, (int)Math.Round((zone.AvailableThicknessMm - thinnest) / 0.1) + 1).Select(i => thinnest + (0.1 * i))
        : [zone.AvailableThicknessMm];

    private static RestorationCase Case(double l)
    {
        MaskingReference target = MaskingReference.Target("neighbour", new Lab(l, 1, 14), Colorimeter.D65TwoDegree);
        return new RestorationCase(
            [
                new Zone("neck", BrownTooth, 0.9, target) { ThinnestMm = 0.6 },
                new Zone("body", NearlyBlackTooth, 1.2, target) { Weight = 2 },
                new Zone("edge", LightTooth, 1.3, target) { ThinnestMm = 1.0 },
            ],
            ColorCriterion.AcceptableMatch)
        { Conditions = new ViewingConditions { Colorimeters = Lights }, RangeMm = (0.3, 2.5) };
    }

    private static double WorstOf(LayerStack stack, MaskingReference target, ColorCriterion criterion)
    {
        ReflectanceSpectrum spectrum = stack.Reflectance();
        return Lights.Max(light => criterion.Difference(TargetUnder(target, light), light.ToLab(spectrum)));
    }

    // A target known by its colour under D65 has elsewhere the colour of its smoothest spectrum.
    private static Lab TargetUnder(MaskingReference target, Colorimeter light) => target.Spectrum is not null
        ? light.ToLab(target.Spectrum)
        : light.ToLab(Colorimeter.D65TwoDegree.SmoothestReflectance(target.Color!.Value.Color, Grid));
}
