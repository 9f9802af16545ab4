using System.Collections;
using System.Globalization;
using System.Reflection;
using System.Resources;
using System.Text.RegularExpressions;
using CeramicOptics.Characterization;
using CeramicOptics.Characterization.Photographs;
using CeramicOptics.Decisions;
using CeramicOptics.Decisions.Appearance;
using CeramicOptics.Decisions.Cementing;
using CeramicOptics.Decisions.Delivered;
using CeramicOptics.Decisions.Discs;
using CeramicOptics.Decisions.Feasibility;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Decisions.Remedies;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Exchange;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using Match = CeramicOptics.Decisions.Matching.Match;

namespace CeramicOptics.Tests.Unit;

/// <summary>Answers in words: both languages are complete, and nothing that an answer says passes them by.</summary>
public class WordsTests
{
    private static readonly Dictionary<string, string> InEnglish = Words("English"), InGerman = Words("German");

    // Every word of the resources becomes dots; names of the caller are Greek here, so that a Latin letter is a word
    // that did not come from the resources.
    private static readonly Language Dots = new("..", key => InEnglish.TryGetValue(key, out string? words)
        ? Regex.Replace(words, @"\{[^}]*\}|[A-Za-z]", part => part.Value.Length > 1 ? part.Value : "·")
        : null, NumberFormatInfo.InvariantInfo);

    [Fact]
    public void What_rounds_to_zero_has_no_sign()
    {
        Assert.Equal("L* 50.0, a* 0.0, b* 0.0", new Lab(50, -0.04, -0.0).ToString());
        Assert.Equal("L* 50.0, a* -0.1, b* -1.0", new Lab(50, -0.06, -1).ToString());
        Assert.Equal("L* 50,0, a* 0,0, b* -0,1", new Lab(50, -0.04, -0.06).ToString(Language.German));
    }

    [Fact]
    public void Both_languages_have_the_same_keys_with_the_same_values()
    {
        Assert.True(InEnglish.Count > 200);
        Assert.Equal(InEnglish.Keys.Order(StringComparer.Ordinal), InGerman.Keys.Order(StringComparer.Ordinal));
        foreach ((string key, string english) in InEnglish)
        {
            Assert.NotEqual("", english.Trim());
            Assert.NotEqual("", InGerman[key].Trim());
            Assert.Equal(Values(english), Values(InGerman[key]));

            // The English name of what has a name is the name itself.
            Assert.True(!key.StartsWith("Name.", StringComparison.Ordinal) || key == "Name." + english, key);
        }

        static IEnumerable<string> Values(string words) =>
            Regex.Matches(words, @"\{[^}]*\}").Select(match => match.Value).Distinct().Order(StringComparer.Ordinal);
    }

    /// <summary>
    /// Every text of every answer, and of all that an answer holds, comes from the resources; English is what is said
    /// without asking, whatever the culture of the thread.
    /// </summary>
    [Fact]
    public void No_word_of_an_answer_passes_the_resources_by()
    {
        HashSet<Type> said = [];
        CultureInfo before = CultureInfo.CurrentCulture;
        CultureInfo.CurrentCulture = new Spoken("de-DE");
        try
        {
            foreach (IFormattable answer in Reached(Answers()))
            {
                said.Add(answer.GetType());
                string dotted = answer.ToString(null, Dots) + (answer as MatchCandidate)?.Explain(Dots);
                dotted = Regex.Replace(dotted, @"\b(D65|A)\b", "");
                Assert.False(Regex.IsMatch(dotted, "[A-Za-z]"), $"{answer.GetType().Name}: {dotted}");
                string english = answer.ToString(null, Language.English);
                Assert.Equal(english, answer.ToString());
                Assert.Equal(english, answer.ToString(null, null));
                Assert.Equal(english, answer.ToString(null, CultureInfo.InvariantCulture));
                Assert.Equal(english, $"{answer}");
                string german = answer.ToString(null, Language.German);
                Assert.Equal(german, answer.ToString(null, new Spoken("de-DE")));
                Assert.Equal(german, string.Create(Language.German, $"{answer}"));
                Assert.DoesNotContain("NaN", german, StringComparison.Ordinal);
                Assert.False(Regex.IsMatch(german, @"\d\.\d"), german);
            }
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }

        Assert.Equal(
            "",
            string.Join(" ", typeof(Language).Assembly.GetExportedTypes()
                .Where(type => typeof(IFormattable).IsAssignableFrom(type) && !type.IsEnum && !type.IsAbstract)
                .Except(said).Select(type => type.Name)));
    }

