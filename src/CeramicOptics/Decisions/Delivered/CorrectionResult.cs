using System.Text.Json.Serialization;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;
using MathNet.Numerics.LinearAlgebra;

namespace CeramicOptics.Decisions.Delivered;

/// <summary>What a record of delivered pieces has corrected.</summary>
[JsonConverter(typeof(ReportConverter))]
public sealed class CorrectionResult : Report
{
    private readonly LearningModel _model;
    private readonly Vector<double> _values;
    private readonly Matrix<double> _covariance;

    internal CorrectionResult(
        LearningModel model, PieceColor[] asGiven, PieceColor[] corrected, GaussianState state, double factor,
        bool[] isLeftOut, IReadOnlyList<CorrectionFinding> findings)
    {
        (_model, _values, _covariance, Findings) = (model, state.Mean, state.Covariance, findings);
        ScatterFactor = Math.Sqrt(factor);
        Pieces = Guard.Copy(model.Pieces.Select((piece, i) => new CorrectedPiece(
            piece, !isLeftOut[i],
            LearningModel.Shift(asGiven[i].Color, piece.ReadColor),
            LearningModel.Shift(corrected[i].Color, piece.ReadColor),
            ColorDifference.Ciede2000(asGiven[i].Color, piece.ReadColor),
            ColorDifference.Ciede2000(corrected[i].Color, piece.ReadColor))));
        Quantities = Guard.Copy(Enumerable.Range(0, model.Count).Select(q => QuantityOf(q, corrected)));
    }

    /// <summary>Everything that was corrected, with before, after and uncertainties.</summary>
    public IReadOnlyList<CorrectedQuantity> Quantities { get; }

    /// <summary>The pieces before and after.</summary>
    public IReadOnlyList<CorrectedPiece> Pieces { get; }

    /// <summary>
    /// Scatter from piece to piece as a multiple of the stated uncertainties (before: 1), in standard deviation.
    /// </summary>
    public double ScatterFactor { get; }

    /// <summary>Findings that question or limit the correction.</summary>
    public IReadOnlyList<CorrectionFinding> Findings { get; }

    /// <summary>The ceramic of one batch with corrected K and S.</summary>
    /// <param name="material">The material as given, before any correction.</param>
    /// <param name="batch">Batch; one without pieces has the correction of its ceramic alone.</param>
    /// <returns>
    /// A material whose name says that it is corrected, and by how many pieces. Its relative scale is the larger of the
    /// uncertainties of K and S, which includes what moves all wavelengths together; the part of each wavelength stays,
    /// since colours tell little of it.
    /// </returns>
    /// <exception cref="ArgumentException">
    /// No used piece is of this material, or its K and S are not those that were corrected.
    /// </exception>
    public Material MaterialFor(Material material, string batch)
    {
        Guard.NotBlank(batch);
        int pieces = Pieces.Count(piece => piece.IsUsed && piece.Piece.Ceramic == Guard.NotNull(material).Name);
        if (pieces == 0)
        {
            throw new ArgumentException($"No used piece of the record is of '{material.Name}'.", nameof(material));
        }

        _model.RequireSame(material, nameof(material));

        (double k, double ofK) = Sum(CorrectedKind.AbsorptionScale, CorrectedKind.BatchAbsorptionScale);
        (double s, double ofS) = Sum(CorrectedKind.ScatteringScale, CorrectedKind.BatchScatteringScale);
        double scale = Math.Min(1, Math.Max(ofK, ofS));
        double[] none = new double[material.Grid.Count];
        CoefficientUncertainty uncertainty = material.Uncertainty is { } given
            ? new CoefficientUncertainty(given.AbsorptionPerMm, given.ScatteringPerMm, given.Correlation, scale)
            : new CoefficientUncertainty(none, none, none, scale);
        return DeliveredWall.Scaled(
            material, Language.English.Text("CorrectedMaterial", material.Name, batch, pieces), k, s, uncertainty);

        (double Value, double Deviation) Sum(CorrectedKind ofCeramic, CorrectedKind ofBatch)
        {
            Vector<double> row = Vector<double>.Build.Dense(_model.Count);
            double unlearned = 0;
            QuantityKey[] keys = [new(ofCeramic, material.Name), new(ofBatch, material.Name, batch)];
            foreach (QuantityKey key in keys)
            {
                if (_model.PositionOf(key) is int at)
                {
                    row[at] = 1;
                }
                else
                {
                    unlearned = _model.BatchVariance;
                }
            }

            return (row * _values, Math.Sqrt(Math.Max(0, row * (_covariance * row)) + unlearned));
        }
    }

