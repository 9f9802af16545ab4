using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;

namespace CeramicOptics.Selection;

/// <summary>Which ceramic to take: the most translucent one that masks at the thickness that is there.</summary>
/// <remarks>Translucency is what makes a tooth look alive; opacity is the price of hiding a stump and is paid only as far as needed.</remarks>
public static class GradeChoice
{
    /// <summary>Assesses and orders ceramics for a case.</summary>
    /// <param name="ceramics">The ceramics to choose from, at least one.</param>
    /// <param name="restoration">The case.</param>
    /// <param name="cancellation">Stops the work between two ceramics.</param>
    /// <exception cref="ArgumentException">No ceramic, or grids differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A zone's thickness is outside the range of the case.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static GradeRanking Rank(IEnumerable<Ceramic> ceramics, RestorationCase restoration, CancellationToken cancellation = default)
    {
        IReadOnlyList<Ceramic> candidates = Guard.Copy(ceramics, minimumCount: 1);
        Guard.NotNull(restoration);
        foreach (Zone zone in restoration.Zones)
        {
            Guard.InRange(zone.AvailableThicknessMm, restoration.RangeMm.Min, restoration.RangeMm.Max, "mm", $"available thickness of zone '{zone.Name}'");
        }

        List<GradeAssessment> assessments = [];
        foreach (Ceramic ceramic in candidates)
        {
            cancellation.ThrowIfCancellationRequested();
            assessments.Add(Assess(ceramic, restoration));
        }

        IReadOnlyList<GradeAssessment> ordered = Guard.Copy(assessments
            .OrderByDescending(assessment => assessment.Masks)
            .ThenBy(assessment => assessment.Masks ? -assessment.Translucency : assessment.WorstDifference));
        IReadOnlyList<Caution> cautions = Guard.Copy(ordered
            .SelectMany(assessment => assessment.Zones)
            .SelectMany(zone => zone.Masking.Cautions)
            .Distinct());
        return new GradeRanking(ordered, cautions);
    }

    private static GradeAssessment Assess(Ceramic ceramic, RestorationCase restoration)
    {
        ViewingConditions conditions = restoration.Conditions;
        int position = restoration.LayersAbove.Count;
        IReadOnlyList<ZoneAssessment> zones = Guard.Copy(restoration.Zones.Select(zone =>
        {
            LayerStack stack = restoration.StackOf(ceramic, zone.AvailableThicknessMm, zone.Substrate);
            DifferenceCurve curve = MaskingThickness.Curve(
                stack, position, restoration.RangeMm, zone.Reference, restoration.Criterion, [zone.Substrate], conditions);
            return new ZoneAssessment(
                zone, MaskingThickness.Find(curve, restoration.RangeMm), curve.Describe(curve.Evaluate(zone.AvailableThicknessMm)));
        }));
        return new GradeAssessment(ceramic, zones, WallTranslucency.Of([new Layer(ceramic.Material, restoration.Zones.Min(zone => zone.AvailableThicknessMm))], conditions.Geometry));
    }
}
