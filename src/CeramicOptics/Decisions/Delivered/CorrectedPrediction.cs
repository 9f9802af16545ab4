using System.Text.Json.Serialization;
using CeramicOptics.Colorimetry;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Delivered;

/// <summary>The colour of a piece still to be made, with everything that was learned.</summary>
[JsonConverter(typeof(ReportConverter))]
public sealed class CorrectedPrediction : Answer
{
    internal CorrectedPrediction(
        Lab asGiven, Lab color, ColorDeviation uncertainty, Colorimeter under, IReadOnlyList<Caution> cautions)
        : base(cautions) => (AsGiven, Color, StandardUncertainty, Under) = (asGiven, color, uncertainty, under);

    /// <summary>The colour with the constants as given.</summary>
    public Lab AsGiven { get; }

    /// <summary>The corrected colour.</summary>
    public Lab Color { get; }

    /// <summary>
    /// Standard uncertainty of each coordinate of a reading of that piece: what is left of the corrected quantities,
    /// scatter from piece to piece, the optical model and the reading.
    /// </summary>
    public ColorDeviation StandardUncertainty { get; }

    /// <summary>Illuminant and observer of both colours.</summary>
    public Colorimeter Under { get; }

    /// <summary>Corrected colour with its uncertainty.</summary>
    private protected override string InWords(Language language) => language.Text(
        "CorrectedPrediction", Color.L, StandardUncertainty.L, Color.A, StandardUncertainty.A, Color.B,
        StandardUncertainty.B, Under);
}
