using CeramicOptics.Decisions;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Restorations;
using static CeramicOptics.Tests.WallData;

namespace CeramicOptics.Tests.Unit;

public class MaskingTests
{
    [Theory]
    [MemberData(nameof(Models), MemberType = typeof(WallData))]
    public void All_crossings_of_a_curve_that_turns_back_are_found(string model)
    {
        // A thin layer passes a mid-grey target on its way from a dark stump to its own light colour: outside, inside,
        // outside.
        WallData data = Fine(model);
        Restoration crown = data.Crown(Zone(data.Dark, MaskingReference.SelfBacked,
            0.8)) with { WallRange = new ThicknessRange(0.1, 3) };
        Target target = Wish(crown.StackOver(data.Dark, 0.8).Reflectance());
        ZoneMasking zone = MaskingThickness.Find(crown.WithZones([crown.Zones[0].ComparedWith(target)])).Zones[0];
        Assert.Equal(MaskingOutcome.MaskedBetween, zone.Outcome);
        Assert.Equal([true, false], zone.Crossings.Select(crossing => crossing.IntoMasking));
        Assert.InRange(zone.Crossings[0].WallMm, 0.1, 0.8);
        Assert.InRange(zone.Crossings[1].WallMm, 0.8, 3);
        Assert.Equal(0.8, zone.Best.WallMm, 0.01);
        Assert.Equal(zone.Crossings[0].WallMm, zone.Limiting.WallMm);
        Assert.Equal(
            zone.Crossings.Select(crossing => (double?)crossing.WallMm),
            [zone.Minimum.ByColorMm, zone.Minimum.ByColorUpToMm]);

        // Ending the range inside the good part changes nothing at its beginning.
        Restoration shorter =
            crown.WithZones([crown.Zones[0].ComparedWith(target)]) with { WallRange = new ThicknessRange(0.1, 0.8) };
        ZoneMasking found = MaskingThickness.Find(shorter).Zones[0];
        Assert.Equal(MaskingOutcome.MaskedFrom, found.Outcome);
        Assert.Equal(zone.Crossings[0].WallMm, found.Minimum.ByColorMm!.Value, 1e-4);
        Assert.Equal(0.8, found.Minimum.ByColorUpToMm);
    }

    [Theory]
    [MemberData(nameof(Models), MemberType = typeof(WallData))]
    public void The_answer_meets_the_criterion_and_a_hair_less_does_not(string model)
    {
        WallData data = Fine(model);
        Restoration crown = data.Crown(Zone(data.Dark,
            MaskingReference.SelfBacked)) with { WallRange = new ThicknessRange(0.2, 5) };
        ZoneMasking zone = MaskingThickness.Find(crown).Zones[0];
        double mm = zone.Minimum.ByColorMm!.Value;
        Assert.Equal(MaskingOutcome.MaskedFrom, zone.Outcome);
        Assert.InRange(zone.Limiting.Difference, 1.8 - 1e-6, 1.8);
        Assert.Equal(1.8, At(mm), 1e-4);
        Assert.True(At(mm - 1e-3) > 1.8);
        double At(double wallMm) =>
            Worst(crown.StackOver(data.Dark, wallMm), MaskingReference.SelfBacked, 0, crown.Criterion, Lights[0]);
    }

    /// <summary>
    /// At 0.4 mm the two theories part by more than a unit; both models go through the same engine and each agrees with
    /// itself.
    /// </summary>
    [Theory]
    [MemberData(nameof(Models), MemberType = typeof(WallData))]
    public void A_thin_wall_is_judged_by_the_model_of_its_materials(string model)
    {
        WallData data = Coarse(model);
        Target wish = Wish(new LayerStack([new Layer(data.Body, 2)], data.Good).Reflectance());
        ColorReference[] references = [MaskingReference.SelfBacked, MaskingReference.Over(data.Good), wish];
        foreach (ColorReference reference in references)
        {
            foreach (Material core in (Material[])[data.Body, data.Dense])
            {
                Restoration crown = data.Crown(Zone(data.Dark, reference, 0.4), core) with { Viewing = TwoLights,
                    Glaze = new Layer(data.Glaze, 0.03) };
                LayerStack stack = new(
                    [new Layer(data.Glaze, 0.03), new Layer(core, 0.4), new Layer(data.Film, 0.05)], data.Dark);
                double direct = Worst(stack, reference, 1, crown.Criterion);
                Assert.Equal(direct, MaskingThickness.Find(crown).Zones[0].AtAvailable.Difference, 2e-3);
                Assert.Equal(direct, Decisions.Uncertainty.PredictionUncertainty.Find(crown).Zones[0].Difference, 2e-3);
                Assert.Equal(direct, MaskingThickness.FindCurve(crown, crown.Zones[0], [0.4]).Single().Difference,
                    2e-3);
            }
        }
    }

    [Fact]
    public void The_two_models_give_different_answers_for_the_same_numbers()
    {
        double Difference(string model)
        {
            WallData data = Fine(model);
            Restoration crown = data.Crown(Zone(data.Dark, MaskingReference.SelfBacked, 0.4));
            return MaskingThickness.Find(crown).Zones[0].AtAvailable.Difference;
        }

        Assert.True(
            Math.Abs(Difference("transport") - Difference("two-flux")) > 1,
            "the models differ here, so that agreement with one is not agreement with the other");
    }

