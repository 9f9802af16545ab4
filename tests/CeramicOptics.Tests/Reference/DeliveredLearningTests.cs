using CeramicOptics.Decisions.Delivered;
using Xunit.Abstractions;

namespace CeramicOptics.Tests.Reference;

/// <summary>
/// What is learned from delivered crowns, judged by laboratories that are simulated by other physics; built with
/// -p:LongRun=true, two hundred of them (docs/delivered-work.md has the figures).
/// </summary>
public class DeliveredLearningTests(ITestOutputHelper output)
{
#if LONG_RUN
    private const int Laboratories = 200, Calm = 100;
#else
    private const int Laboratories = 4, Calm = 50;
#endif
    private const int Learned = 20, Next = 20;

    [Fact]
    public void After_twenty_crowns_the_next_ones_are_predicted_better()
    {
        double asGiven = 0, corrected = 0, asGivenTrue = 0, correctedTrue = 0, newGiven = 0, newCorrected = 0;
        int worse = 0, inside = 0, worseNew = 0;
        for (int seed = 0; seed < Laboratories; seed++)
        {
            SimulatedLaboratory laboratory = new(seed);
            DeliveredRecord record = laboratory.Deliver(DeliveredRecord.Start("laboratory"), Learned);
            DeliveredRecord later = laboratory.Deliver(record, Next);
            CorrectionResult result = Correction.Find(record, laboratory.PlanOf);
            (double before, double after) = (0, 0);
            foreach (DeliveredPiece piece in later.Pieces.Skip(Learned))
            {
                CorrectedPrediction prediction =
                    result.PredictionFor(laboratory.PlanOf(piece), piece.Batch, piece.Furnace);
                before += ColorDifference.Ciede2000(prediction.AsGiven, piece.ReadColor) / Next;
                after += ColorDifference.Ciede2000(prediction.Color, piece.ReadColor) / Next;
                Lab truth = laboratory.TrueColorOf(piece);
                asGivenTrue += ColorDifference.Ciede2000(prediction.AsGiven, truth) / Next / Laboratories;
                correctedTrue += ColorDifference.Ciede2000(prediction.Color, truth) / Next / Laboratories;
                ColorDeviation u = prediction.StandardUncertainty;
                inside += Inside(piece.ReadColor.L - prediction.Color.L, u.L)
                    + Inside(piece.ReadColor.A - prediction.Color.A, u.A)
                    + Inside(piece.ReadColor.B - prediction.Color.B, u.B);
            }

            (asGiven, corrected) = (asGiven + (before / Laboratories), corrected + (after / Laboratories));
            worse += after > before ? 1 : 0;
            (before, after) = (0, 0);
            foreach (DeliveredPiece piece in laboratory.Deliver(later, 10, "C").Pieces.Skip(Learned + Next))
            {
                CorrectedPrediction prediction =
                    result.PredictionFor(laboratory.PlanOf(piece), piece.Batch, piece.Furnace);
                before += ColorDifference.Ciede2000(prediction.AsGiven, piece.ReadColor) / 10;
                after += ColorDifference.Ciede2000(prediction.Color, piece.ReadColor) / 10;
            }

            (newGiven, newCorrected) = (newGiven + (before / Laboratories), newCorrected + (after / Laboratories));
            worseNew += after > before ? 1 : 0;
        }

        double coverage = (double)inside / (3 * Next * Laboratories);
        output.WriteLine(FormattableString.Invariant(
            $"{Laboratories} laboratories, to readings: {asGiven:0.000} -> {corrected:0.000} ")
            + FormattableString.Invariant($"({1 - (corrected / asGiven):P1}), ")
            + FormattableString.Invariant(
                $"worse in {worse}; to true colours {asGivenTrue:0.000} -> {correctedTrue:0.000}; ")
            + FormattableString.Invariant($"new batch {newGiven:0.000} -> {newCorrected:0.000}, worse in {worseNew}; ")
            + FormattableString.Invariant($"95 % intervals hold {coverage:P1}"));
        Assert.True(corrected <= 0.6 * asGiven, $"mean error {asGiven} -> {corrected}");
        Assert.True(worse <= 0.05 * Laboratories, $"worse in {worse} of {Laboratories}");
        Assert.InRange(coverage, 0.93, 0.995);
        Assert.True(newCorrected < newGiven, $"new batch {newGiven} -> {newCorrected}");

        static int Inside(double error, double deviation) => Math.Abs(error) <= 1.96 * deviation ? 1 : 0;
    }

    /// <summary>Where there is nothing to correct, the prior keeps corrections small.</summary>
    [Fact]
    public void Faultless_laboratory_is_hardly_made_worse()
    {
        double asGiven = 0, corrected = 0;
        int many = Math.Max(3, Laboratories / 4);
        for (int seed = 0; seed < many; seed++)
        {
            SimulatedLaboratory laboratory = new(1000 + seed, bias: 0);
            DeliveredRecord record = laboratory.Deliver(DeliveredRecord.Start("laboratory"), Learned);
            CorrectionResult result = Correction.Find(record, laboratory.PlanOf);
            foreach (DeliveredPiece piece in laboratory.Deliver(record, Next).Pieces.Skip(Learned))
            {
                CorrectedPrediction prediction =
                    result.PredictionFor(laboratory.PlanOf(piece), piece.Batch, piece.Furnace);
                asGiven += ColorDifference.Ciede2000(prediction.AsGiven, piece.ReadColor) / Next / many;
                corrected += ColorDifference.Ciede2000(prediction.Color, piece.ReadColor) / Next / many;
            }
        }

        output.WriteLine(FormattableString.Invariant(
            $"{many} faultless laboratories, to readings: {asGiven:0.000} -> {corrected:0.000}"));
        Assert.True(corrected < 1.1 * asGiven, $"{asGiven} -> {corrected}");
    }

    [Fact]
    public void Drift_is_found_within_ten_pieces_and_false_alarms_are_rare()
    {
        int alarms = 0, pieces = 0, found = 0;
        List<int> delays = [];
        for (int seed = 0; seed < Laboratories; seed++)
        {
            SimulatedLaboratory laboratory = new(2000 + seed);
            DeliveredRecord record = laboratory.Deliver(DeliveredRecord.Start("laboratory"), Learned);
            DriftResult calm = Drift.Find(laboratory.Deliver(record, Calm - Learned), laboratory.PlanOf);
            (alarms, pieces) = (alarms + calm.Alarms.Count, pieces + Calm);
            DriftResult drifting = Drift.Find(laboratory.Deliver(record, 10, drift: 1), laboratory.PlanOf);
            int at = drifting.Points.Skip(Learned).ToList().FindIndex(point => point.IsAlarm);
            if (at >= 0)
            {
                found++;
                delays.Add(at + 1);
            }
        }

        output.WriteLine(FormattableString.Invariant(
            $"{alarms} false alarms in {pieces} pieces; drift of 1 found within 10 in {found} of {Laboratories}, ")
            + FormattableString.Invariant($"after {delays.Average():0.0} pieces on average, {delays.Max()} at most"));
        Assert.True(found >= 0.95 * Laboratories, $"found in {found} of {Laboratories}");

        // At most one in 500; so few pieces as here may have two by chance (Poisson of 0.4: P(more than 2) 0.8 %).
        Assert.True(alarms <= (Laboratories < 100 ? 2 : pieces / 500), $"{alarms} false alarms in {pieces} pieces");
    }
}
