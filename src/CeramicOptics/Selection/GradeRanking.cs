namespace CeramicOptics.Selection;

/// <summary>All ceramics in the order of preference.</summary>
/// <param name="Assessments">Those that mask first, the most translucent at the top; then the others by their worst difference.</param>
/// <param name="Cautions">What must be shown with the ranking.</param>
public sealed record GradeRanking(IReadOnlyList<GradeAssessment> Assessments, IReadOnlyList<Caution> Cautions)
{
    /// <summary>The most translucent ceramic that masks in every zone; null when none does.</summary>
    public GradeAssessment? Recommended => Assessments[0].Masks ? Assessments[0] : null;
}