    /// <summary>The colour of a piece still to be made, as given and corrected.</summary>
    /// <param name="plan">
    /// The restoration as planned, with the constants as given: one zone, whose available thickness is the wall.
    /// </param>
    /// <param name="batch">Batch of the ceramic; a new one has its uncertainty.</param>
    /// <param name="furnace">Furnace; null where that is not recorded.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>The colour under the first illuminant and observer of the restoration's viewing.</returns>
    /// <exception cref="ArgumentException">
    /// More than one zone; a corrected ceramic with other K and S than those that were corrected; a wall that with the
    /// correction would be thinner than a fifth of what is planned, or than its veneer, or a film thinner than none.
    /// </exception>
    public CorrectedPrediction PredictionFor(
        Restoration plan, string batch, string? furnace = null, CancellationToken cancellation = default)
    {
        Colorimeter under = Guard.NotNull(plan).Viewing.Colorimeters[0];
        _model.RequireSame(plan.Core.Material, nameof(plan));
        PieceCase item = new(
            plan with { Viewing = plan.Viewing with { Colorimeters = [under] } }, Guard.NotBlank(batch), furnace);
        _model.RequirePossible(item, _values, nameof(plan));
        PieceColor color = _model.ColorAt(item, _values, cancellation);
        Lab asGiven = _model.ColorAt(item, _values * 0, cancellation).Color;
        Matrix<double> slopes = _model.Jacobian(item, color);
        Matrix<double> sum = (slopes * _covariance * slopes.Transpose()) + _model.Unlearned(item, color)
            + (ScatterFactor * ScatterFactor * _model.Scatter(item, color));
        return new CorrectedPrediction(
            asGiven, color.Color, ColorDeviation.OfVariances(sum[0, 0], sum[1, 1], sum[2, 2]),
            under, DecisionCautions.Of(item.Plan));
    }

    /// <summary>Number of pieces and mean differences.</summary>
    private protected override string InWords(Language language) => language.Text(
        "CorrectionResult", Pieces.Count, Pieces.Average(piece => piece.DifferenceBefore),
        Pieces.Average(piece => piece.DifferenceAfter));

    private CorrectedQuantity QuantityOf(int q, PieceColor[] corrected)
    {
        QuantityKey key = _model.Keys[q];
        double prior = Math.Sqrt(_model.Prior[q, q]), deviation = Math.Sqrt(Math.Max(0, _covariance[q, q]));
        double value = _values[q], after = key.IsScale ? Math.Exp(value) : value;
        ColorDeviation effect = default;
        int count = 0;
        for (int i = 0; i < corrected.Length; i++)
        {
            if (_model.Cases[i].Keys.Contains(key))
            {
                Vector<double> slopes = _model.Jacobian(_model.Cases[i], corrected[i]).Column(q) * value;
                effect = new ColorDeviation(effect.L + slopes[0], effect.A + slopes[1], effect.B + slopes[2]);
                count++;
            }
        }

        return new CorrectedQuantity(
            key, key.IsScale ? 1 : 0, prior, after, key.IsScale ? after * deviation : deviation,
            prior > 0 ? Math.Min(1, Math.Max(0, 1 - (deviation * deviation / prior / prior))) : 0,
            new ColorDeviation(effect.L / count, effect.A / count, effect.B / count));
    }
}