    /// <summary>Whatever holds cautions, or is part of an answer, can be said.</summary>
    [Fact]
    public void Every_answer_has_words()
    {
        string[] noAnswers =
        [
            "ResultDocument", "ThicknessMap", "TwoLayerMap", "SpreadMap", "SpreadField", "GpuTable", "SpotPoint",
            "MeshEdge", "Pigment", "StainLayer",
        ];
        Assert.Equal(
            "",
            string.Join(" ", typeof(Language).Assembly.GetExportedTypes()
                .Where(type => (type.Namespace!.StartsWith("CeramicOptics.Decisions", StringComparison.Ordinal)
                        || type.GetProperty("Cautions") is not null || type.GetProperty("Findings") is not null)
                    && !type.IsEnum && !(type.IsAbstract && type.IsSealed)
                    && !type.Name.EndsWith("Options", StringComparison.Ordinal)
                    && !typeof(IFormattable).IsAssignableFrom(type))
                .Select(type => type.Name).Except(noAnswers).Order(StringComparer.Ordinal)));
    }

    [Fact]
    public void A_culture_gives_words_and_numbers()
    {
        MinimumThickness minimum = new(1.381, 1.541, 0.8001, 3, 0.955, null);
        const string InGermany = "mindestens 1,55 mm (nach Farbe 1,39, zuverlässig bei 95,5 % der Restaurationen "
            + "1,55, Festigkeit 0,81)";
        Assert.Equal(InGermany, minimum.ToString(Language.German));
        Assert.Equal(InGermany, minimum.ToString(new Spoken("de-DE")));
        Assert.Equal(InGermany, minimum.ToString(new Spoken("de")));
        Assert.Equal(
            InGermany.Replace("1,", "1.").Replace("0,", "0.").Replace("5,5", "5.5"),
            minimum.ToString(new Spoken("de-CH", ".")));
        const string InEngland =
            "at least 1.55 mm (by colour 1.39, reliable for 95.5 % of pieces 1.55, strength 0.81)";
        Assert.All(
            (IFormatProvider?[])[null, Language.English, CultureInfo.InvariantCulture, new Spoken("en-GB", "."),
                new Spoken("fr-FR"), new Spoken("den"), new NumberFormatInfo { NumberDecimalSeparator = "," }],
            provider => Assert.Equal(InEngland, minimum.ToString(provider)));
        Assert.Equal("Gerüst", Language.German.NameOf(LayerRole.Core));
        Assert.Contains(
            "CautionKind.ToothReduction has no name",
            Assert.Throws<ArgumentException>(() => Language.German.NameOf(CautionKind.ToothReduction)).Message,
            StringComparison.Ordinal);
        Assert.Equal(["en", "de"], Language.All.Select(language => language.Name));
    }

    /// <summary>What is shown is never better than what was found.</summary>
    [Fact]
    public void Margins_and_probabilities_are_rounded_down()
    {
        Assert.Equal("0.849 ± 0.005", new Probability(0.8499, 0.0041, 10_000).ToString());
        Assert.Equal("0,849 ± 0,001", new Probability(0.8499, 0, 10_000).ToString(Language.German));
        Language margins = new("..", _ => "{0:margin}", NumberFormatInfo.InvariantInfo);
        Assert.Equal(
            ["+0.12", "-0.13", "0.00", "-0.01"],
            new[] { 0.129, -0.121, 0.0049, -0.001 }.Select(mm => margins.Text("x", mm)));
    }

    /// <summary>
    /// Words follow the parts of CIELAB, in both languages, and say "too" only against what is wanted.
    /// </summary>
    [Fact]
    public void Words_for_colours_follow_lightness_red_and_yellow()
    {
        Lab tooth = new(75, 2, 16);
        ColorShift Against(double l, double a, double b, bool isFault = true) =>
            new(tooth, new Lab(75 + l, 2 + a, 16 + b), isFault);
        Assert.Equal("um 2,0 zu hell, um 1,0 zu grün", Against(2, -1, 0.4).ToString(Language.German));
        Assert.Equal("um 4,0 zu blau, um 2,0 zu dunkel, um 1,0 zu rot", Against(-2, 1, -4).ToString(Language.German));
        Assert.Equal("um 3,0 zu gelb", Against(0, 0, 3).ToString(Language.German));
        Assert.Equal("yellower by 3.0, darker by 1.0", Against(-1, 0, 3, isFault: false).ToString());
        Assert.Equal("um 3,0 gelber, um 1,0 dunkler", Against(-1, 0, 3, isFault: false).ToString(Language.German));
        Assert.Equal("jeweils unter 0,5 in L*, a* und b*", Against(0.4, -0.4, 0.4).ToString(Language.German));
    }

