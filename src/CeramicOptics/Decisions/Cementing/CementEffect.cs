using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Cementing;

/// <summary>What one cement does to the colour of a restoration.</summary>
public sealed class CementEffect : Formattable
{
    internal CementEffect(CementOption option, Restoration restoration, IEnumerable<ZoneCementEffect> zones) =>
        (Option, Restoration, Zones) = (option, restoration, Guard.Copy(zones));

    /// <summary>The cement and its paste.</summary>
    public CementOption Option { get; }

    /// <summary>The restoration bonded with it.</summary>
    public Restoration Restoration { get; }

    /// <summary>One effect for each zone, in their order.</summary>
    public IReadOnlyList<ZoneCementEffect> Zones { get; }

    /// <summary>Largest difference to the references over all zones when bonded.</summary>
    public double WorstDifference => Zones.Max(zone => zone.AtAvailable.Difference);

    /// <summary>True when every zone meets the criterion when bonded.</summary>
    public bool Meets => WorstDifference <= Restoration.Criterion.Limit;

    /// <summary>The cement and one part for each zone.</summary>
    private protected override string InWords(Language language) =>
        language.Text("CementEffect", Option.Bonded.Material.Name, language.Join("; ", Zones));
}
