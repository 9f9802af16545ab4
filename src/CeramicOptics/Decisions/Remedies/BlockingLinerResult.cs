namespace CeramicOptics.Selection;

/// <summary>Whether an opaque layer under the ceramic makes it work, how thick it must be, and what it costs.</summary>
/// <param name="ThicknessMm">The thinnest liner with which every zone meets the criterion, mm (to 0.001); null when none does.</param>
/// <param name="Zones">The limiting illuminant in each zone with that liner, or with the best one when none works.</param>
/// <param name="BestMm">Thickness of the liner with the smallest largest difference among those tried, mm.</param>
/// <param name="TranslucencyWithout">TP00 of the thinnest wall without liner, over ideal black and white, D65 and 2 degrees.</param>
/// <param name="TranslucencyWith">The same wall with the liner at <paramref name="ThicknessMm"/>, or at the best one.</param>
/// <param name="Cautions">What must be shown with the result.</param>
public sealed record BlockingLinerResult(
    double? ThicknessMm, IReadOnlyList<WorstCase> Zones, double BestMm, double TranslucencyWithout, double TranslucencyWith, IReadOnlyList<Caution> Cautions)
{
    /// <summary>Largest difference over zones with that liner.</summary>
    public double WorstDifference => Zones.Max(zone => zone.Difference);
}
