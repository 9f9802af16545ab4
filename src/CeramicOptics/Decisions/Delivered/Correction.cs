using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Restorations;
using MathNet.Numerics.LinearAlgebra;

namespace CeramicOptics.Decisions.Delivered;

/// <summary>Explains why delivered pieces differ from their predictions, and corrects later predictions.</summary>
/// <remarks>
/// Gaussian (maximum a posteriori) update: quantities start at their values as given, with the uncertainties of discs,
/// restorations and options, and move as far as the readings outweigh them (Gelman et al. 2013, Bayesian Data Analysis,
/// ch. 14; Gauss-Newton steps, each linearized again at the corrected wall, since colours are not linear in them). The
/// scatter from piece to piece is estimated as well: one factor of all variances, with a prior worth ten pieces.
/// </remarks>
public static class Correction
{
    internal const int FewPieces = 10;
    internal const double LargeScatter = 1.5;
    private const int MostSteps = 12, PriorPieces = 10;

    // Of the prior's standard deviations.
    private const double Settled = 0.02, Large = 2.5;

    // Chi-square of three coordinates: 25 leaves one in 60,000 true pieces out; 2.366 is its median.
    private const double Outlying = 25, Median = 2.366;

    private const double AlikeDifference = 0.1, AlikeMm = 0.05;

    /// <summary>The correction that follows from a record.</summary>
    /// <param name="record">The pieces; at least one.</param>
    /// <param name="planOf">
    /// The restoration of a piece as it was planned: one zone, whose available thickness is the wall of the piece, and
    /// the constants that are to be corrected (always those as given, never corrected ones).
    /// </param>
    /// <param name="options">What is expected before any piece is read; the default when null.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="ArgumentException">
    /// No piece; a restoration of another ceramic, cement, stump, wall or geometry than its piece, or of more than one
    /// zone; two sets of constants of one ceramic.
    /// </exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static CorrectionResult Find(
        DeliveredRecord record, Func<DeliveredPiece, Restoration> planOf, CorrectionOptions? options = null,
        IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        Guard.Copy(Guard.NotNull(record).Pieces, minimumCount: 1, nameof(record));
        LearningModel model = new(record.Pieces, Guard.NotNull(planOf), options ?? new CorrectionOptions());
        int n = model.Cases.Count;
        bool[] isLeftOut = new bool[n];
        Vector<double> start = Vector<double>.Build.Dense(model.Count), values = start;
        PieceColor[] asGiven = model.ColorsAt(start, cancellation), colors = asGiven;
        GaussianState state = new(start, model.Prior);
        double factor = 1;
        bool isSettled = false;
        for (int step = 1; step <= MostSteps && !isSettled; step++)
        {
            progress?.Report((double)step / (MostSteps + 1));
            state = new GaussianState(start, model.Prior);
            double squares = 0;
            int used = 0;
            for (int i = 0; i < n; i++)
            {
                cancellation.ThrowIfCancellationRequested();
                if (!isLeftOut[i])
                {
                    Matrix<double> slopes = model.Jacobian(model.Cases[i], colors[i]);
                    Vector<double> read = Residual(i) + (slopes * model.Possible(model.Cases[i], values));
                    Vector<double> standard = state.Update(
                        slopes, read, factor * model.Scatter(model.Cases[i], colors[i]), out _);
                    (squares, used) = (squares + (factor * standard.DotProduct(standard)), used + 1);
                }
            }

            double moved = Enumerable.Range(0, model.Count).Max(
                q => model.Prior[q, q] > 0
                    ? Math.Abs(state.Mean[q] - values[q]) / Math.Sqrt(model.Prior[q, q])
                    : 0);
            double nextFactor = ((3.0 * PriorPieces) + squares) / (3.0 * (PriorPieces + used));
            isSettled = moved < Settled && Math.Abs(nextFactor - factor) < Settled * factor;
            (values, factor) = (state.Mean, nextFactor);
            colors = model.ColorsAt(values, cancellation);
            if (moved < 1 && Worst() is int worst)
            {
                isLeftOut[worst] = true;
                isSettled = false;
            }
        }

