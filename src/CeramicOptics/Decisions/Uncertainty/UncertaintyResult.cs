using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Uncertainty;

/// <summary>How sure the predicted differences of a restoration are.</summary>
public sealed class UncertaintyResult : IFormattable
{
    internal UncertaintyResult(IEnumerable<ZonePrediction> zones, IReadOnlyList<Caution> cautions) =>
        (Zones, Cautions) = (Guard.Copy(zones), cautions);

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
