using System.Text.Json.Nodes;
using CeramicOptics.Decisions.Delivered;
using CeramicOptics.Exchange;
using CeramicOptics.Restorations;
using Json.Schema;
using static CeramicOptics.Tests.InventedData;

namespace CeramicOptics.Tests.Unit;

/// <summary>The record of delivered work and what it teaches, on invented pieces by two-flux theory.</summary>
public class DeliveredTests
{
    private const string Batch = "A";

    private static readonly Ceramic Known = GlassCeramic(3);
    private static readonly Substrate[] Stumps = [LightTooth, BrownTooth, NearlyBlackTooth];
    private static readonly double[] Walls = [0.6, 0.8, 1.0, 1.3];

    // Only K and S can be wrong, and readings are nearly exact.
    private static readonly CorrectionOptions OnlyScales =
        new() { CommonShare = 1, FurnaceColor = 0, ReadingColor = 0.01 };

    private static readonly InputUncertainty Exact = new()
    {
        CoreMm = 0, CementMm = 0, StumpReflectance = 0, ModelColor = 0,
    };

    [Fact]
    public void True_scales_of_absorption_and_scattering_are_found()
    {
        Material truth = Scaled(Known.Material, 1.12, 0.93);
        CorrectionResult result = Correction.Find(
            Record((plan, mm) => ColorOf(plan.WithCore(new Ceramic("Meadow", 3, truth)), mm)),
            piece => PlanOf(piece) with { Uncertainty = Exact }, OnlyScales);
        Material corrected = result.MaterialFor(Known.Material, Batch);
        for (int i = 0; i < Grid.Count; i++)
        {
            Assert.Equal(1.12, corrected.Absorption[i] / Known.Material.Absorption[i], 0.004);
            Assert.Equal(0.93, corrected.Scattering[i] / Known.Material.Scattering[i], 0.002);
        }

        Assert.Equal($"{Known.Material.Name}, batch A (corrected by 12 delivered pieces)", corrected.Name);
        Material other = Scaled(Known.Material, 1.01, 1);
        Assert.Contains(
            "has other K and S", Assert.Throws<ArgumentException>(() => result.MaterialFor(other, Batch)).Message,
            StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => result.PredictionFor(
            Plan(LightTooth, 1).WithCore(new Ceramic("Meadow", 3, other)), Batch));
        Assert.InRange(corrected.Uncertainty!.RelativeScale, 1e-5, 0.005);
        Assert.All(result.Pieces, piece => Assert.True(piece.IsUsed && piece.DifferenceAfter < 0.02, piece.ToString()));
        CorrectedQuantity absorption = result.Quantities.Single(q => q.Kind == CorrectedKind.AbsorptionScale);
        Assert.Equal((1.0, 0.05), (absorption.Before, Math.Round(absorption.BeforeUncertainty, 12)));
        Assert.DoesNotContain(result.Findings, finding => finding.Kind == CorrectionFindingKind.NotSettled);
    }

    /// <summary>Slopes compared with differences of stacks that are evaluated directly.</summary>
    [Theory]
    [InlineData(0.7)]
    [InlineData(1.1)]
    public void Slopes_are_those_of_stacks_evaluated_directly(double mm)
    {
        Restoration plan = Plan(BrownTooth, mm);
        DeliveredWall wall = new(plan, 0, 0, 0, new ThicknessRange(0.5, 1.4), default);
        PieceColor color = wall.At(BrownTooth, 0, mm);
        Lab Of(double k = 1, double s = 1, double thicker = 0, double film = 0) => Colorimeter.D65TwoDegree.ToLab(
            new LayerStack(
                [new Layer(Scaled(Known.Material, k, s), mm + thicker), new Layer(Cement.Material, 0.05 + film)],
                BrownTooth).Reflectance());
        Assert.True(ColorDifference.Cie76(Of(), color.Color) < 1e-3);
        Close(color.Absorption, Of(k: 1.01), Of(k: 0.99));
        Close(color.Scattering, Of(s: 1.01), Of(s: 0.99));
        Close(color.Wall, Of(thicker: 0.01), Of(thicker: -0.01));
        Close(color.Film, Of(film: 0.01), Of(film: -0.01));

        // All differences are over 0.02. The engine's slopes are right to about one per cent of their size.
        static void Close(ColorDeviation slope, Lab high, Lab low)
        {
            double l = (high.L - low.L) / 0.02, a = (high.A - low.A) / 0.02, b = (high.B - low.B) / 0.02;
            double size = Math.Sqrt((l * l) + (a * a) + (b * b));
            Assert.Equal(l, slope.L, 0.03 * size);
            Assert.Equal(a, slope.A, 0.03 * size);
            Assert.Equal(b, slope.B, 0.03 * size);
        }
    }

