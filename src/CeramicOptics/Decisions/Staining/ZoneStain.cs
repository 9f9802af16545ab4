using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Staining;

/// <summary>What a mixture of stains does in one zone at its available thickness.</summary>
public sealed class ZoneStain : Formattable
{
    internal ZoneStain(
        Zone zone, LimitingCase without, LimitingCase withCarrier, LimitingCase with, double metamerism) =>
        (Zone, Without, WithCarrier, With, Metamerism) = (zone, without, withCarrier, with, metamerism);

    /// <summary>The zone.</summary>
    public Zone Zone { get; }

    /// <summary>The limiting light of the restoration as it stands, without any stain layer.</summary>
    public LimitingCase Without { get; }

    /// <summary>The limiting light with the carrier alone.</summary>
    public LimitingCase WithCarrier { get; }

    /// <summary>The limiting light with the mixture.</summary>
    public LimitingCase With { get; }

    /// <summary>
    /// Largest change of the L*a*b* offset from the target (its norm) when the light changes from the first colorimeter
    /// to another; 0 with one.
    /// </summary>
    public double Metamerism { get; }

    /// <summary>For example "body: 3.1 becomes 0.6".</summary>
    private protected override string InWords(Language language) =>
        language.Text("ZoneStain", Zone.Name, Without.Difference, With.Difference);
}
