using CeramicOptics.Colorimetry;

namespace CeramicOptics.Decisions.Delivered;

/// <summary>One piece before and after the correction.</summary>
public sealed class CorrectedPiece : Formattable
{
    internal CorrectedPiece(
        DeliveredPiece piece, bool isUsed, ColorDeviation before, ColorDeviation after, double differenceBefore,
        double differenceAfter) =>
        (Piece, IsUsed, Before, After, DifferenceBefore, DifferenceAfter) = (
            piece, isUsed, before, after, differenceBefore, differenceAfter);

    /// <summary>The piece.</summary>
    public DeliveredPiece Piece { get; }

    /// <summary>False for an outlier that was left out.</summary>
    public bool IsUsed { get; }

    /// <summary>Reading minus prediction with the constants as given.</summary>
    public ColorDeviation Before { get; }

    /// <summary>Reading minus prediction with everything corrected; what no correction explains.</summary>
    public ColorDeviation After { get; }

    /// <summary>CIEDE2000 of reading and prediction with the constants as given.</summary>
    public double DifferenceBefore { get; }

    /// <summary>
    /// CIEDE2000 of reading and corrected prediction; smaller for learned pieces than for the next ones.
    /// </summary>
    public double DifferenceAfter { get; }

    /// <summary>Name and both differences.</summary>
    private protected override string InWords(Language language) => language.Text(
        IsUsed ? "CorrectedPiece.Used" : "CorrectedPiece.LeftOut", Piece.Name, DifferenceBefore, DifferenceAfter);
}
