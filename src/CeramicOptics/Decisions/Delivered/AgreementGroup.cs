using System.Text.Json.Serialization;
using CeramicOptics.Colorimetry;

namespace CeramicOptics.Decisions.Delivered;

/// <summary>How well predictions and readings of one group of pieces agree.</summary>
[JsonConverter(typeof(ReportConverter))]
public sealed class AgreementGroup : Report
{
    internal AgreementGroup(string name, string? batch, IReadOnlyList<DeliveredPiece> pieces)
    {
        (Name, Batch) = (name, batch);
        Pieces = Guard.Copy(pieces);
        MeanDeviation = new ColorDeviation(
            pieces.Average(piece => piece.Deviation.L), pieces.Average(piece => piece.Deviation.A),
            pieces.Average(piece => piece.Deviation.B));
        MeanDifference = pieces.Average(piece => piece.Difference);
        if (pieces.Count >= LimitsOfAgreement.FewestPieces)
        {
            L = new LimitsOfAgreement([.. pieces.Select(piece => piece.Deviation.L)]);
            A = new LimitsOfAgreement([.. pieces.Select(piece => piece.Deviation.A)]);
            B = new LimitsOfAgreement([.. pieces.Select(piece => piece.Deviation.B)]);
            Difference = new LimitsOfAgreement([.. pieces.Select(piece => piece.Difference)], least: 0);
        }
    }

    /// <summary>What the pieces have in common, such as the name of the ceramic.</summary>
    public string Name { get; }

    /// <summary>The batch of that ceramic, where pieces are grouped by batch; else null.</summary>
    public string? Batch { get; }

    /// <summary>The pieces.</summary>
    public IReadOnlyList<DeliveredPiece> Pieces { get; }

    /// <summary>Mean of reading minus prediction.</summary>
    public ColorDeviation MeanDeviation { get; }

    /// <summary>Mean of CIEDE2000, 0 or more.</summary>
    public double MeanDifference { get; }

    /// <summary>Agreement in L*; null for fewer than 3 pieces.</summary>
    public LimitsOfAgreement? L { get; }

    /// <summary>Agreement in a*; null for fewer than 3 pieces.</summary>
    public LimitsOfAgreement? A { get; }

    /// <summary>Agreement in b*; null for fewer than 3 pieces.</summary>
    public LimitsOfAgreement? B { get; }

    /// <summary>
    /// Agreement in CIEDE2000, which is never negative: read the mean and the upper limit; null for fewer than 3
    /// pieces.
    /// </summary>
    public LimitsOfAgreement? Difference { get; }

    /// <summary>Name, number of pieces and mean deviation.</summary>
    private protected override string InWords(Language language) => language.Text(
        "AgreementGroup", QuantityKey.Title(language, Name, Batch), Pieces.Count, MeanDeviation);
}
