using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Exchange;
using CeramicOptics.Restorations;
using static CeramicOptics.Tests.WallData;

namespace CeramicOptics.Tests.Unit;

/// <summary>What results about thickness must say, and when.</summary>
public class MaskingCautionTests
{
    /// <summary>L* of Y = 0.3 is 116 times its cube root less 16 (CIE 15).</summary>
    [Fact]
    public void A_target_known_by_its_colour_loses_light_as_a_grey_of_its_luminance()
    {
        const MeasurementGeometry geometry = MeasurementGeometry.DiffuseSpecularIncluded;
        Target color = Target.FromColor(
            "color", new Lab((116 * Math.Cbrt(0.3)) - 16, 0, 0), Colorimeter.D65TwoDegree, geometry);
        Target grey = Target.FromReflectance(
            "grey", ReflectanceSpectrum.Uniform(WavelengthGrid.Range(400, 700, 50), 0.3), geometry);
        Assert.InRange(grey.LostShare(), 0.01, 0.9);
        Assert.Equal(grey.LostShare(), color.LostShare(), 1e-9);
    }

    [Fact]
    public void Cautions_name_what_was_assumed()
    {
        WallData data = Coarse("two-flux");
        Substrate estimated = Substrate.FromMeasuredColor(
            "chairside", new Lab(45, 5, 15), Colorimeter.D65TwoDegree, data.Grid, 1.54,
            MeasurementGeometry.DiffuseSpecularIncluded);
        Target wish = Target.FromColor(
            "wish", new Lab(70, 3, 15), Colorimeter.D65TwoDegree, MeasurementGeometry.DiffuseSpecularIncluded);
        Restoration crown = new(
            [Zone(estimated, wish)], new Ceramic("made up", 2, data.Plain), CouplingMedium.Water,
            ColorCriterion.AcceptabilityThreshold) { Viewing = TwoLights };
        double held = Lights.Max(light => light.Weighting(data.Grid).HeldFraction);
        Assert.NotEqual(held, Lights.Min(light => light.Weighting(data.Grid).HeldFraction));
        foreach (IReadOnlyList<Caution> cautions in (IReadOnlyList<Caution>[])
            [MaskingThickness.Find(crown).Cautions, PredictionUncertainty.Find(crown).Cautions, GradeChoice.Find(
                crown, [crown.Core]).Cautions])
        {
            string[] texts = [.. cautions.Select(caution => caution.ToString())];
            Assert.Contains("The uncertainty of K and S of 'plain' is not known and therefore not included.", texts);
            Assert.Contains(
                "Only the colour of 'chairside' is known; where a spectrum was needed, the smoothest one of that "
                    + "colour was used. The real spectrum differs.", texts);
            Assert.Contains(
                "Only the colour of 'wish' is known; where a spectrum was needed, the smoothest one of that colour "
                    + "was used. The real spectrum differs.", texts);
            Assert.Contains(
                "No strength limit was given for plain, so no thickness is suggested; the thicknesses "
                    + "shown concern colour alone.", texts);
            Assert.Contains(
                texts,
                text => text.StartsWith("Masking is not strength: the minimum thickness for strength",
                StringComparison.Ordinal));
            Assert.Contains(
                texts, text => text.StartsWith("How much tooth may be removed to make room", StringComparison.Ordinal));
            Assert.Contains(
                texts,
                text => text.StartsWith(
                    "K and S are constants of two-flux theory. Its own error, a standard uncertainty of up to",
                StringComparison.Ordinal));
            string share = FormattableString.Invariant($"affects up to {100 * held:0.0} % of a tristimulus value.");
            Assert.Contains(
                "The spectra do not cover the whole visible range; their end values were continued, which " + share,
                texts);
            // Masking adds that no wall of the range masks.
            Assert.Contains(
                texts,
                text => text.StartsWith(
                    "The area that the instrument illuminated and measured of 'chairside' is not stated and is taken "
                        + "as large. A window of 2 mm radius loses about ", StringComparison.Ordinal));
            Assert.InRange(
                cautions.Single(said => said.Kind == CautionKind.AreaNotStated && said.Subject == "wish").Value!.Value,
                0.2, 0.5);
            Assert.Equal(10, cautions.Where(said => said.Kind != CautionKind.NotReliable).Distinct().Count());
        }
    }