    /// <summary>K, S and the film moved together, compared with the stack that they make; no film below zero.</summary>
    [Theory]
    [InlineData(0.03, 0.08)]
    [InlineData(-0.09, 0)]
    public void A_corrected_wall_has_the_colour_of_its_stack(double moreFilm, double filmMm)
    {
        Restoration plan = Plan(BrownTooth, 1).WithCement(new Layer(Scaled(Cement.Material, 6, 6), 0.05));
        DeliveredWall wall = new(
            plan, Math.Log(1.2), Math.Log(0.9), moreFilm, new ThicknessRange(0.5, 1.4), default);
        LayerStack stack = new(
            [new Layer(Scaled(Known.Material, 1.2, 0.9), 0.8), new Layer(plan.Cement!.Material, filmMm)], BrownTooth);
        Lab expected = Colorimeter.D65TwoDegree.ToLab(stack.Reflectance());
        Assert.Equal(0, ColorDifference.Cie76(expected, wall.At(BrownTooth, 0, 0.8).Color), 1e-3);
    }

    [Fact]
    public void One_piece_moves_little_and_many_move_far()
    {
        Lab Lighter(Restoration plan, double mm) => Moved(ColorOf(plan, mm), 2);
        DeliveredRecord all = Record(Lighter);
        double Learned(int count)
        {
            DeliveredRecord record = DeliveredRecord.Start("few").Append(all.Pieces.Take(count));
            CorrectedPrediction next = Correction.Find(record, PlanOf)
                .PredictionFor(Plan(LightTooth, 0.9), Batch, "left");
            return next.Color.L - next.AsGiven.L;
        }

        double one = Learned(1), twelve = Learned(12);
        Assert.InRange(one, 0.2, 1.6);
        Assert.InRange(twelve, one, 2.1);
        Assert.Equal(
            CorrectionFindingKind.FewPieces,
            Correction.Find(DeliveredRecord.Start("few").Append(all.Pieces[0]), PlanOf).Findings[0].Kind);
    }

    /// <summary>The colour of a piece over a stump of which only the colour is known rests on an estimate.</summary>
    [Fact]
    public void Prediction_carries_the_cautions_of_its_plan()
    {
        CorrectionResult result = Correction.Find(Record(ColorOf), PlanOf);
        Restoration plan = Plan(
            Substrate.FromMeasuredColor("brown", new Lab(50, 8, 20), Colorimeter.D65TwoDegree, Grid, 1.54,
                MeasurementGeometry.DiffuseSpecularIncluded), 1);
        IReadOnlyList<Caution> cautions = result.PredictionFor(plan, Batch).Cautions;
        Assert.Contains(cautions, caution => caution.Kind == CautionKind.StrengthNotAssessed);
        Assert.Contains(cautions, caution => caution.Kind == CautionKind.ToothReduction);
        Assert.Contains(
            cautions, caution => caution is { Kind: CautionKind.EstimatedSpectrum, Subject: "brown" });
        Assert.DoesNotContain(
            result.PredictionFor(Plan(LightTooth, 1), Batch).Cautions,
            caution => caution.Kind == CautionKind.EstimatedSpectrum);
    }

    [Fact]
    public void Ten_equal_pieces_say_that_they_tell_little()
    {
        DeliveredRecord record = DeliveredRecord.Start("equal").Append(Enumerable.Range(1, 10).Select(i => Piece(
            $"crown {i}", i, Plan(BrownTooth, 1), Moved(ColorOf(Plan(BrownTooth, 1), 1), 1.5))));
        CorrectionResult result = Correction.Find(record, PlanOf);
        CorrectionFinding finding = Assert.Single(
            result.Findings, finding => finding.Kind == CorrectionFindingKind.EqualPieces);
        Assert.Equal(10, finding.Value);
        Assert.Contains("cannot be told apart", finding.ToString(), StringComparison.Ordinal);
        CorrectedQuantity[] alike =
        [
            .. result.Quantities.Where(q => q.Kind is CorrectedKind.WallThickness or CorrectedKind.ScatteringScale),
        ];
        Assert.Equal(2, alike.Select(quantity => quantity.Kind).Distinct().Count());
        Assert.All(alike, quantity => Assert.True(quantity.Learned < 0.5, quantity.ToString()));
    }

