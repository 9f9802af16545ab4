using System.Text.Json.Serialization;

namespace CeramicOptics.Restorations;

/// <summary>
/// An answer of the library to a question about restorations or stacks: a report with cautions that must be shown with
/// it.
/// </summary>
[JsonConverter(typeof(ReportConverter))]
public abstract class Answer : Report
{
    private protected Answer(IReadOnlyList<Caution> cautions) => Cautions = cautions;

    /// <summary>Cautions that must be shown with the answer.</summary>
    public virtual IReadOnlyList<Caution> Cautions { get; }
}
