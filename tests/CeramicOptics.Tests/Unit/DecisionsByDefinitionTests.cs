using CeramicOptics.Selection;
using static CeramicOptics.Tests.CoarseData;

namespace CeramicOptics.Tests.Unit;

/// <summary>Liners, remedies, stains, matches and wishes against brute force with the public stack.</summary>
public class DecisionsByDefinitionTests
{
    private static readonly ColorCriterion Criterion = ColorCriterion.AcceptableMatch;

    private static readonly Material Liner = new("liner", new(Grid, [0.2, 0.15, 0.1, 0.1]), new(Grid, [40, 38, 36, 34]), 1.53);

    private static readonly Pigment Yellow = new("yellow", new(Grid, [60, 8, 1, 0.5]), new(Grid, [5, 5, 5, 5]));

    private static readonly Pigment Red = new("red", new(Grid, [10, 40, 4, 0.5]), new(Grid, [2, 2, 2, 2]));

    private static readonly Pigment White = new("white", new(Grid, [0.5, 0.2, 0.1, 0.1]), new(Grid, [90, 80, 70, 60]));

    private static readonly Layer Thin = new(Film, 0.05), Opaque = new(new Material("opaque film", Film.Absorption, new(Grid, [20, 19, 18, 17]), 1.5), 0.05);

    /// <summary>The thinnest liner with which both zones meet the criterion, by a scan in steps of 0.0005 mm; else the best of the steps of 0.005 mm.</summary>
    [Theory]
    [InlineData(true, 0.6, null)]
    [InlineData(false, 0.6, null)]
    [InlineData(true, 0.02, null)]
    [InlineData(false, 0.02, null)]
    [InlineData(true, 0.6, 0.62)]
    public void The_liner_is_the_thinnest_of_a_scan(bool takesFromCeramic, double maximum, double? structural)
    {
        Zone[] zones = [new("neck", Dark, 0.7, MaskingReference.SelfBacked), new("body", Dark, 1.1, MaskingReference.SelfBacked)];
        RestorationCase restoration = new(zones, Criterion)
        {
            LayersAbove = [new Layer(Glaze, 0.05)], LayersBelow = [Thin], Conditions = TwoLights with { StructuralMinimumMm = structural },
        };
        Ceramic ceramic = new("family", 1, Body);
        BlockingLinerResult result = BlockingLiner.Find(restoration, ceramic, Liner, maximum, takesFromCeramic);
        double last = takesFromCeramic ? Math.Min(maximum, 0.7 - (structural ?? 1e-3)) : maximum;
        double[] scan = [.. Enumerable.Range(0, (int)(last / 0.0005) + 1).Select(i => ZonesWith(i * 0.0005).Max())];
        int first = Array.FindIndex(scan, worst => worst <= Criterion.Limit);
        double shown = result.ThicknessMm ?? result.BestMm;
        Assert.Equal(first < 0, result.ThicknessMm is null);
        if (first >= 0)
        {
            Assert.Equal(first * 0.0005, shown, 0.0011);
            Assert.True(ZonesWith(shown).Max() <= Criterion.Limit);
        }
        else
        {
            double[] tried = [.. Enumerable.Range(0, (int)Math.Ceiling(last / 0.005) + 1).Select(i => Math.Min(i * 0.005, last))];
            Assert.Equal(tried.MinBy(mm => ZonesWith(mm).Max()), shown, 1e-12);
        }

        Assert.Equal(ZonesWith(shown), result.Zones.Select(zone => zone.Difference), (one, other) => Math.Abs(one - other) < 1e-9);
        Assert.Equal(ZonesWith(shown).Max(), result.WorstDifference, 1e-9);
        Assert.Equal(TranslucencyWith(0), result.TranslucencyWithout, 1e-9);
        Assert.Equal(TranslucencyWith(shown), result.TranslucencyWith, 1e-9);

        double[] ZonesWith(double mm) => [.. zones.Select(zone =>
            WorstSelfBacked(new LayerStack([new Layer(Glaze, 0.05), new Layer(Body, Wall(zone, mm)), new Layer(Liner, mm), Thin], Dark), 1))];

        double Wall(Zone zone, double mm) => zone.AvailableThicknessMm - (takesFromCeramic ? mm : 0);

        double TranslucencyWith(double mm) => Translucency(new Layer(Body, Wall(zones[0], mm)), new Layer(Liner, mm));
    }

