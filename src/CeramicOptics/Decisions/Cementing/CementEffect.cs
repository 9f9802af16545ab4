using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Cementing;

/// <summary>What one cement does to the colour of a restoration.</summary>
public sealed class CementEffect : IFormattable
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
    public override string ToString() => ToString(null);

    /// <summary>The same in the language of a culture.</summary>
    /// <param name="provider">A culture or a <see cref="Language"/>; null for English.</param>
    public string ToString(IFormatProvider? provider)
    {
        Language language = Language.Of(provider);
        return language.Text("CementEffect", Option.Bonded.Material.Name, language.Join("; ", Zones));
    }

    string IFormattable.ToString(string? format, IFormatProvider? provider) => ToString(provider);
}
