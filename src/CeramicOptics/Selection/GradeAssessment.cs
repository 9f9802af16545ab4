namespace CeramicOptics.Selection;

/// <summary>How one ceramic does in all zones.</summary>
/// <param name="Ceramic">The ceramic.</param>
/// <param name="Zones">One assessment for each zone of the case.</param>
/// <param name="Translucency">TP00 of a free disc as thick as the thinnest zone, over ideal black and white in optical contact, D65 and 2 degrees.</param>
public sealed record GradeAssessment(Ceramic Ceramic, IReadOnlyList<ZoneAssessment> Zones, double Translucency)
{
    /// <summary>True when it masks in every zone at the thickness that is there.</summary>
    public bool Masks => Zones.All(zone => zone.Masks);

    /// <summary>The zone that limits: without any recommended thickness, or with the smallest margin, and among equals the largest difference.</summary>
    public ZoneAssessment LimitingZone => Zones
        .OrderBy(zone => zone.MarginMm ?? double.NegativeInfinity)
        .ThenByDescending(zone => zone.AtAvailable.Difference)
        .First();

    /// <summary>Largest difference at available thickness over all zones.</summary>
    public double WorstDifference => Zones.Max(zone => zone.AtAvailable.Difference);
}