    /// <summary>Every remedy by the public stack: its difference, its words, and that nothing worth telling is left out.</summary>
    [Theory]
    [InlineData(0, null, 0.3, null)]
    [InlineData(0, 0.9, 0.3, null)]
    [InlineData(0.4, 0.5, 0.3, null)]
    [InlineData(0, null, 1.05, null)]
    [InlineData(0, 4.0, 0.3, null)]
    [InlineData(0, null, 0.3, 0.4)]
    [InlineData(0, null, 0.3, 1.3)]
    public void Remedies_are_what_one_change_makes(double share, double? structural, double thinnest, double? wantedMm)
    {
        // The target of the other cases is out of reach; that of a wall of the wanted thickness is met by many walls, of which the nearest is told.
        MaskingReference target = wantedMm is double wanted
            ? MaskingReference.Target("another wall", new LayerStack([new Layer(Glaze, 0.02), new Layer(Dense("made up", 1, 1).Material, wanted), Thin], Dark).Reflectance())
            : Neighbour;
        Zone neck = new("neck", Dark, 0.8, target), body = new("body", wantedMm is null ? Good : Dark, wantedMm ?? 1.0, target);
        RestorationCase restoration = new([neck, body], Criterion)
        {
            LayersAbove = [new Layer(Glaze, 0.02)], Conditions = TwoLights with { StructuralMinimumMm = structural }, RangeMm = (thinnest, 2.5),
        };
        Ceramic[] ceramics = [Dense("made up", 1, 1), Dense("made up", 2, 2.5), Dense("made up", 3, 5), Dense("other", 2, 3)];
        Material? veneer = share > 0 ? Glaze : null;
        MatchOptions options = new(ceramics, [Thin, Opaque]);
        MatchCandidate candidate = Candidate(ceramics[0], Thin);
        IReadOnlyList<Remedy> remedies = Remedies.For(candidate, restoration, options, Liner, Good);
        Assert.Equal("neck", candidate.Limiting.Zone.Name);
        List<(RemedyKind Kind, double After, string Text)> expected = [];
        double before = WallOf(ceramics[0], neck, 0.8, Thin), worst = Math.Max(before, WallOf(ceramics[0], body, body.AvailableThicknessMm, Thin));

        double from = Math.Max(thinnest, (structural ?? 0) / (1 - share));
        int steps = (int)Math.Ceiling(((2.5 - from) / 0.01) - 1e-9);
        if (from <= 2.5)
        {
            (double wall, double after) = Enumerable.Range(0, steps + 1).Select(i => from + (i * (2.5 - from) / steps)).Select(mm => (mm, WallOf(ceramics[0], neck, mm, Thin)))
                .OrderBy(item => item.Item2 > 1.8 ? item.Item2 : 0).ThenBy(item => Math.Abs(item.mm - 0.8)).First();
            Add(RemedyKind.Thickness, before, after, FormattableString.Invariant($"a wall {Math.Abs(wall - 0.8):0.00} mm {(wall > 0.8 ? "thicker" : "thinner")} in zone 'neck' ({wall:0.00} mm)"));
        }

        foreach (int grade in (int[])[2, 3])
        {
            Add(RemedyKind.Grade, worst, Math.Max(WallOf(ceramics[grade - 1], neck, 0.8, Thin), WallOf(ceramics[grade - 1], body, body.AvailableThicknessMm, Thin)), $"grade {grade} in place of grade 1");
        }

        Add(RemedyKind.Cement, before, WallOf(ceramics[0], neck, 0.8, Opaque), "opaque film in zone 'neck'");
        Add(RemedyKind.StumpBuildUp, before, WallOf(ceramics[0], new Zone("neck", Good, 0.8, target), 0.8, Thin), "good over the stump in zone 'neck'");
        if (share == 0 && (structural ?? 0) < 0.75)
        {
            BlockingLinerResult liner = BlockingLiner.Find(restoration with { LayersBelow = [Thin] }, ceramics[0], Liner);
            Add(RemedyKind.BlockingLiner, worst, liner.WorstDifference, FormattableString.Invariant(
                $"{liner.ThicknessMm ?? liner.BestMm:0.000} mm of liner under the ceramic (translucency TP00 {liner.TranslucencyWithout:0.0} becomes {liner.TranslucencyWith:0.0})"));
        }

        Assert.Equal(expected.Select(item => item.Text).Order(), remedies.Select(remedy => remedy.Text).Order());
        Assert.Equal(remedies.OrderByDescending(remedy => remedy.Meets).ThenBy(remedy => remedy.DifferenceAfter), remedies);
        foreach ((RemedyKind kind, double after, string text) in expected)
        {
            Remedy remedy = remedies.Single(item => item.Text == text);
            Assert.Equal(kind, remedy.Kind);
            Assert.Equal(after, remedy.DifferenceAfter, 1e-9);
            Assert.Equal(after <= 1.8, remedy.Meets);
            Assert.Equal(text.Contains("thicker", StringComparison.Ordinal) || kind == RemedyKind.StumpBuildUp, remedy.Cautions.Any(caution => caution.Kind == CautionKind.ToothReduction));
        }

        Assert.DoesNotContain(Remedies.For(candidate, restoration, options), remedy => remedy.Kind is RemedyKind.BlockingLiner or RemedyKind.StumpBuildUp);

        void Add(RemedyKind kind, double was, double after, string change)
        {
            if (after < was - 0.1)
            {
                expected.Add((kind, after, FormattableString.Invariant($"{change}: difference {was:0.0} becomes {after:0.0}")));
            }
        }

        LayerStack StackOf(Ceramic ceramic, Substrate under, double mm, Layer cement) => new(
            [
                new Layer(Glaze, 0.02), .. veneer is null ? (Layer[])[new(ceramic.Material, mm)] : [new(veneer, share * mm), new(ceramic.Material, (1 - share) * mm)], cement,
            ],
            under);

        double WallOf(Ceramic ceramic, Zone zone, double mm, Layer cement) => WorstOf(StackOf(ceramic, zone.Substrate, mm, cement), target, Criterion);

        MatchCandidate Candidate(Ceramic ceramic, Layer cement) => new(
            ceramic, veneer, share,
            [.. restoration.Zones.Select(zone => new ZoneMatch(
                zone, StackOf(ceramic, zone.Substrate, zone.AvailableThicknessMm, cement), zone.AvailableThicknessMm, cement,
                new WorstCase(zone.AvailableThicknessMm, WallOf(ceramic, zone, zone.AvailableThicknessMm, cement), zone.Substrate, Lights[0], default, default)))],
            false);
    }

