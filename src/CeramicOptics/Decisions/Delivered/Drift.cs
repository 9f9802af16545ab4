using CeramicOptics.Colorimetry;
using CeramicOptics.Restorations;
using MathNet.Numerics.LinearAlgebra;

namespace CeramicOptics.Decisions.Delivered;

/// <summary>Detects when deliveries begin to deviate in a way that earlier pieces did not show.</summary>
/// <remarks>
/// Each piece is compared with what the pieces before it predict (a self-starting chart, Hawkins 1987, The Statistician
/// 36): in units of the expected covariance the innovations of an unchanged laboratory are independent and standard
/// normal, whatever its bias is. A moving average of them gives the alarm (see <see cref="DriftOptions"/>); its average
/// run length is computed, not guessed. A new batch or furnace starts with its own uncertainty, so its usual deviation
/// gives no alarm. Scatter that exceeds the stated one widens the limits as it is learned; until then alarms are more
/// frequent than stated.
/// </remarks>
public static class Drift
{
    // The prior of the factor of scatter is worth so many pieces.
    private const int PriorPieces = 5;

    /// <summary>The chart of a record.</summary>
    /// <param name="record">The pieces; at least one.</param>
    /// <param name="planOf">
    /// The restoration of a piece as it was planned, as for <see cref="Correction.Find"/>: with constants as given.
    /// </param>
    /// <param name="options">Sensitivity and rate of false alarms; the default when null.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="ArgumentException">
    /// As for <see cref="Correction.Find"/>; or pieces deviate so far that their walls or films could not be as thin.
    /// </exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static DriftResult Find(
        DeliveredRecord record, Func<DeliveredPiece, Restoration> planOf, DriftOptions? options = null,
        IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        Guard.Copy(Guard.NotNull(record).Pieces, minimumCount: 1, nameof(record));
        options ??= new DriftOptions();
        double weight = options.Weight;
        double limit = EwmaRunLength.LimitFor(weight, options.PiecesPerFalseAlarm, cancellation);
        LearningModel model = new(record.Pieces, Guard.NotNull(planOf), options.Expected);
        Vector<double> none = Vector<double>.Build.Dense(model.Count);
        progress?.Report(0.2);

        // Colours are not linear in the quantities; slopes are those near what all pieces together teach.
        PieceColor[] colors = model.ColorsAt(none, cancellation);
        Vector<double> about = none;
        GaussianState state = new(none, model.Prior);
        for (int i = 0; i < colors.Length; i++)
        {
            Take(i, 1, out _);
        }

        about = state.Mean;
        foreach (PieceCase item in model.Cases)
        {
            model.RequirePossible(item, about, nameof(record));
        }

        colors = model.ColorsAt(about, cancellation);
        progress?.Report(0.9);
        List<DriftPoint> points = [];
        Restart(out Vector<double> average, out Vector<double> shift);
        (double squares, int pieces) = (0, 0);
        for (int i = 0; i < colors.Length; i++)
        {
            double factor = ((3.0 * PriorPieces) + squares) / (3.0 * (PriorPieces + pieces));
            Vector<double> standard = Take(i, factor, out Vector<double> innovation);
            (squares, pieces) = (squares + (factor * standard.DotProduct(standard)), pieces + 1);
            average = (weight * standard) + ((1 - weight) * average);
            shift = (weight * innovation) + ((1 - weight) * shift);
            double statistic = average.DotProduct(average) * (2 - weight) / weight;
            bool isAlarm = statistic > limit;
            points.Add(new DriftPoint(
                record.Pieces[i], statistic, isAlarm, new ColorDeviation(shift[0], shift[1], shift[2])));
            if (isAlarm)
            {
                // How much pieces scatter stays known.
                Restart(out average, out shift);
            }
        }

        progress?.Report(1);
        return new DriftResult(Guard.Copy(points), limit, EwmaRunLength.Average(weight, limit));

        Vector<double> Take(int i, double factor, out Vector<double> innovation)
        {
            cancellation.ThrowIfCancellationRequested();
            Matrix<double> slopes = model.Jacobian(model.Cases[i], colors[i]);
            Vector<double> read = LearningModel.Vector(LearningModel.Shift(colors[i].Color, record.Pieces[i].ReadColor))
                + (slopes * model.Possible(model.Cases[i], about));
            return state.Update(slopes, read, factor * model.Scatter(model.Cases[i], colors[i]), out innovation);
        }

        void Restart(out Vector<double> mean, out Vector<double> moved)
        {
            state = new GaussianState(none, model.Prior);
            (mean, moved) = (Vector<double>.Build.Dense(3), Vector<double>.Build.Dense(3));
        }
    }
}