    /// <summary>
    /// Nothing is to be taken, used or recommended: words suggest for review, and say nothing of acceptable or sure.
    /// </summary>
    [Fact]
    public void Words_suggest_and_do_not_tell_what_to_do()
    {
        Assert.All(InEnglish.Where(words => !words.Key.StartsWith("Name.", StringComparison.Ordinal)), words =>
            Assert.False(
                Regex.IsMatch(words.Value, @"\b([Tt]ake|[Cc]hoose|recommend\w*|best|acceptable|safe|certain\w*)\b")
                    && !words.Key.StartsWith("PhotographFinding", StringComparison.Ordinal)
                    && !words.Key.StartsWith("Finding", StringComparison.Ordinal), words.Key));
        Assert.All(InGerman.Where(words => !words.Key.StartsWith("Name.", StringComparison.Ordinal)), words =>
            Assert.False(
                Regex.IsMatch(words.Value, @"\b(Sie|[Nn]ehmen|[Ww]ählen|empf\w+|beste\w*|akzeptabel|sicher\w*)\b")
                    && !words.Key.StartsWith("Finding", StringComparison.Ordinal), words.Key));

        // A suggestion stands beside the share it is reliable for, a masking answer beside margin and probability.
        Assert.All((Dictionary<string, string>[])[InEnglish, InGerman], words =>
        {
            Assert.Contains("{2:0.# %}", words["MinimumThickness"], StringComparison.Ordinal);
            Assert.Contains("{3}", words["ZoneMasking"], StringComparison.Ordinal);
            Assert.Contains("{4}", words["ZoneMasking"], StringComparison.Ordinal);
        });
    }

    private static Dictionary<string, string> Words(string language) =>
        new ResourceManager($"CeramicOptics.Words.{language}", typeof(Language).Assembly)
            .GetResourceSet(CultureInfo.InvariantCulture, true, false)!.Cast<DictionaryEntry>()
            .ToDictionary(entry => (string)entry.Key, entry => (string)entry.Value!);

    // Everything with words of its own that an answer holds.
    private static List<IFormattable> Reached(IEnumerable<object> roots)
    {
        HashSet<object> seen = new(ReferenceEqualityComparer.Instance);
        List<IFormattable> reached = [];
        Queue<object?> open = new(roots);
        while (open.Count > 0)
        {
            object? item = open.Dequeue();
            if (item is null or string || !(item is ValueType || seen.Add(item)))
            {
                continue;
            }

            if (item is IEnumerable items)
            {
                foreach (object? part in items)
                {
                    open.Enqueue(part);
                }
            }
            else if (item.GetType().Assembly == typeof(Language).Assembly
                && item is not (Enum or Spectrum or WavelengthGrid))
            {
                if (item is IFormattable answer)
                {
                    reached.Add(answer);
                }

                foreach (PropertyInfo property in item.GetType().GetProperties().Where(property =>
                    property.GetIndexParameters().Length == 0 && property.GetMethod is { IsStatic: false }
                    && property.PropertyType.Namespace != "CeramicOptics.Spectra"
                    && !property.PropertyType.IsByRefLike))
                {
                    try
                    {
                        open.Enqueue(property.GetValue(item));
                    }
                    catch (TargetInvocationException error) when (error.InnerException is InvalidOperationException)
                    {
                        // A colour that is not determined.
                    }
                }
            }
        }

        return reached;
    }

    private static IEnumerable<object> Answers() =>
    [
        .. Decided(), .. Delivered(), .. Characterized(), .. Drawn(), .. Seen(), .. Photographed(), .. EveryKind(),
        .. Repeated(),
    ];