    /// <summary>Two places, two lights: a grid over the loads of all pairs of pigments finds nothing better; what is stated is what the public stack gives.</summary>
    [Theory]
    [InlineData(ColorDifferenceFormula.Ciede2000, 0.36, 0.42, 0.50, 0.54, 0.3)]
    [InlineData(ColorDifferenceFormula.Cie76, 0.36, 0.42, 0.50, 0.54, 0.3)]
    [InlineData(ColorDifferenceFormula.Ciede2000, 0.45, 0.451, 0.4505, 0.45, 0)]
    public void No_grid_of_loads_beats_a_recipe_for_two_places(ColorDifferenceFormula formula, double blue, double green, double yellow, double red, double shrinkage)
    {
        MaskingReference target = MaskingReference.Target("wish", new ReflectanceSpectrum(Grid, [blue, green, yellow, red]));
        StainLayer layer = new(Glaze, 0.06, shrinkage) { MaximumLoad = 0.6, MaximumPigments = 2 };
        ColorCriterion criterion = new("strict", formula, 0.05, "this test");
        LayerStack thick = new([new Layer(Body, 2), Thin], Good), thin = new([new Layer(Glaze, 0.02), new Layer(Body, 1.2), Thin], Dark);
        StainPlace[] places = [new("body", thick, 0, target), new("neck", thin, 1, target)];
        Pigment[] palette = [Yellow, Red, White];
        StainRecipe recipe = Stain.Find(places, layer, palette, criterion, TwoLights);

        double[] PlacesWith(IEnumerable<StainPart> parts)
        {
            Layer fired = layer.Fired(parts);
            LayerStack one = new([fired, .. thick.Layers], Good), other = new([thin.Layers[0], fired, .. thin.Layers.Skip(1)], Dark);
            return [WorstOf(one, target, criterion), WorstOf(other, target, criterion)];
        }

        double best = double.PositiveInfinity;
        for (int i = 0; i <= 60; i++)
        {
            for (int j = 0; j <= 60; j++)
            {
                foreach ((Pigment p, Pigment q) in ((Pigment, Pigment)[])[(Yellow, Red), (Yellow, White), (Red, White)])
                {
                    best = Math.Min(best, PlacesWith([new(p, 0.01 * i), new(q, 0.01 * j)]).Max());
                }
            }
        }

        // Residuals are in units near the target, so what is far from it is found less exactly.
        Assert.InRange(recipe.WorstWith, 0, (1.001 * best) + 0.005);
        Assert.Equal(PlacesWith(recipe.Parts), recipe.With.Select(place => place.Difference), (one, other) => Math.Abs(one - other) < 1e-6);
        Assert.Equal(PlacesWith([]), recipe.Without.Select(place => place.Difference), (one, other) => Math.Abs(one - other) < 1e-9);
        Assert.Equal(PlacesWith(recipe.Parts).Max(), recipe.WorstWith, 1e-6);
        Assert.Equal(PlacesWith([]).Max(), recipe.WorstWithout, 1e-9);
        Assert.Equal(recipe.WorstWith <= 0.05, recipe.Meets);
        Assert.Equal(3 + 3, recipe.Mixtures);
        Assert.Equal(8, recipe.Starts);
        Assert.InRange(recipe.StartsAgreeing, 1, 8);
        Assert.Equal(recipe.Parts.OrderByDescending(part => part.Load), recipe.Parts);
        Assert.All(recipe.Parts, part => Assert.InRange(part.Load, 1e-6, 0.6));
        Assert.Same(Good, recipe.With[0].Substrate);

        // Metamerism: how far the offset from the target under one light is from that under another, at the worse place.
        Layer mixed = layer.Fired(recipe.Parts);
        double Metamerism(LayerStack stack)
        {
            (double L, double A, double B)[] offsets = [.. Lights.Select(light =>
            {
                (Lab color, Lab wish) = (light.ToLab(stack.Reflectance()), light.ToLab(target.Spectrum!));
                return (color.L - wish.L, color.A - wish.A, color.B - wish.B);
            })];
            return Math.Sqrt(Math.Pow(offsets[1].L - offsets[0].L, 2) + Math.Pow(offsets[1].A - offsets[0].A, 2) + Math.Pow(offsets[1].B - offsets[0].B, 2));
        }

        double expected = Math.Max(Metamerism(new([mixed, .. thick.Layers], Good)), Metamerism(new([thin.Layers[0], mixed, .. thin.Layers.Skip(1)], Dark)));
        Assert.Equal(expected, recipe.Metamerism, 1e-6);
    }

