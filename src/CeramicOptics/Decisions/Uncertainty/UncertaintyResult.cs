using System.Text.Json.Serialization;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Uncertainty;

/// <summary>How sure the predicted differences of a restoration are.</summary>
[JsonConverter(typeof(AnswerConverter))]
public sealed class UncertaintyResult : IAnswer
{
    internal UncertaintyResult(
        Restoration restoration, IEnumerable<ZonePrediction> zones, IReadOnlyList<Caution> cautions) =>
        (Restoration, Zones, Cautions) = (restoration, Guard.Copy(zones), cautions);

    /// <summary>The restoration whose colour is predicted.</summary>
    public Restoration Restoration { get; }

    /// <summary>One prediction for each zone, in their order.</summary>
    public IReadOnlyList<ZonePrediction> Zones { get; }

    /// <summary>
    /// The zone with the smallest probability to meet the criterion, among equals with the largest difference.
    /// </summary>
    public ZonePrediction Limiting =>
        Zones.OrderBy(zone => zone.Meets.Value).ThenByDescending(zone => zone.Difference).First();

    /// <summary>What must be shown with the result.</summary>
    public IReadOnlyList<Caution> Cautions { get; }

    /// <inheritdoc/>
    public override string ToString() => ToString(null);

    /// <summary>The same in the language of a culture.</summary>
    /// <param name="provider">A culture or a <see cref="Language"/>; null for English.</param>
    public string ToString(IFormatProvider? provider) => Language.Of(provider).Join("; ", Zones);

    string IFormattable.ToString(string? format, IFormatProvider? provider) => ToString(provider);
}
