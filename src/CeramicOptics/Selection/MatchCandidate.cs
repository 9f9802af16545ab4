using CeramicOptics.Layers;

namespace CeramicOptics.Selection;

/// <summary>One way to make the restoration, judged against the targets of all zones.</summary>
/// <param name="Ceramic">The ceramic of all zones.</param>
/// <param name="Veneer">The veneering ceramic over it; null for one ceramic alone.</param>
/// <param name="VeneerShare">Share of the wall that the veneer takes; 0 for one ceramic alone.</param>
/// <param name="Zones">One outcome for each zone.</param>
/// <param name="Meets">True when every zone meets the criterion under every illuminant.</param>
public sealed record MatchCandidate(Ceramic Ceramic, Material? Veneer, double VeneerShare, IReadOnlyList<ZoneMatch> Zones, bool Meets)
{
    /// <summary>The zone with the largest difference.</summary>
    public ZoneMatch Limiting => Zones.OrderByDescending(zone => zone.Worst.Difference).First();

    /// <summary>Largest difference over zones and illuminants.</summary>
    public double WorstDifference => Zones.Max(zone => zone.Worst.Difference);

    /// <summary>Mean over zones, by their weights, of each zone's largest difference; the plain mean where all weights are 0.</summary>
    public double MeanDifference => Zone.WeightedMean(Zones.Select(zone => (zone.Zone, zone.Worst.Difference)));

    /// <summary>TP00 of the thinnest wall, its ceramic and veneer alone, over ideal black and white, D65 and 2 degrees.</summary>
    public double Translucency => WallTranslucency.Of(Design.Layers(Zones.Min(zone => zone.WallMm)));

    /// <summary>Which zone limits and what is wrong there, such as "zone 'neck' under D65/2°: too dark by 2.1 (dL' -3.0, dC' 0.4, dH' 0.1)".</summary>
    public string Explanation
    {
        get
        {
            WorstCase worst = Limiting.Worst;
            return FormattableString.Invariant(
                $"zone '{Limiting.Zone.Name}' under {worst.Colorimeter}: {worst.InWords} (dL' {worst.Terms.Lightness:+0.0;-0.0;0.0}, dC' {worst.Terms.Chroma:+0.0;-0.0;0.0}, dH' {worst.Terms.Hue:+0.0;-0.0;0.0})");
        }
    }

    /// <summary>Ceramic and veneer, such as "Granary, grade 3 under enamel veneer (30 %)".</summary>
    public override string ToString() =>
        Veneer is null ? Ceramic.ToString() : FormattableString.Invariant($"{Ceramic} under {Veneer} ({100 * VeneerShare:0} %)");

    internal WallDesign Design => new(Ceramic, Veneer, VeneerShare);
}