    [Fact]
    public void A_stain_that_is_not_needed_is_not_mixed()
    {
        LayerStack bare = new([new Layer(Body, 2), Thin], Good);
        StainLayer layer = new(Glaze, 0.06);
        MaskingReference itself = MaskingReference.Target("itself", new LayerStack([layer.Fired([]), .. bare.Layers], Good).Reflectance());
        StainRecipe recipe = Stain.Find([new StainPlace("body", bare, 0, itself)], layer, [Yellow, Red], Criterion, TwoLights);
        Assert.Empty(recipe.Parts);
        Assert.Equal((true, 0, 0, 0), (recipe.Meets, recipe.Mixtures, recipe.Starts, recipe.StartsAgreeing));
        Assert.Equal(0, recipe.WorstWith, 1e-9);
        Assert.Equal("glaze", layer.Fired([]).Material.Name);
        Assert.Equal("glaze with yellow 0.25, red 0.5", layer.Fired([new(Yellow, 0.25), new(Red, 0.5)]).Material.Name);
    }

    [Fact]
    public void A_veneered_match_says_what_it_is_made_of()
    {
        Ceramic[] ceramics = [Dense("made up", 1, 2), Dense("made up", 2, 4)];
        RestorationCase restoration = new(
            [new Zone("neck", Dark, 0.8, Neighbour) { ThinnestMm = 0.6, Weight = 0 }, new Zone("body", Good, 1.2, Neighbour) { Weight = 0 }], Criterion)
        { Conditions = TwoLights with { StructuralMinimumMm = 0.42 } };
        MatchOptions options = new(ceramics, [Thin, Opaque]) { Veneers = [Glaze], VeneerShares = [0.25, 0.5], AllowsMonolithic = false, Keep = 100 };
        MatchRanking ranking = Match.Rank(restoration, options);
        Assert.Equal((8, 4), (ranking.Considered, ranking.TooThin));
        Assert.All(ranking.Candidates, candidate =>
        {
            Assert.Equal($"{candidate.Ceramic} under glaze (25 %)", candidate.ToString());
            Assert.Equal((candidate.Zones[0].Worst.Difference + candidate.Zones[1].Worst.Difference) / 2, candidate.MeanDifference, 1e-12);
            Assert.Equal(candidate.Zones.Max(zone => zone.Worst.Difference), candidate.WorstDifference);
            Assert.Equal(candidate.WorstDifference <= 1.8, candidate.Meets);
            Assert.Same(candidate.Zones.MaxBy(zone => zone.Worst.Difference), candidate.Limiting);
            Assert.StartsWith($"zone '{candidate.Limiting.Zone.Name}' under {candidate.Limiting.Worst.Colorimeter}: ", candidate.Explanation);
            double thinnest = candidate.Zones.Min(zone => zone.WallMm);
            Assert.Equal(Translucency(new Layer(Glaze, 0.25 * thinnest), new Layer(candidate.Ceramic.Material, 0.75 * thinnest)), candidate.Translucency, 1e-9);
        });
        Assert.Contains(ranking.Cautions, caution => caution.Text == "4 combination(s) were left out because a zone has no room for the structural minimum of 0.42 mm.");
        Assert.Contains(ranking.Cautions, caution => caution.Kind == CautionKind.ShortSpectrum);
        Assert.DoesNotContain(ranking.Cautions, caution => caution.Kind == CautionKind.EstimatedSpectrum);
        Assert.Same(ranking.Candidates[0], ranking.Best);
        Assert.Null((ranking with { Candidates = [] }).Best);

        MatchCandidate plain = Match.Rank(restoration, options with { AllowsMonolithic = true, Veneers = [] }).Best!;
        Assert.Equal(plain.Ceramic.ToString(), plain.ToString());
        Assert.Null((restoration.Zones[0] with { ThinnestMm = null }).ThinnestMm);

        // A wall of exactly the structural minimum is allowed.
        Assert.Equal(4, Match.Rank(restoration with { Conditions = TwoLights with { StructuralMinimumMm = 0.75 * 0.8 } }, options).TooThin);
        MaskingReference wish = MaskingReference.Target("wish", new Lab(70, 3, 15), Colorimeter.D65TwoDegree);
        Assert.Contains(
            Match.Rank(restoration.WithZones([new Zone("neck", Dark, 0.8, wish)]), options).Cautions, caution => caution.Kind == CautionKind.EstimatedSpectrum);
    }