    [Theory]
    [MemberData(nameof(Models), MemberType = typeof(WallData))]
    public void Several_illuminants_give_the_largest_of_the_single_answers_and_zones_stand_alone(string model)
    {
        WallData data = Fine(model);
        Colorimeter[] colorimeters = [Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree, new Colorimeter(
            Observer.Cie1931TwoDegree, Illuminant.F11)];
        Substrate[] stumps = [data.Good, data.Dark, Substrate.OpaqueMetal(
            "post", ReflectanceSpectrum.Uniform(data.Grid, 0.55))];
        Zone[] zones = [.. stumps.Select(stump => new Zone(stump.Name, stump, 1.2, MaskingReference.SelfBacked))];
        Restoration all = data.Crown(zones[0], data.Dense)
            .WithZones(zones) with { Viewing = new ViewingConditions { Colorimeters = colorimeters },
                WallRange = new ThicknessRange(0.1, 5) };
        MaskingResult result = MaskingThickness.Find(all);
        Assert.Equal(zones, result.Zones.Select(zone => zone.Zone));
        foreach (ZoneMasking zone in result.Zones)
        {
            ZoneMasking[] single = [.. colorimeters.Select(light => MaskingThickness.Find(
                all.WithZones([zone.Zone]) with
                {
                    Viewing = new ViewingConditions { Colorimeters = [light] },
                }).Zones[0])];
            double largest = single.Max(one => one.Minimum.ByColorMm!.Value);
            Assert.Equal(largest, zone.Minimum.ByColorMm!.Value, 1e-7);
            Assert.Same(
                colorimeters[Array.FindIndex(single, one => one.Minimum.ByColorMm == largest)],
                zone.Limiting.Colorimeter);
            Assert.Same(zone.Zone.Stump, zone.Limiting.Stump);
            Assert.Equal(single.Max(one => one.AtAvailable.Difference), zone.AtAvailable.Difference, 1e-9);
        }

        Assert.Equal(result.Zones.Max(zone => zone.AtAvailable.Difference), result.WorstDifference);
        Assert.Equal("dark", result.Limiting.Zone.Name);
    }