    /// <summary>Films of cement are 0.02 to 0.2 mm thick (common practice, no source).</summary>
    [Theory]
    [InlineData(0.2, false)]
    [InlineData(0.5, true)]
    public void A_thick_film_of_cement_is_said(double filmMm, bool isSaid)
    {
        WallData data = WallData.Coarse("two-flux");
        Restoration crown = data.Crown(WallData.Zone(data.Dark, MaskingReference.SelfBacked)).WithCement(
            new Layer(data.Film, filmMm));
        Caution[] thick = [.. MaskingThickness.Find(crown).Cautions.Where(one => one.Kind == CautionKind.ThickCement)];
        Assert.Equal(isSaid ? [("film", 0.5)] : [], thick.Select(one => (one.Subject!, one.Value!.Value)));
    }

    /// <summary>
    /// All is known, measured over the whole visible range, and of the exact model: strength and tooth remain.
    /// </summary>
    [Fact]
    public void A_clean_case_says_strength_and_tooth_alone()
    {
        WavelengthGrid full = WavelengthGrid.Range(360, 830, 10);
        Material whole = new(
            "whole", ModelOf("transport"), AbsorptionSpectrum.Uniform(full, 0.1), ScatteringSpectrum.Uniform(full, 8),
            1.5, CoefficientUncertainty.OfScale(full, 0.01));
        Substrate stump = Substrate.FromInternalReflectance("stump", ReflectanceSpectrum.Uniform(full, 0.3), 1.5);
        Restoration crown = new(
            [Zone(stump, MaskingReference.SelfBacked, 2)],
            new Ceramic("made up", 1, whole) { Strength = StrengthLimit.Of(0.5) }, CouplingMedium.Glycerine,
            ColorCriterion.AcceptabilityThreshold)
        {
            WallRange = new ThicknessRange(0.5, 2.5),
        };
        MaskingResult clean = MaskingThickness.Find(crown);
        Assert.True(clean.Zones[0].Minimum.ReliableMm > 0.5);
        CautionKind[] expected = [CautionKind.StrengthNotAssessed, CautionKind.ToothReduction];
        Assert.Equal(expected, clean.Cautions.Select(caution => caution.Kind));
        Assert.Equal(expected, PredictionUncertainty.Find(crown).Cautions.Select(caution => caution.Kind));
    }

    /// <summary>
    /// A limit on the core counts the core alone, so that under a veneer the wall must be thicker, by share or by the
    /// veneer's own thickness.
    /// </summary>
    [Theory]
    [MemberData(nameof(Models), MemberType = typeof(WallData))]
    public void A_core_thinner_than_its_limit_under_a_veneer_is_below_the_structural_minimum(string model)
    {
        WallData data = Coarse(model);
        Ceramic Core(StrengthScope scope) => new("made up", 1, data.Dense) { Strength = StrengthLimit.Of(0.8, scope) };
        Restoration crown = data.Crown(Zone(data.Dark, MaskingReference.SelfBacked, 1));
        foreach ((Veneer veneer, double core, double wall) in ((Veneer, double, double)[])
            [(Veneer.OfShare(data.Enamel, 0.3), 0.7, 0.8 / 0.7), (Veneer.OfThickness(data.Enamel, 0.35), 0.65, 1.15)])
        {
            Restoration coreAlone = crown.WithCore(Core(StrengthScope.Core)) with { Veneer = veneer },
                both = crown.WithCore(Core(StrengthScope.CoreAndVeneer)) with { Veneer = veneer };
            Assert.Equal(core, coreAlone.StackOver(data.Dark, 1).Layers[1].ThicknessMm, 1e-12);
            MaskingResult weak = MaskingThickness.Find(coreAlone), strong = MaskingThickness.Find(both);
            Assert.Equal(wall, weak.Zones[0].Minimum.StructuralMm!.Value, 1e-12);
            Assert.Equal(0.8, strong.Zones[0].Minimum.StructuralMm!.Value, 1e-12);
            Caution said = Assert.Single(weak.Cautions, caution => caution.Kind == CautionKind.BelowStructuralMinimum);
            Assert.Equal("cervical", said.Subject);
            Assert.Equal(wall, said.Value!.Value, 1e-12);
            Assert.False(weak.IsReliable);
            Assert.Contains(
                PredictionUncertainty.Find(coreAlone).Cautions,
                caution => caution.Kind == CautionKind.BelowStructuralMinimum);
            Assert.DoesNotContain(strong.Cautions, caution => caution.Kind == CautionKind.BelowStructuralMinimum);
            Assert.DoesNotContain(
                PredictionUncertainty.Find(both).Cautions,
                caution => caution.Kind == CautionKind.BelowStructuralMinimum);
        }
    }