    [Fact]
    public void Piece_of_another_ceramic_is_found_and_left_out()
    {
        DeliveredRecord record = Record(ColorOf);
        Lab wrong = ColorOf(Plan(BrownTooth, 1).WithCore(GlassCeramic(6)), 1);
        DeliveredPiece odd = Piece("odd", 20, Plan(BrownTooth, 1), wrong);
        CorrectionResult without = Correction.Find(record, PlanOf), with = Correction.Find(record.Append(odd), PlanOf);
        CorrectionFinding finding = Assert.Single(
            with.Findings, finding => finding.Kind == CorrectionFindingKind.OutlyingPiece);
        Assert.Equal("odd", finding.Subject);
        Assert.False(with.Pieces[^1].IsUsed);
        for (int q = 0; q < without.Quantities.Count; q++)
        {
            Assert.Equal(without.Quantities[q].After, with.Quantities[q].After, 0.01);
        }
    }

    [Fact]
    public void Prediction_by_other_constants_is_noticed()
    {
        Restoration plan = Plan(LightTooth, 1);
        Lab old = ColorOf(plan.WithCore(GlassCeramic(4)), 1);
        DeliveredPiece piece = new(
            "crown 1", new DateTime(2026, 1, 2), Known.Material.Name, Batch, 1, LightTooth.Name, Reading(old),
            Reading(ColorOf(plan, 1))) { Cement = Cement.Material.Name };
        Assert.Contains(
            Correction.Find(DeliveredRecord.Start("laboratory").Append(piece), PlanOf).Findings,
            finding => finding.Kind == CorrectionFindingKind.OtherPrediction && finding.Subject == "crown 1");
    }

    [Fact]
    public void Groups_are_by_what_is_asked_for()
    {
        DeliveredRecord record = Record((plan, mm) => Moved(ColorOf(plan, mm), 1));
        AgreementGroup all = Assert.Single(Agreement.Find(record, AgreementBy.All));
        Assert.Equal((12, 1.0), (all.Pieces.Count, Math.Round(all.MeanDeviation.L, 9)));
        Assert.Equal(1, all.L!.Bias, 1e-9);
        Assert.Equal(0, all.L.StandardDeviation, 1e-9);
        Assert.Equal(["left", "right"], Agreement.Find(record, AgreementBy.Furnace).Select(group => group.Name));
        AgreementGroup batch = Assert.Single(Agreement.Find(record, AgreementBy.Batch));
        Assert.Equal((Known.Material.Name, Batch), (batch.Name, batch.Batch));
        Assert.Equal(Cement.Material.Name, Agreement.Find(record, AgreementBy.Cement).Single().Name);
        Assert.Null(Agreement.Find(DeliveredRecord.Start("two").Append(record.Pieces.Take(2)), AgreementBy.All)[0].L);
        Assert.True(all.Difference!.Lower >= 0);
    }

    [Fact]
    public void Drift_shows_which_way_and_progress_ends_at_one()
    {
        DeliveredRecord record = Record(ColorOf);
        DeliveredRecord darker = record.Append(Enumerable.Range(1, 8).Select(i => Piece(
            $"late {i}", 40 + i, Plan(LightTooth, 1), Moved(ColorOf(Plan(LightTooth, 1), 1), -3))));
        List<double> told = [];
        DriftResult result = Drift.Find(darker, PlanOf, progress: new Immediate(told.Add));
        Assert.Equal(1, told[^1]);
        Assert.Empty(Drift.Find(record, PlanOf).Alarms);
        Assert.True(result.Alarms[0].Shift.L < -0.5, result.Alarms[0].ToString());
        Assert.StartsWith("late", result.Alarms[0].Piece.Name, StringComparison.Ordinal);
        Assert.Equal(500, result.AverageRunLength, 1.0);
    }

