using System.Text.Json.Serialization;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Staining;

/// <summary>
/// The mixture of stains that comes closest to the targets, for review, and the remaining difference.
/// </summary>
[JsonConverter(typeof(ReportConverter))]
public sealed class StainRecipe : Answer
{
    private const double LeastGain = 0.1;

    internal StainRecipe(
        Restoration restoration, StainOptions options, IReadOnlyList<StainPart> parts, IReadOnlyList<ZoneStain> zones,
        int mixtures, int starts, int startsAgreeing, IReadOnlyList<Caution> cautions)
        : base(cautions)
    {
        (Restoration, Options, Parts, Zones) = (restoration, options, Guard.Copy(parts), Guard.Copy(zones));
        (Mixtures, Starts, StartsAgreeing) = (mixtures, starts, startsAgreeing);
    }

    /// <summary>The restoration that was asked about.</summary>
    public Restoration Restoration { get; }

    /// <summary>The choices offered.</summary>
    internal StainOptions Options { get; }

    /// <summary>
    /// The pigments with their loads, the largest load first; empty when no pigment brings the carrier closer to the
    /// targets.
    /// </summary>
    public IReadOnlyList<StainPart> Parts { get; }

    /// <summary>The fired layer with the mixture.</summary>
    public Layer Layer => Options.Layer.Fired(Parts);

    /// <summary>What it does in each zone, in their order.</summary>
    public IReadOnlyList<ZoneStain> Zones { get; }

    /// <summary>Largest difference over zones of the restoration as it stands.</summary>
    public double WorstWithout => Zones.Max(zone => zone.Without.Difference);

    /// <summary>Largest difference over zones with the carrier alone.</summary>
    public double WorstWithCarrier => Zones.Max(zone => zone.WithCarrier.Difference);

    /// <summary>Largest difference over zones that remains.</summary>
    public double WorstWith => Zones.Max(zone => zone.With.Difference);

    /// <summary>Largest <see cref="ZoneStain.Metamerism"/> over zones.</summary>
    public double Metamerism => Zones.Max(zone => zone.Metamerism);

    /// <summary>True when every zone meets the criterion under every illuminant.</summary>
    public bool Meets => WorstWith <= Restoration.Criterion.Limit;

    /// <summary>
    /// True when the largest difference is at least 0.1 smaller with the mixture than as the restoration stands; a
    /// smaller gain does not show and is not worth a firing (common practice, no source).
    /// </summary>
    public bool Helps => WorstWithout - WorstWith >= LeastGain;

    /// <summary>Number of sets of pigments that were optimized.</summary>
    public int Mixtures { get; }

    /// <summary>Number of starting points from which the chosen set was optimized again.</summary>
    public int Starts { get; }

    /// <summary>Number of these that gave the same largest difference (to 0.01).</summary>
    public int StartsAgreeing { get; }

    /// <summary>For example "ochre 0.42, white 0.1: difference 3.1 becomes 0.6".</summary>
    private protected override string InWords(Language language)
    {
        string mixture = Parts.Count == 0
            ? language.Text("StainRecipe.Carrier", Options.Layer.Carrier.Name)
            : language.Join(", ", Parts);
        return language.Text("StainRecipe", mixture, WorstWithout, WorstWith);
    }
}
