using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Masking;

/// <summary>
/// Which ceramic to review first: the most translucent one that masks reliably in the available room.
/// </summary>
/// <remarks>
/// Translucency makes a tooth look alive; opacity is the price of hiding a stump, to be paid only as far as needed.
/// </remarks>
public static class GradeChoice
{
    /// <summary>Assesses and orders ceramics.</summary>
    /// <param name="restoration">The restoration; its core is replaced by each ceramic.</param>
    /// <param name="ceramics">The ceramics to choose from, at least one.</param>
    /// <param name="options">What reliable means; the default when null.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="ArgumentException">
    /// No ceramic, two of one name (family and grade, or material), grids or models differ, or a
    /// target was read in another geometry.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A zone's available thickness is outside the range of the wall.
    /// </exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static GradeRanking Find(
        Restoration restoration, IEnumerable<Ceramic> ceramics, MaskingOptions? options = null,
        IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        Guard.NotNull(restoration);
        IReadOnlyList<Ceramic> candidates = DecisionGuard.Comparable(ceramics);
        double thinnest = restoration.Zones.Min(zone => zone.AvailableMm);
        List<GradeAssessment> assessments = [];
        foreach (Ceramic ceramic in candidates)
        {
            cancellation.ThrowIfCancellationRequested();
            MaskingResult masking = MaskingThickness.Find(restoration.WithCore(ceramic), options, null, cancellation);
            double translucency = WallTranslucency.Of(
                [new Layers.Layer(ceramic.Material, thinnest)], restoration.Viewing.Geometry);
            assessments.Add(new GradeAssessment(ceramic, masking, translucency));
            progress?.Report(assessments.Count / (double)candidates.Count);
        }

        IReadOnlyList<GradeAssessment> ordered = Guard.Copy(assessments
            .OrderByDescending(assessment => assessment.Masking.IsReliable)
            .ThenBy(
                assessment =>
                    assessment.Masking.IsReliable ? -assessment.DiscTranslucency : assessment.Masking.WorstDifference));
        return new GradeRanking(ordered, Guard.Copy(CautionsOf(ordered).Distinct()));
    }

    // Cautions that hold for some ceramics only count them or name the one: they would not be true of the others.
    private static IEnumerable<Caution> CautionsOf(IReadOnlyList<GradeAssessment> assessments)
    {
        foreach (GradeAssessment own in assessments)
        {
            foreach (Caution caution in own.Masking.Cautions)
            {
                yield return caution.Kind switch
                {
                    CautionKind.NotReliable or CautionKind.DoesNotFit => new Caution(
                        caution.Kind, value: assessments.Count(
                            assessment => assessment.Masking.Cautions.Any(said => said.Kind == caution.Kind))),
                    CautionKind.StructuralMinimumGoverns or CautionKind.BelowStructuralMinimum
                        or CautionKind.TooThickForTarget
                        when !assessments.All(assessment => assessment.Masking.Cautions.Contains(caution)) =>
                        new Caution(caution.Kind, caution.Subject, caution.Value, own.Ceramic.Material.Name),
                    _ => caution,
                };
            }
        }
    }
}
