using CeramicOptics.Colorimetry;

namespace CeramicOptics.Decisions.Delivered;

/// <summary>The chart of drift at one piece.</summary>
public sealed class DriftPoint : Formattable
{
    internal DriftPoint(DeliveredPiece piece, double statistic, bool isAlarm, ColorDeviation shift) =>
        (Piece, Statistic, IsAlarm, Shift) = (piece, statistic, isAlarm, shift);

    /// <summary>The piece.</summary>
    public DeliveredPiece Piece { get; }

    /// <summary>Squared length of the moving average, in units of its variance; an alarm above the limit.</summary>
    public double Statistic { get; }

    /// <summary>
    /// True where the statistic exceeds the limit; the average and what was learned start again after it.
    /// </summary>
    public bool IsAlarm { get; }

    /// <summary>
    /// Moving average of readings minus what the earlier pieces predict: the direction of the drift. Its size lags
    /// behind.
    /// </summary>
    public ColorDeviation Shift { get; }

    /// <summary>Name and statistic.</summary>
    private protected override string InWords(Language language) => language.Text(
        IsAlarm ? "DriftPoint.Alarm" : "DriftPoint.Calm", Piece.Name, Statistic, Shift);
}
