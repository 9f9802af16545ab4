using System.Text.Json.Serialization;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Uncertainty;

/// <summary>How certain the predicted differences of a restoration are.</summary>
[JsonConverter(typeof(ReportConverter))]
public sealed class UncertaintyResult : Answer
{
    internal UncertaintyResult(
        Restoration restoration, IEnumerable<ZonePrediction> zones, IReadOnlyList<Caution> cautions)
        : base(cautions) => (Restoration, Zones) = (restoration, Guard.Copy(zones));

    /// <summary>The restoration whose colour is predicted.</summary>
    public Restoration Restoration { get; }

    /// <summary>One prediction for each zone, in their order.</summary>
    public IReadOnlyList<ZonePrediction> Zones { get; }

    /// <summary>
    /// The zone with the smallest probability to meet the criterion, among equals with the largest difference.
    /// </summary>
    public ZonePrediction Limiting =>
        Zones.OrderBy(zone => zone.Meets.Value).ThenByDescending(zone => zone.Difference).First();

    private protected override string InWords(Language language) => language.Join("; ", Zones);
}