    private static IEnumerable<object> Repeated() =>
    [
        ReplicateSummary.Of(Enumerable.Range(0, 6).Select(
            r => ReflectanceSpectrum.Uniform(Grid, r == 5 ? 0.9 : 0.5 + (0.001 * (r % 3))))),
        new ReplicateFinding(ReplicateFindingKind.Drift, null, null, 0.01, 0.001),
        new ReplicateFinding(ReplicateFindingKind.Drift, null, 450, -0.01, 0.001),
        new ReplicateFinding(ReplicateFindingKind.Outlier, 2, 450, -0.01, 0.001),
    ];

    private static readonly WavelengthGrid Grid = CoarseData.Grid;

    private static Material Make(string name, double times, bool isSure = false) => new(
        name, TwoFluxModel.Instance, new(Grid, [0.3 * times, 0.12 * times, 0.06 * times, 0.03 * times]),
        new(Grid, [4 * times, 3.5 * times, 3 * times, 2.8 * times]), 1.53,
        isSure ? CoefficientUncertainty.OfScale(Grid, 0.02) : null);

    internal static IEnumerable<object> Decided()
    {
        Substrate dark = Substrate.FromMeasuredColor(
            "σκούρο", new Lab(45, 5, 15), Colorimeter.D65TwoDegree, Grid, 1.54);
        Substrate good = Substrate.FromInternalReflectance("καλό", new(Grid, [0.35, 0.5, 0.6, 0.65]), 1.54);
        Target wish = Target.FromColor(
            "στόχος", new Lab(70, 3, 15), Colorimeter.D65TwoDegree, MeasurementGeometry.DiffuseSpecularIncluded);
        Layer film = new(Make("κονία", 0.3, isSure: true), 0.05), opaque = new(Make("πυκνό", 5), 0.05);
        Ceramic core = new("πυρήνας", 2, Make("άλφα", 1.4)), dense = new("πυρήνας", 3, Make("βήτα", 6));
        Restoration crown = new(
            [new Zone("cervical", dark, 0.8, wish), new Zone("ζώνη", good, 1.3, wish) { ThinnestMm = 0.7 }],
            core with { Strength = StrengthLimit.Of(0.4) }, film, ColorCriterion.AcceptabilityThreshold)
        {
            Viewing = CoarseData.TwoLights, Glaze = new Layer(Make("υάλωμα", 0.2), 0.04),
        };
        Restoration masked = crown.WithZones([
            new Zone("cervical", dark, 0.8, MaskingReference.SelfBacked),
            new Zone("ζώνη", dark, 1.3, MaskingReference.Over(good)) { Strength = StrengthLimit.NotGiven }]);
        Restoration weak = masked.WithCore(dense), dry = new(
            crown.Zones, core with { Strength = StrengthLimit.Of(2) }, CouplingMedium.Air, crown.Criterion);
        MatchOptions options =
            new([core, dense]) { Veneers = [Make("όψη", 0.8)], VeneerShares = [0.3], Cements = [film, opaque] };
        yield return MaskingThickness.Find(masked);
        yield return SpotMasking.Find(masked, masked.Zones[0], masked.Zones[0].Stump, 1);
        yield return GradeChoice.Find(weak, [core, dense with { Strength = StrengthLimit.Of(0.3) }]);
        yield return Match.Find(dry, new MatchOptions([dry.Core]));
        MatchRanking ranking = Match.Find(crown, options);
        yield return ranking;
        yield return Match.FindPareto(crown, options, 8);
        yield return Match.FindPareto(dry, new MatchOptions([dry.Core]), 8);
        RemedyOptions changes =
            new() { Ceramics = [dense], Cements = [opaque], Liner = opaque.Material, BuildUp = good };
        yield return RemedySearch.Find(Match.Find(crown, new MatchOptions([core])).Closest!, changes);
        yield return RemedySearch.Find(
            Match.Find(new(crown.Zones, core, CouplingMedium.Air, crown.Criterion), new MatchOptions([core])).Closest!,
            changes);
        yield return RemedySearch.Find(ranking.Closest!, new RemedyOptions());
        yield return ReachableColors.Find(crown, crown.Zones[0], options);
        yield return ReachableColors.Find(dry, dry.Zones[0], new MatchOptions([dry.Core]));
        Pigment pigment = new("χρώμα", TwoFluxModel.Instance, new(Grid, [40, 20, 8, 3]), new(Grid, [5, 5, 5, 5]));
        yield return Stain.Find(crown, new StainOptions(new StainLayer(Make("φορέας", 0.2), 0.05), [pigment]));
        yield return BlockingLiner.Find(crown, opaque.Material);
        yield return BlockingLiner.Find(dry, opaque.Material);
        yield return CementComparison.Find(crown, [new CementOption(film, opaque), new CementOption(opaque)]);
        yield return PredictionUncertainty.Find(crown, new SamplingOptions { Samples = 256 });
        ThicknessMap map = new([ThicknessResponse.Compile(masked, masked.Zones[0])]);
        yield return map.Zones[0].Requirement;
        yield return WallSuggestion.Find(
            map, MapMesh.FromEdges(2, []), [0.5, 0.9], 1, goal: ThicknessGoal.ByColor);
        yield return new Restoration[] { masked, dry, crown with { Veneer = Veneer.OfShare(core.Material, 0.3) },
            crown with { Veneer = Veneer.OfThickness(core.Material, 0.3) } };
    }

