using System.Text.Json.Serialization;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Masking;

/// <summary>All ceramics in order of preference, for review.</summary>
[JsonConverter(typeof(ReportConverter))]
public sealed class GradeRanking : Answer
{
    internal GradeRanking(IReadOnlyList<GradeAssessment> assessments, IReadOnlyList<Caution> cautions)
        : base(cautions) => Assessments = assessments;

    /// <summary>
    /// Those that mask reliably first, the most translucent at the top; then the others by their largest difference.
    /// </summary>
    public IReadOnlyList<GradeAssessment> Assessments { get; }

    /// <summary>
    /// The most translucent ceramic that masks reliably in every zone and has a strength limit in each, for review;
    /// null when there is none.
    /// </summary>
    public GradeAssessment? Suggested => Assessments.FirstOrDefault(assessment => assessment.Masking.IsReliable
        && assessment.Masking.Zones.All(zone => zone.Minimum.StructuralMm is not null));

    /// <summary>One line for each ceramic.</summary>
    private protected override string InWords(Language language) => language.Join("\n", Assessments);
}
