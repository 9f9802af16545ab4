namespace CeramicOptics.Decisions.Delivered;

/// <summary>Sensitivity of the drift chart, and how often it raises a false alarm.</summary>
public sealed record DriftOptions
{
    /// <summary>
    /// Weight of the newest piece in the moving average, 0.05 to 1; 0.2 by default. Small weights detect small drifts.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double Weight { get; init => field = Guard.InRange(value, 0.05, 1, "", nameof(Weight)); } = 0.2;

    /// <summary>Average number of pieces between two false alarms, 20 to 100,000; 500 by default.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double PiecesPerFalseAlarm
    {
        get;
        init => field = Guard.InRange(value, 20, 1e5, "", nameof(PiecesPerFalseAlarm));
    } = 500;

    /// <summary>What is expected before any piece is read.</summary>
    public CorrectionOptions Expected
    {
        get;
        init => field = Guard.NotNull(value, nameof(Expected));
    } = new CorrectionOptions();
}
