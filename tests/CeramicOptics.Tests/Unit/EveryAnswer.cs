using CeramicOptics.Characterization;
using CeramicOptics.Characterization.Photographs;
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

namespace CeramicOptics.Tests.Unit;

/// <summary>
/// Answers and findings of every type and kind, from invented materials; names of the caller are Greek, so that a Latin
/// letter in what they say is a word of the library.
/// </summary>
internal static class EveryAnswer
{
    private static readonly WavelengthGrid Grid = CoarseData.Grid;

    public static IEnumerable<object> All() =>
    [
        .. Decided(), .. Delivered(), .. Characterized(), .. Drawn(), .. Seen(), .. Photographed(), .. EveryKind(),
        .. Repeated(),
    ];

    /// <summary>Results of every type, found and not made by hand.</summary>
    public static IEnumerable<Report> Results() => ((IEnumerable<object>)
        [.. Decided(), .. Delivered(), .. Characterized(), .. Drawn(), .. Seen(), .. Photographed()])
        .SelectMany(item => item as IEnumerable<object> ?? [item]).OfType<Report>();

    private static IEnumerable<object> Repeated() =>
    [
        ReplicateSummary.Of(Enumerable.Range(0, 6).Select(
            r => ReflectanceSpectrum.Uniform(Grid, r == 5 ? 0.9 : 0.5 + (0.001 * (r % 3))))),
        new ReplicateFinding(ReplicateFindingKind.Drift, null, null, 0.01, 0.001),
        new ReplicateFinding(ReplicateFindingKind.Drift, null, 450, -0.01, 0.001),
        new ReplicateFinding(ReplicateFindingKind.Outlier, 2, 450, -0.01, 0.001),
    ];

    private static Material Make(string name, double times, bool isSure = false) => new(
        name, TwoFluxModel.Instance, new(Grid, [0.3 * times, 0.12 * times, 0.06 * times, 0.03 * times]),
        new(Grid, [4 * times, 3.5 * times, 3 * times, 2.8 * times]), 1.53,
        isSure ? CoefficientUncertainty.OfScale(Grid, 0.02) : null);

    /// <summary>An answer of every decision.</summary>
    public static IEnumerable<object> Decided()
    {
        Substrate dark = Substrate.FromMeasuredColor(
            "σκούρο", new Lab(45, 5, 15), Colorimeter.D65TwoDegree, Grid, 1.54,
            MeasurementGeometry.DiffuseSpecularIncluded);
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
            Match.Find(crown.WithZones([
                new Zone("ζώνη", good, 1.3, crown.Zones[0].Reference)]), new MatchOptions([dense])).Closest!, changes);
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
        MapMesh square = MapMesh.FromTriangles([0, 0, 0, 1, 0, 0, 1, 1, 0, 0, 1, 0], [0, 1, 2, 0, 2, 3]);
        yield return SpreadMap.Compile(masked, [dark, good]).Over(
            square, [0.5, 2.9, double.NaN, 8], [0, 1, 0, 1], [0, 0, 1, 1]);
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
        yield return Recalibration.Find(ceramic, TwoFluxModel.Instance);
        DiscReading thick = Read("over black", 20, Substrate.Black), thickest = Read("over white", 20, Substrate.White);
        yield return DiscCharacterization.Find(new DiscSet("δείγμα", 1.53, [thick, thickest]));
        Restoration crown = new(
            [new Zone("ζώνη", Substrate.Black, 1, MaskingReference.SelfBacked)],
            new Ceramic("πυρήνας", 1, found.ToMaterial()), CouplingMedium.Water,
            ColorCriterion.AcceptabilityThreshold);
        yield return NextDisc.Find(crown, DiscGoal.Difference, discs);
        yield return NextDisc.FindForNew(
            crown, DiscGoal.Difference, discs.Readings.Take(2).Select(reading => reading.Backing!),
            MeasurementGeometry.DiffuseSpecularIncluded);
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
}