        progress?.Report(1);
        return new CorrectionResult(
            model, asGiven, colors, state, factor, isLeftOut, Guard.Copy(Findings(isSettled)));

        Vector<double> Residual(int i) =>
            LearningModel.Vector(LearningModel.Shift(colors[i].Color, model.Pieces[i].ReadColor));

        // The piece farthest from what all used ones leave unexplained, if it is too far; never the last few.
        int? Worst()
        {
            double[] squares = [.. Enumerable.Range(0, n).Select(i => isLeftOut[i] ? 0 : Residual(i).DotProduct(
                model.Scatter(model.Cases[i], colors[i]).Cholesky().Solve(Residual(i))))];
            double[] sorted = [.. squares.Where((_, i) => !isLeftOut[i]).OrderBy(value => value)];
            double typical = Math.Max(1, sorted[sorted.Length / 2] / Median);
            int worst = Array.IndexOf(squares, squares.Max());
            return sorted.Length > 5 && squares[worst] > Outlying * typical ? worst : null;
        }

        List<CorrectionFinding> Findings(bool settled)
        {
            List<CorrectionFinding> findings = [];
            void Add(CorrectionFindingKind kind, string subject, double? value, QuantityKey? quantity = null) =>
                findings.Add(new CorrectionFinding(kind, subject, value, quantity));
            if (n < FewPieces)
            {
                Add(CorrectionFindingKind.FewPieces, record.Name, n);
            }

            foreach (IGrouping<string, PieceCase> group in model.Cases.GroupBy(item => item.Ceramic.Name))
            {
                bool isOneWall = group.Max(item => item.Zone.AvailableMm) - group.Min(item => item.Zone.AvailableMm)
                    <= AlikeMm;
                int stumps = group.Select(item => item.Zone.Stump.Name).Distinct().Count();
                if (group.Count() > 1 && isOneWall && stumps == 1)
                {
                    Add(CorrectionFindingKind.EqualPieces, group.Key, group.Count());
                }
            }

            for (int i = 0; i < n; i++)
            {
                DeliveredPiece piece = model.Pieces[i];
                double stored = ColorDifference.Ciede2000(piece.Predicted.Color, asGiven[i].Color);
                if (stored > AlikeDifference)
                {
                    Add(CorrectionFindingKind.OtherPrediction, piece.Name, stored);
                }

                double wallMm = model.WallMm(model.Cases[i], values);
                if (!model.Cases[i].Walls.Contains(wallMm))
                {
                    Add(CorrectionFindingKind.ImpossibleWall, piece.Name, wallMm);
                }

                if (isLeftOut[i])
                {
                    Add(CorrectionFindingKind.OutlyingPiece, piece.Name,
                        ColorDifference.Ciede2000(colors[i].Color, piece.ReadColor));
                }
            }

            foreach (IGrouping<string, PieceCase> group in model.Cases.Where(item => model.FilmMm(item, values) < 0)
                .GroupBy(item => item.Plan.Cement!.Material.Name))
            {
                Add(CorrectionFindingKind.ImpossibleFilm, group.Key, group.Min(item => model.FilmMm(item, values)));
            }

            for (int q = 0; q < model.Count; q++)
            {
                double deviations = Math.Abs(values[q]) / Math.Max(Math.Sqrt(model.Prior[q, q]), 1e-12);
                if (deviations > Large)
                {
                    Add(CorrectionFindingKind.LargeCorrection, model.Keys[q].Subject, deviations, model.Keys[q]);
                }
            }

            if (factor > LargeScatter * LargeScatter)
            {
                Add(CorrectionFindingKind.LargeScatter, record.Name, Math.Sqrt(factor));
            }

            if (!settled)
            {
                Add(CorrectionFindingKind.NotSettled, record.Name, null);
            }

            return findings;
        }
    }
}