    private static IEnumerable<object> Delivered()
    {
        Substrate stump = Substrate.FromInternalReflectance("κολόβωμα", new(Grid, [0.35, 0.5, 0.6, 0.65]), 1.54);
        Layer film = new(Make("κονία", 0.3), 0.05);
        Restoration Plan(double mm) => new(
            [new Zone("ζώνη", stump, mm, MaskingReference.SelfBacked)], new Ceramic("πυρήνας", 2, Make("άλφα", 1)),
            film,
            ColorCriterion.AcceptabilityThreshold);
        ColorReading Reading(Lab color) => ColorReading.FromColor(
            color, Colorimeter.D65TwoDegree, MeasurementGeometry.DiffuseSpecularIncluded);
        DeliveredPiece Piece(int i, double mm, double lighter, string? furnace)
        {
            Lab color = Colorimeter.D65TwoDegree.ToLab(Plan(mm).StackOver(stump, mm).Reflectance());
            return new DeliveredPiece(
                $"στεφάνη {i}", new DateTime(2026, 1, 1).AddDays(i), "άλφα", "παρτίδα", mm, "κολόβωμα", Reading(color),
                Reading(color with { L = color.L + lighter })) { Cement = "κονία", Furnace = furnace };
        }

        DeliveredRecord calm = DeliveredRecord.Start("εργαστήριο").Append(
            Enumerable.Range(1, 8).Select(i => Piece(i, 0.6 + (0.1 * i), 4, null)));
        DeliveredRecord odd = calm.Append(Piece(9, 1, 12, "φούρνος"));
        CorrectionResult result = Correction.Find(calm.Append(Piece(9, 1, -9, null)), piece => Plan(piece.WallMm));
        yield return odd;
        yield return result;
        yield return result.PredictionFor(Plan(1), "παρτίδα");
        yield return Drift.Find(
            calm.Append(Enumerable.Range(9, 9).Select(i => Piece(i, 1, -6, null))), piece => Plan(piece.WallMm));
        foreach (AgreementBy by in Enum.GetValues<AgreementBy>())
        {
            yield return Agreement.Find(odd, by);
        }

        foreach (CorrectionFindingKind kind in Enum.GetValues<CorrectionFindingKind>())
        {
            yield return new CorrectionFinding(
                kind, "άλφα", 3, new QuantityKey(CorrectedKind.BatchScatteringScale, "άλφα", "παρτίδα"));
        }
    }

    private static IEnumerable<object> Characterized()
    {
        Material ceramic = Make("δίσκος", 1);
        DiscReading Read(string name, double mm, Substrate backing) => DiscReading.Reflectance(
            name, mm, new LayerStack([new Layer(ceramic, mm)], backing).Reflectance(), new Backing(backing, null),
            MeasurementGeometry.DiffuseSpecularIncluded, ReadingArea.Large);
        DiscSet discs = new("δείγμα", 1.53,
            [Read("over black", 1, Substrate.Black), Read("over white", 1, Substrate.White),
            Read("τρία", 0.5, Substrate.Black)]);
        yield return discs;
        CharacterizationResult found = DiscCharacterization.Find(discs);
        yield return found;
        yield return Recalibration.Find(found.ToMaterial(), TwoFluxModel.Instance);
        Spectrum read = discs.Readings[0].Values;
        double[] each = [.. read.Values.ToArray().Select(_ => 0.01)];
        foreach (ReadingArea area in (ReadingArea[])[
            ReadingArea.Large, ReadingArea.NotStated, ReadingArea.Circular(2, 2.5),
            ReadingArea.OnDisc(2, 2.5, 5, DiscSide.Absorbing)])
        {
            yield return new LargeAreaReading("over black", area, read, read, each, each);
        }

        yield return new CatalogEntry(
            ceramic, MaterialRole.Cement,
            new Provenance(DataOrigin.Invented, "όργανο", MeasurementGeometry.DiffuseDiffuse, null, ""));
    }