    /// <summary>The nearest colour of a scan in steps of 0.0005 mm over all combinations, walls as strength and range allow.</summary>
    [Theory]
    [InlineData(0.8, 62, 2, 12)]
    [InlineData(0.2, 62, 2, 12)]
    [InlineData(1.1, 45, 4, 6)]
    public void A_wish_is_compared_with_everything_that_can_be_made(double structural, double l, double a, double b)
    {
        Ceramic[] ceramics = [Dense("made up", 1, 1), Dense("made up", 2, 3)];
        MatchOptions options = new(ceramics, [Thin, Opaque]) { Veneers = [Glaze], VeneerShares = [0.3] };
        Zone zone = new("body", Dark, 1.6, MaskingReference.Target("wish", new Lab(l, a, b), Colorimeter.D65TwoDegree));
        RestorationCase restoration = new([zone], new ColorCriterion("easy match", ColorDifferenceFormula.Ciede2000, 3, "this test"))
        {
            Conditions = new ViewingConditions { StructuralMinimumMm = structural }, RangeMm = (0.4, 3),
        };
        Realism answer = ReachableColors.Find(restoration, zone, options);
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

        ReachablePoint nearest = answer.Nearest;
        Assert.Equal(best, answer.Difference, 0.002);
        Assert.Equal(ColorDifference.Ciede2000(answer.Wish, nearest.Color), answer.Difference, 1e-12);
        Assert.Equal(0, ColorDifference.Cie76(nearest.Color, Made(nearest.Ceramic, nearest.VeneerShare, nearest.WallMm, nearest.Cement)), 1e-9);
        Assert.InRange((1 - nearest.VeneerShare) * nearest.WallMm, structural - 1e-9, 1.6);
        Assert.Equal(
            FormattableString.Invariant($"{nearest.WallMm:0.00} mm of {nearest.Ceramic}{(nearest.Veneer is null ? "" : " with 30 % glaze")} with {nearest.Cement.Material}"), nearest.Recipe);
        Assert.Contains("3.0 is the limit for an easy match.", answer.Sentence);
        Assert.Equal(!answer.IsRealistic, answer.Sentence.EndsWith("would have to come first.", StringComparison.Ordinal));
        Assert.Contains("2.0 is the limit for a match.", Realism.SentenceFor(zone, new ColorCriterion("match", ColorDifferenceFormula.Cie76, 2, "this test"), nearest, answer.Wish, 1, true));
        Assert.Equal(answer.Difference <= 3, answer.IsRealistic);
        Assert.Equal(Colorimeter.D65TwoDegree, answer.Under);

        Lab Made(Ceramic ceramic, double share, double mm, Layer cement) => Colorimeter.D65TwoDegree.ToLab(new LayerStack(
            [.. share == 0 ? (Layer[])[new(ceramic.Material, mm)] : [new(Glaze, share * mm), new(ceramic.Material, (1 - share) * mm)], cement], Dark).Reflectance());
    }