    [Fact]
    public void A_limit_of_one_zone_alone_leaves_the_others_without_a_recommendation()
    {
        WallData data = Coarse("two-flux");
        Zone strong = new("cervical", data.Good, 1.2, MaskingReference.SelfBacked) { Strength = StrengthLimit.Of(0.7) },
            open = new("edge", data.Good, 1.2, MaskingReference.SelfBacked);
        Restoration crown = data.Crown(strong).WithZones([strong, open]).WithCore(data.Times(1, 10));
        MaskingResult result = MaskingThickness.Find(crown);
        Assert.Equal(Math.Max(0.7, result.Zones[0].Minimum.ReliableMm!.Value), result.Zones[0].Minimum.RecommendedMm);
        Assert.Null(result.Zones[1].Minimum.RecommendedMm);
        Assert.Contains(result.Cautions, caution => caution.Kind == CautionKind.StrengthLimitNotGiven);
        Assert.Equal(
            0.9,
            crown.WithCore(new Ceramic("x", 1,
            data.Body) { Strength = StrengthLimit.Of(0.9) }).StructuralMinimumMm(strong));
    }

    /// <summary>
    /// A colour carried to another geometry goes by way of an estimated spectrum, and results say so.
    /// </summary>
    [Fact]
    public void A_target_converted_from_a_colour_stays_an_estimate()
    {
        WallData data = Coarse("two-flux");
        Target wish = Target.FromColor(
            "wish", new Lab(75, 1, 15), Colorimeter.D65TwoDegree, MeasurementGeometry.FortyFiveZero);
        Target seen = wish.ReadIn(MeasurementGeometry.DiffuseSpecularIncluded, 1.6, data.Grid);
        MaskingResult result = MaskingThickness.Find(data.Crown(Zone(data.Dark, seen)));
        Assert.Equal(
            "wish", Assert.Single(result.Cautions, said => said.Kind == CautionKind.EstimatedSpectrum).Subject);

        // There and back is the colour again; the specular share makes the one reading lighter than the other.
        Target back = seen.ReadIn(MeasurementGeometry.FortyFiveZero, 1.6, data.Grid);
        Lab color = Colorimeter.D65TwoDegree.ToLab(back.Spectrum!);
        Assert.Equal(75, color.L, 0.01);
        Assert.Equal(15, color.B, 0.01);
        Assert.True(Colorimeter.D65TwoDegree.ToLab(seen.Spectrum!).L > 75.5);
    }

    /// <summary>Room that is exactly what strength asks is enough, also after shares of decimal numbers.</summary>
    [Fact]
    public void Exactly_the_structural_minimum_is_enough()
    {
        WallData data = Coarse("two-flux");
        Restoration crown = data.Crown(
            Zone(data.Dark, MaskingReference.SelfBacked, 0.8) with { Strength = StrengthLimit.Of(0.56) }) with
        {
            Veneer = Veneer.OfShare(data.Enamel, 0.3),
        };
        Assert.Equal(0.8, crown.StructuralMinimumMm(crown.Zones[0])!.Value, 1e-12);
        Assert.DoesNotContain(
            MaskingThickness.Find(crown).Cautions, said => said.Kind == CautionKind.BelowStructuralMinimum);
    }

    /// <summary>
    /// Too little room for the reliable wall, or for strength, is said with zone and missing millimetres; enough room
    /// is
    /// not said.
    /// </summary>
    [Fact]
    public void A_wall_that_does_not_fit_is_said_with_zone_and_missing_room()
    {
        WallData data = Coarse("two-flux");
        Restoration In(double roomMm, double strengthMm) => data.Crown(
            Zone(data.Dark, MaskingReference.SelfBacked, roomMm) with { Strength = StrengthLimit.Of(strengthMm) },
            data.Dense);
        double reliable = MaskingThickness.Find(In(1.2, 0.3)).Zones[0].Minimum.ReliableMm!.Value;
        foreach ((double room, double strength, double missing) in ((double, double, double)[])
            [(reliable - 0.1, 0.3, 0.1), (reliable + 0.1, 0.3, 0), (reliable + 0.1, reliable + 0.25, 0.15)])
        {
            MaskingResult result = MaskingThickness.Find(In(room, strength));
            Caution[] said = [.. result.Cautions.Where(caution => caution.Kind == CautionKind.DoesNotFit)];
            Assert.Equal(missing > 0 ? ["cervical"] : [], said.Select(caution => caution.Subject!));
            Assert.All(said, caution => Assert.Equal(missing, caution.Value!.Value, 1e-9));
            Assert.Equal(missing > 0, !result.IsReliable);
        }

        Assert.Equal(
            "Die nötige Wand passt nicht in Zone „zervikal“: Es fehlen 0,11 mm Platz; deshalb wird dort keine "
                + "vorgeschlagen.",
            new Caution(CautionKind.DoesNotFit, "cervical", 0.104).ToString(Language.German));
    }