    private static IEnumerable<object> Drawn()
    {
        Material carrier = Make("φορέας", 0.2), dense = Make("πυκνό", 500);
        Drawdown Draw(double load, Material layer) => new(load, new DiscSet("στρώμα", 1.53,
            [.. new[] { Substrate.Black, Substrate.White }.Select(backing => DiscReading.Reflectance(
                "ξ", 0.05, new LayerStack([new Layer(layer, 0.05)], backing).Reflectance(), new Backing(backing, null),
                MeasurementGeometry.DiffuseSpecularIncluded, ReadingArea.Large))]));
        CharacterizationOptions options = new() { Model = TwoFluxModel.Instance };
        PigmentResult found = PigmentCharacterization.Find(
            "χρώμα", [Draw(0, carrier), Draw(1, Make("μίγμα", 20))], options: options);
        yield return found;
        yield return found.ToCarrier();
        yield return PigmentCharacterization.Find("χρώμα", [Draw(1, dense)], carrier, options);
        DiscSet surface = new("δείγμα", 1.53, [.. from mm in new[] { 0.3, 0.8, 2 } from white in new[] { 0, 0.4, 0.9 }
            let backing = Substrate.FromInternalReflectance("ξ", ReflectanceSpectrum.Uniform(Grid, white), 1.53)
            select DiscReading.Reflectance("ξ", mm, new LayerStack([new Layer(Make("δίσκος", 1), mm)], backing)
                .Reflectance(MeasurementGeometry.DiffuseSpecularIncluded), new Backing(backing, null),
                MeasurementGeometry.DiffuseSpecularIncluded, ReadingArea.Large)]);
        yield return SurfaceFit.Find(surface);
        yield return SurfaceFit.Find(new("δείγμα", 1.53, surface.Readings.Take(2)));
    }

    private static IEnumerable<object> Seen()
    {
        UncertainStack Stack(double mm) => new(
            new LayerStack([new Layer(Make("όψη", 0.8, isSure: true), mm), new Layer(Make("πυρήνας", 1), 0.5)],
                Substrate.White),
            [0.02, 0.02]);
        AppearanceOptions options = new(Colorimeter.D65TwoDegree, MeasurementGeometry.DiffuseSpecularIncluded)
        {
            Sampling = new SamplingOptions { Samples = 256 },
        };
        yield return Stack(0.5);
        yield return StackAppearance.Find(Stack(0.5), options);
        yield return StackAppearance.FindDifference(Stack(0.5), Stack(0.8), options);
    }

    private static IEnumerable<object> Photographed()
    {
        ChartPatch[] chart = [.. Enumerable.Range(0, 24).Select(i =>
        {
            Lab known = new(30 + (2.5 * i), (i * 37 % 41) - 20, (i * 23 % 43) - 21);
            Xyz xyz = known.ToXyz(Colorimeter.D65TwoDegree.White);
            return new ChartPatch(
                new PatchReading($"{i}", new CameraRgb(xyz.X / 110, xyz.Y / 110, xyz.Z / 120)), known);
        })];
        PatchReading[] teeth = [new("δόντι", new CameraRgb(0.4, 0.41, 0.3)), new("λάμψη", new CameraRgb(1, 0.9, 0.8))];
        yield return PhotographCharacterization.Find(
            new(TransferCurve.Linear, chart, Colorimeter.D65TwoDegree, teeth));
        yield return PhotographCharacterization.Find(
            new(TransferCurve.Power(2.2), [.. chart.Take(7)], Colorimeter.D65TwoDegree, teeth));
        yield return TransferCurve.Power(2.2);
        yield return TransferCurve.Linear;
        yield return new PhotographFinding(PhotographFindingKind.DisplayValues, TransferCurve.Srgb.Name);
    }