    /// <summary>Hue angles grow from red (0°) over yellow (90°) and green (180°) to blue (270°).</summary>
    [Theory]
    [InlineData(20, 5, "too yellow", "too red")]
    [InlineData(-5, 20, "too green", "too yellow")]
    [InlineData(-20, -5, "too blue", "too green")]
    [InlineData(5, -20, "too red", "too blue")]
    public void A_hue_is_named_by_where_it_turned(double a, double b, string onward, string back)
    {
        Lab reference = new(60, a, b);
        Lab Turned(double degrees) => new Lch(60, reference.Chroma, reference.HueDegrees + degrees).ToLab();
        Assert.StartsWith(onward + " by ", ColorWords.Describe(reference, Turned(20)));
        Assert.StartsWith(back + " by ", ColorWords.Describe(reference, Turned(-20)));
    }

    [Fact]
    public void Try_in_gap_is_the_largest_over_lights()
    {
        LayerStack crown = new([new Layer(Body, 0.8)], Dark);
        CementEffect effect = CementComparison.Compare(crown, [new CementOption(Thin), new CementOption(Opaque, Thin)], TwoLights)[1];
        Lab[] Colors(Layer film) => [.. Lights.Select(light => light.ToLab(new LayerStack([crown.Layers[0], film], Dark).Reflectance()))];
        double[] gaps = [.. Colors(Thin).Zip(Colors(Opaque), (one, other) => ColorDifference.Ciede2000(one, other))];
        Assert.NotEqual(gaps[0], gaps[1], 1e-3);
        Assert.Equal(gaps.Max(), effect.TryInGap!.Value, 1e-12);
        Assert.Equal(gaps.Max(), effect.Change, 1e-12);
    }

    [Fact]
    public void References_say_what_they_are()
    {
        Assert.Equal("the same ceramic, infinitely thick", MaskingReference.SelfBacked.ToString());
        Assert.Equal("the same stack over good", MaskingReference.Over(Good).ToString());
    }
}
