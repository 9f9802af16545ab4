namespace CeramicOptics.Decisions.Delivered;

/// <summary>The chart of drift at one piece.</summary>
public sealed class DriftPoint : IFormattable
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
    /// Moving average of readings minus what the pieces before made expect: which way it drifts. Its size lags behind.
    /// </summary>
    public ColorDeviation Shift { get; }

    /// <summary>Name and statistic.</summary>
    public override string ToString() => ToString(null);

    /// <summary>The same in the language of a culture.</summary>
    /// <param name="provider">A culture or a <see cref="Language"/>; null for English.</param>
    public string ToString(IFormatProvider? provider) => Language.Of(provider).Text(
        IsAlarm ? "DriftPoint.Alarm" : "DriftPoint.Calm", Piece.Name, Statistic, Shift);

    string IFormattable.ToString(string? format, IFormatProvider? provider) => ToString(provider);
}