    private static IEnumerable<object> EveryKind()
    {
        foreach (CautionKind kind in Enum.GetValues<CautionKind>())
        {
            yield return new Caution(kind, "ξ", 0.5);
            yield return new Caution(kind, value: 0.5);
        }

        foreach (FindingKind kind in Enum.GetValues<FindingKind>())
        {
            yield return new Finding(555, kind, 0.1, 0.2, 0.3, 0.4, 1.5);
        }

        foreach (FindingKind kind in (FindingKind[])[
            FindingKind.Inconsistent, FindingKind.PoorFit, FindingKind.Undetermined,
            FindingKind.AbsorptionBelowDetection, FindingKind.ScatteringBelowDetection])
        {
            yield return new Finding(555, kind, 0.1, 0.2, 0.3, 0.4) { Case = "Pigment" };
        }

        yield return new Finding(555, FindingKind.Undetermined) { Case = "PigmentHidden" };
        yield return new Finding(null, FindingKind.Undetermined) { Case = "Surface" };
        yield return new Finding(null, FindingKind.PoorFit, 0.1, 0.2) { Case = "Surface" };
        yield return new Finding(555, FindingKind.Undetermined);
        yield return new Finding(555, FindingKind.AreaNotStated);
        yield return new Finding(555, FindingKind.LightLostSideways, 0.1);

        foreach (PhotographFindingKind kind in Enum.GetValues<PhotographFindingKind>())
        {
            yield return new PhotographFinding(kind, "ξ", 0.5, CameraChannel.Green);
        }

        foreach (UncertainInput input in Enum.GetValues<UncertainInput>())
        {
            yield return new Contribution(input, LayerRole.Core, "ξ", 1, 2, 0.5);
        }

        foreach (CorrectionMethod method in Enum.GetValues<CorrectionMethod>())
        {
            yield return new CorrectionEvaluation(method, CorrectionStatus.Evaluated, [1, 2]);
            yield return new CorrectionEvaluation(method, CorrectionStatus.TooFewPatches, null);
            yield return new CorrectionEvaluation(method, CorrectionStatus.NotDetermined, null);
        }

        yield return new MinimumThickness(null, null, null, 3, 0.9, null);
        yield return new Probability(1, 0, 256);
        yield return new Probability(0, 0, 256);
        foreach (InputProblemKind kind in Enum.GetValues<InputProblemKind>())
        {
            yield return new InputProblem(kind, "ποσότητα", "cervical", 0.5, "", 1, 2);
        }

        yield return new Crossing(1.234, true);
        yield return new Crossing(1.234, false);
        yield return new Interval(0.5, 1.5);
        yield return new ReadingOutlier("ξ", 450, 5);
        yield return new ReadingOutlier("ξ", 450, -5);
        yield return new DiscAdvice(0.4, 0.35);
        foreach (DiscGoal goal in Enum.GetValues<DiscGoal>())
        {
            PlannedDisc disc = new(goal, 0.8, [new Backing(Substrate.Black, null)], 0.1, 0.2);
            Zone zone = new("cervical", Substrate.Black, 1, MaskingReference.SelfBacked);
            yield return disc;
            yield return new DiscPlan(goal, "ξ", zone, 1.2, 0.3, 0.4, [], [disc], [disc], []);
            yield return new DiscPlan(goal, "ξ", zone, 1.2, null, 0.4, [], [disc], [], []);
        }

        foreach (DiscFindingKind kind in Enum.GetValues<DiscFindingKind>())
        {
            yield return new DiscFinding(kind, "ξ", 0.98);
        }

        yield return new DiscFinding(
            DiscFindingKind.NoDiscHelps, "ξ", 0.98, new Contribution(UncertainInput.Stump, null, null, 1, 2, 0.5));
        yield return new ThicknessRange(0.3, 4);
        yield return TransportModel.Default;
        yield return StrengthLimit.Of(0.8, StrengthScope.CoreAndVeneer);
        yield return CouplingMedium.Glycerine;
        yield return ColorCriterion.PerceptibilityThresholdCielab;
    }

    // A culture by its name with its own decimal separator, as programs without culture data know none.
    private sealed class Spoken : CultureInfo
    {
        public Spoken(string name, string separator = ",")
            : base("")
        {
            Name = name;
            NumberFormat = new NumberFormatInfo
            {
                NumberDecimalSeparator = separator, PercentDecimalSeparator = separator,
            };
        }

        public override string Name { get; }
    }
}