    [Fact]
    public void File_follows_the_schema_reads_back_and_only_grows()
    {
        DeliveredRecord record = Record(ColorOf);
        ReflectanceSpectrum spectrum = Plan(LightTooth, 1).StackOver(LightTooth, 1).Reflectance();
        record = record.Append(new DeliveredPiece(
            "fired", new DateTime(2026, 3, 1), Known.Material.Name, "B", 1, LightTooth.Name,
            Reading(new Lab(70, 1, 15)),
            ColorReading.FromReflectance(
                spectrum, Colorimeter.ATwoDegree, MeasurementGeometry.DiffuseSpecularIncluded)));
        byte[] text = Text(record);
        JsonSchema schema = JsonSchema.FromText(
            File.ReadAllText(Repository.PathOf("docs", "schema", "delivered-record.schema.json")));
        Assert.True(schema.Evaluate(JsonNode.Parse(text)).IsValid);
        DeliveredRecord read = DeliveredFile.Read(new MemoryStream(text), "record.json");
        Assert.Equal(text, Text(read));
        Assert.Equal(record.Pieces[^1].ReadColor, read.Pieces[^1].ReadColor);
        Assert.Null(read.Pieces[^1].Cement);

        string path = Path.GetTempFileName();
        File.Delete(path);
        try
        {
            DeliveredFile.Save(DeliveredRecord.Start("laboratory").Append(record.Pieces.Take(5)), path);
            DeliveredFile.Save(record, path);
            Assert.Equal(13, DeliveredFile.Load(path).Pieces.Count);
            DeliveredRecord shorter = DeliveredRecord.Start("laboratory").Append(record.Pieces.Take(12));
            ArgumentException lacks = Assert.Throws<ArgumentException>(() => DeliveredFile.Save(shorter, path));
            Assert.Contains("holds piece 'fired' at place 13, which the record lacks", lacks.Message,
                StringComparison.Ordinal);
            DeliveredRecord changed = DeliveredRecord.Start("laboratory").Append(
                record.Pieces.Select((piece, i) => i == 2 ? InOtherFurnace(piece) : piece));
            Assert.Throws<ArgumentException>(() => DeliveredFile.Save(changed, path));
            Assert.Equal(text, File.ReadAllBytes(path));
        }
        finally
        {
            File.Delete(path);
        }
    }

    private static DeliveredPiece InOtherFurnace(DeliveredPiece piece) => new(
        piece.Name, piece.Date, piece.Ceramic, piece.Batch, piece.WallMm, piece.Stump, piece.Predicted, piece.Read)
    {
        Cement = piece.Cement, Furnace = "other",
    };

    private static byte[] Text(DeliveredRecord record)
    {
        using MemoryStream stream = new();
        DeliveredFile.Write(record, stream);
        return stream.ToArray();
    }

    // Twelve pieces: every wall over every stump.
    private static DeliveredRecord Record(Func<Restoration, double, Lab> read)
    {
        IEnumerable<DeliveredPiece> pieces =
            from w in Enumerable.Range(0, Walls.Length)
            from s in Enumerable.Range(0, Stumps.Length)
            let plan = Plan(Stumps[s], Walls[w])
            select Piece($"crown {(3 * w) + s + 1}", (3 * w) + s, plan, read(plan, Walls[w]));
        return DeliveredRecord.Start("laboratory").Append(pieces);
    }

    private static DeliveredPiece Piece(string name, int day, Restoration plan, Lab read)
    {
        Zone zone = plan.Zones[0];
        return new DeliveredPiece(
            name, new DateTime(2026, 1, 1).AddDays(day), Known.Material.Name, Batch, zone.AvailableMm, zone.Stump.Name,
            Reading(ColorOf(plan, zone.AvailableMm)), Reading(read))
        {
            Cement = Cement.Material.Name, Furnace = day % 2 == 0 ? "left" : "right",
        };
    }

    private static Restoration PlanOf(DeliveredPiece piece) =>
        Plan(Stumps.Single(stump => stump.Name == piece.Stump), piece.WallMm);

    private static Restoration Plan(Substrate stump, double mm) => new(
        [new Zone("body", stump, mm, MaskingReference.SelfBacked)], Known, Cement,
        ColorCriterion.AcceptabilityThreshold);

    private static Lab ColorOf(Restoration plan, double mm) =>
        Colorimeter.D65TwoDegree.ToLab(plan.StackOver(plan.Zones[0].Stump, mm).Reflectance());

    private static Lab Moved(Lab color, double lighter) => color with { L = color.L + lighter };

    private static ColorReading Reading(Lab color) =>
        ColorReading.FromColor(color, Colorimeter.D65TwoDegree, MeasurementGeometry.DiffuseSpecularIncluded);

    private static Material Scaled(Material material, double k, double s) => new(
        material.Name, material.Model,
        new AbsorptionSpectrum(Grid, [.. material.Absorption.Values.ToArray().Select(value => k * value)]),
        new ScatteringSpectrum(Grid, [.. material.Scattering.Values.ToArray().Select(value => s * value)]),
        material.RefractiveIndex);
}
