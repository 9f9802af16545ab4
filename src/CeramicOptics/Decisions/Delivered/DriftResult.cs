using System.Text.Json.Serialization;

namespace CeramicOptics.Decisions.Delivered;

/// <summary>The chart of drift of a record.</summary>
[JsonConverter(typeof(ReportConverter))]
public sealed class DriftResult : Report
{
    internal DriftResult(IReadOnlyList<DriftPoint> points, double limit, double averageRunLength) =>
        (Points, Limit, AverageRunLength, Alarms) = (
            points, limit, averageRunLength, Guard.Copy(points.Where(point => point.IsAlarm)));

    /// <summary>One point for each piece.</summary>
    public IReadOnlyList<DriftPoint> Points { get; }

    /// <summary>The points that are alarms.</summary>
    public IReadOnlyList<DriftPoint> Alarms { get; }

    /// <summary>Statistics above it are alarms.</summary>
    public double Limit { get; }

    /// <summary>
    /// Average number of pieces up to a false alarm while nothing changes and the stated scatter is the true one.
    /// </summary>
    public double AverageRunLength { get; }

    /// <summary>Number of alarms and the rate of false ones.</summary>
    private protected override string InWords(Language language) => language.Text(
        "DriftResult", Alarms.Count, Points.Count, AverageRunLength);
}
