using System.Text.Json.Serialization;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Masking;

/// <summary>How thick the wall must be in every zone so that the stump does not show.</summary>
[JsonConverter(typeof(ReportConverter))]
public sealed class MaskingResult : Answer
{
    internal MaskingResult(Restoration restoration, IEnumerable<ZoneMasking> zones, IReadOnlyList<Caution> cautions)
        : base(cautions) => (Restoration, Zones) = (restoration, Guard.Copy(zones));

    /// <summary>The restoration that was asked about.</summary>
    public Restoration Restoration { get; }

    /// <summary>One answer for each zone, in their order.</summary>
    public IReadOnlyList<ZoneMasking> Zones { get; }

    /// <summary>
    /// The limiting zone: the one without a reliable thickness or with the smallest margin to it; among equals, the one
    /// with the largest difference.
    /// </summary>
    public ZoneMasking Limiting => Zones
        .OrderBy(zone => zone.ReliableMarginMm ?? double.NegativeInfinity)
        .ThenByDescending(zone => zone.AtAvailable.Difference)
        .First();

    /// <summary>
    /// True when every zone masks reliably at its available thickness and strength limits that were given allow it.
    /// </summary>
    public bool IsReliable => Zones.All(zone => zone.IsReliable);

    /// <summary>Largest difference at available thickness over all zones.</summary>
    public double WorstDifference => Zones.Max(zone => zone.AtAvailable.Difference);

    /// <summary>One line for each zone.</summary>
    private protected override string InWords(Language language) => language.Join("\n", Zones);
}