    /// <summary>
    /// In a ranking, what strength says of a zone names the ceramic it is about, unless it holds for all.
    /// </summary>
    [Fact]
    public void A_ranking_names_the_ceramic_whose_strength_is_meant()
    {
        WallData data = Coarse("two-flux");
        Restoration crown = data.Crown(Zone(data.Dark, MaskingReference.SelfBacked), data.Dense);
        Ceramic Of(string name, double strengthMm) => new(name, 1, data.Make(name, 0.02, 0.14, 30, 2.15))
        {
            Strength = StrengthLimit.Of(strengthMm),
        };
        GradeRanking ranking = GradeChoice.Find(crown, [Of("tough", 0.3), Of("weak", 1.15), Of("brittle", 1.5)]);
        Assert.Equal(
            [
                ("weak", CautionKind.StructuralMinimumGoverns, 1.15),
                ("brittle", CautionKind.StructuralMinimumGoverns, 1.5),
                ("brittle", CautionKind.BelowStructuralMinimum, 1.5),
            ],
            ranking.Cautions.Where(said => said.Ceramic is not null)
                .Select(said => (said.Ceramic!, said.Kind, said.Value!.Value))
                .OrderByDescending(said => said.Item1).ThenBy(said => said.Kind));
        Caution governs = ranking.Cautions.Single(said => said.Ceramic == "weak");
        Assert.Equal("cervical", governs.Subject);
        Assert.StartsWith("weak: The structural minimum of 1.15 mm in zone 'cervical'", governs.ToString());
        Assert.StartsWith("weak: Die Mindestwandstärke", governs.ToString(Language.German));
        Assert.Equal(ranking.Cautions, ResultDocument.Parse(ResultJson.ToJson(ranking)).Cautions);

        GradeRanking alike = GradeChoice.Find(crown, [Of("one", 1.15), Of("other", 1.15)]);
        Assert.All(alike.Cautions, said => Assert.Null(said.Ceramic));
        Assert.Single(alike.Cautions, said => said.Kind == CautionKind.StructuralMinimumGoverns);
    }

    /// <summary>
    /// In a ranking, what holds for some ceramics is not said of a zone: it would be false of others.
    /// </summary>
    [Fact]
    public void A_ranking_counts_the_ceramics_that_do_not_fit_or_mask()
    {
        WallData data = Coarse("two-flux");
        Restoration In(double roomMm) => data.Crown(
            Zone(data.Dark, MaskingReference.SelfBacked, roomMm) with { Strength = StrengthLimit.Of(0.3) }, data.Dense);
        double room = Math.Max(0.3, MaskingThickness.Find(In(1)).Zones[0].Minimum.ReliableMm!.Value) + 0.05;
        Ceramic looser = new("made up", 2, data.Make("looser", 0.02, 0.14, 5.5, 2.15));
        GradeRanking ranking = GradeChoice.Find(
            In(room), [data.Times(1, 0.1), looser, new Ceramic("made up", 4, data.Dense)]);
        Assert.NotNull(ranking.Suggested);
        foreach (CautionKind kind in (CautionKind[])[CautionKind.NotReliable, CautionKind.DoesNotFit])
        {
            int concerned = ranking.Assessments.Count(assessment => assessment.Masking.Zones.Any(
                zone => kind == CautionKind.NotReliable ? zone.Minimum.ReliableMm is null
                    : Math.Max(zone.Minimum.ReliableMm ?? 0, 0.3) > room));
            Assert.InRange(concerned, 1, 2);
            Caution said = Assert.Single(ranking.Cautions, caution => caution.Kind == kind);
            Assert.Null(said.Subject);
            Assert.Equal(concerned, said.Value);
            Assert.StartsWith($"{concerned} ", said.ToString().Replace("With ", "", StringComparison.Ordinal));
            Assert.All(
                ranking.Suggested!.Masking.Cautions, caution => Assert.NotEqual(kind, caution.Kind));
        }

        ResultDocument read = ResultDocument.Parse(ResultJson.ToJson(ranking));
        Assert.Equal(ranking.Cautions, read.Cautions);
    }
}
