using CeramicOptics.Layers;
using CeramicOptics.Restorations;
using static System.FormattableString;

namespace CeramicOptics.Decisions.Matching;

/// <summary>One way to make the restoration, judged against the targets of all zones.</summary>
public sealed class MatchCandidate
{
    internal MatchCandidate(Restoration asked, IReadOnlyList<LimitingCase> atWalls)
    {
        Zones = Guard.Copy(asked.Zones.Zip(atWalls, (zone, atWall) => new ZoneMatch(zone, atWall)));
        Restoration = asked.WithZones(Zones.Select(zone => zone.Zone.WithWall(zone.WallMm)));
    }

    /// <summary>
    /// The restoration so made: core, veneer and cement set, every zone with its wall as available thickness.
    /// </summary>
    public Restoration Restoration { get; }

    /// <summary>One outcome for each zone, in their order.</summary>
    public IReadOnlyList<ZoneMatch> Zones { get; }

    /// <summary>The zone with the largest difference.</summary>
    public ZoneMatch Limiting => Zones.OrderByDescending(zone => zone.Difference).First();

    /// <summary>Largest difference over zones and illuminants.</summary>
    public double WorstDifference => Zones.Max(zone => zone.Difference);

    /// <summary>
    /// Mean over zones, by their weights, of each zone's largest difference; the plain mean where all weights are 0.
    /// </summary>
    public double MeanDifference => Zone.WeightedMean(Zones.Select(zone => (zone.Zone, zone.Difference)));

    /// <summary>True when every zone meets the criterion under every illuminant.</summary>
    public bool Meets => WorstDifference <= Restoration.Criterion.Limit;

    /// <summary>
    /// TP00 of core and veneer alone in the thinnest zone, over ideal black and white, D65 and 2 degrees; worked out
    /// when asked for.
    /// </summary>
    public double Translucency => WallTranslucency.OfWall(Restoration, ThinnestMm);

    /// <summary>
    /// Which zone limits and what is wrong there, such as "zone 'cervical' under D65/2°: too dark by 2.1 (dL' -3.0, dC'
    /// 0.4, dH' 0.1)".
    /// </summary>
    public string Explanation
    {
        get
        {
            LimitingCase worst = Limiting.AtWall;
            return
                Invariant($"zone '{Limiting.Zone}' under {worst.Colorimeter}: {worst.InWords} (dL' ")
                + Invariant($"{worst.Terms.Lightness:+0.0;-0.0;0.0}, dC' {worst.Terms.Chroma:+0.0;-0.0;0.0}, dH' ")
                + Invariant($"{worst.Terms.Hue:+0.0;-0.0;0.0})");
        }
    }

    /// <summary>
    /// What it is made of, such as "Granary, grade 3 under enamel veneer, 30 % of the wall, with light cement".
    /// </summary>
    public override string ToString() => MadeOf(Restoration);

    internal double ThinnestMm => Zones.Min(zone => zone.WallMm);

    internal static string MadeOf(Restoration made)
    {
        string wall = made.Veneer is null ? made.Core.ToString() : $"{made.Core} under {made.Veneer},";
        return made.Cement is Layer cement ? $"{wall} with {cement.Material}" : $"{wall} on {made.Coupling}";
    }
}