    [Fact]
    public void A_target_known_only_as_a_colour_is_used_as_it_is_and_estimated_elsewhere()
    {
        WallData data = Fine("two-flux");
        Lab color = new(75, 1, 15);
        Target target = Target.FromColor(
            "neighbour", color, Colorimeter.D65TwoDegree, MeasurementGeometry.DiffuseSpecularIncluded);
        Restoration one = data.Crown(Zone(data.Dark, target));
        MaskingResult found = MaskingThickness.Find(one);
        Assert.Equal(color, found.Zones[0].Limiting.Reference);
        Assert.DoesNotContain(found.Cautions, caution => caution.Kind == CautionKind.EstimatedSpectrum);
        Assert.Contains(
            MaskingThickness.Find(one with { Viewing = TwoLights }).Cautions,
            caution => caution.Kind == CautionKind.EstimatedSpectrum && caution.Subject == "neighbour");
        ViewingConditions elsewhere = new() { Geometry = MeasurementGeometry.FortyFiveZero };
        string message = Assert.Throws<ArgumentException>(
            () => MaskingThickness.Find(one with { Viewing = elsewhere })).Message;
        Assert.Contains(
            "Target 'neighbour' was read in DiffuseSpecularIncluded but the restoration is viewed in FortyFiveZero",
            message, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Models), MemberType = typeof(WallData))]
    public void A_clear_core_compared_with_itself_infinitely_thick_is_refused_by_name_everywhere(string model)
    {
        WallData data = Coarse(model);
        Material clear = With(data.Body, [0.1, 0.1, 0, 0.1], [3, 3, 0, 3], 1.5);
        Restoration crown = data.Crown(Zone(data.Dark, MaskingReference.SelfBacked), clear);
        foreach (Restoration one in (Restoration[])[crown, crown with { Veneer = Veneer.OfShare(data.Enamel, 0.3) }])
        {
            foreach (Action ask in (Action[])
                [
                    () => MaskingThickness.Find(one),
                    () => MaskingThickness.FindCurve(one, one.Zones[0], [1]),
                    () => GradeChoice.Find(one, [one.Core]),
                    () => Decisions.Uncertainty.PredictionUncertainty.Find(one),
                ])
            {
                string message = Assert.Throws<ArgumentException>(ask).Message;
                Assert.Contains("'moved' neither absorbs nor scatters at 600 nm", message, StringComparison.Ordinal);
                Assert.Contains(
                    "or with a target, instead of an infinitely thick layer", message, StringComparison.Ordinal);
            }
        }

        // With another reference it has an answer.
        double mm = 1.2;
        Restoration over = crown.WithZones([Zone(data.Dark, MaskingReference.Over(data.Good), mm)]);
        Assert.Equal(
            Worst(over.StackOver(data.Dark, mm), over.Zones[0].Reference, 0, over.Criterion, Lights[0]),
            MaskingThickness.Find(over).Zones[0].AtAvailable.Difference, 2e-3);
    }

    [Fact]
    public void What_cannot_be_asked_is_refused_by_name()
    {
        WallData data = Coarse("two-flux");
        Restoration crown = data.Crown(Zone(data.Dark, MaskingReference.SelfBacked, 3.5));
        Assert.Contains(
            "available thickness of zone 'cervical' must be in [0.2, 3] mm but is 3.5 mm",
            Assert.Throws<ArgumentOutOfRangeException>(() => MaskingThickness.Find(crown)).Message,
            StringComparison.Ordinal);
        Restoration fits = crown.WithZones([Zone(data.Dark, MaskingReference.SelfBacked)]);
        Assert.Contains(
            "thickness of the wall must be in [0.2, 3] mm but is 3.1 mm",
            Assert.Throws<ArgumentOutOfRangeException>(() => MaskingThickness.FindCurve(fits, fits.Zones[0],
            [1, 3.1])).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => MaskingThickness.FindCurve(fits, fits.Zones[0], []));
        Assert.Throws<ArgumentException>(() => GradeChoice.Find(fits, []));
        string message = Assert.Throws<ArgumentException>(
            () => MaskingThickness.Find(fits.WithCement(new Layer(Coarse("transport").Film, 0.05)))).Message;
        Assert.Contains(
            "'body' has K and S of two-flux theory but 'film' those of radiative transfer", message,
            StringComparison.Ordinal);
        using CancellationTokenSource cancelled = new();
        cancelled.Cancel();
        Assert.Throws<OperationCanceledException>(() => MaskingThickness.Find(fits, cancellation: cancelled.Token));
    }

    [Fact]
    public void Progress_reaches_one_zone_by_zone()
    {
        WallData data = Coarse("two-flux");
        Restoration crown = data.Crown(Zone(data.Dark, MaskingReference.SelfBacked));
        Restoration two = crown.WithZones(
            [crown.Zones[0], new Zone("body", data.Good, 1, MaskingReference.SelfBacked)]);
        Reports reports = new();
        MaskingThickness.Find(two, progress: reports);
        Assert.Equal([0.5, 1], reports.Values);
        reports.Values.Clear();
        GradeChoice.Find(
            two, [data.Times(1, 1), data.Times(2, 2), data.Times(3, 3), data.Times(4, 4)], progress: reports);
        Assert.Equal([0.25, 0.5, 0.75, 1], reports.Values);
        reports.Values.Clear();
        Decisions.Uncertainty.PredictionUncertainty.Find(two, progress: reports);
        Assert.Equal([0.5, 1], reports.Values);
    }

    /// <summary>
    /// What is shown is enough: rounded up, never below the thickness itself, rounding errors of 1e-9 mm aside.
    /// </summary>
    [Fact]
    public void A_displayed_thickness_is_never_below_the_value()
    {
        Random random = new(4);
        double A(int i) => i % 2 == 0 ? 5 * random.NextDouble() : (i / 100.0) + (Math.BitIncrement(1) - 1);
        foreach (double mm in Enumerable.Range(0, 20_000).Select(A))
        {
            double shown = MinimumThickness.RoundedUp(mm);
            Assert.InRange(shown, mm - 1e-9, mm + 0.01 + 1e-12);
            MinimumThickness minimum = new(mm, mm, 0.01, 1000, 0.95, null);
            string text = minimum.ToString();
            Assert.InRange(
                double.Parse(text.Split(' ')[2], System.Globalization.CultureInfo.InvariantCulture), mm - 1e-9,
                mm + 0.01 + 1e-12);
        }

        foreach (double exact in (double[])[0, 0.01, 0.29, 0.57, 1.1, 1.13, 1.54, 2.3, 99.99])
        {
            Assert.Equal(exact, MinimumThickness.RoundedUp(exact));
        }

        Assert.Equal(1.11, MinimumThickness.RoundedUp(1.1 + 1e-8));
        Assert.Equal(0.6, MinimumThickness.RoundedUp(Math.BitIncrement(0.6)));
        Assert.Equal(
            "at least 1.55 mm (by colour 1.39, reliable for 95 % of pieces 1.55, strength 0.81)",
            new MinimumThickness(1.381, 1.541, 0.8001, 3, 0.95, null).ToString());
        Assert.Equal(
            "no thickness suggested (by colour none, reliable for 90 % of pieces none, strength not given)",
            new MinimumThickness(null, null, null, 3, 0.9, null).ToString());
        Assert.Contains(
            "of 0.81 mm", new Caution(CautionKind.BelowStructuralMinimum, "cervical", 0.804).ToString(),
            StringComparison.Ordinal);
        Assert.Contains(
            "of 0.81 mm", new Caution(CautionKind.StructuralMinimumGoverns, "cervical", 0.804).ToString(),
            StringComparison.Ordinal);
    }

    private sealed class Reports : IProgress<double>
    {
        public List<double> Values { get; } = [];

        public void Report(double value) => Values.Add(value);
    }
}
