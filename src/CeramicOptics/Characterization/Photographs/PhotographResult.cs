using System.Text.Json.Serialization;
using CeramicOptics.Colorimetry;

namespace CeramicOptics.Characterization.Photographs;

/// <summary>
/// Colours found from a photograph, how well the chart supports them, and what must be known about them.
/// </summary>
[JsonConverter(typeof(ReportConverter))]
public sealed class PhotographResult : Report
{
    internal PhotographResult(
        Colorimeter under, CorrectionEvaluation correction, IEnumerable<CorrectionEvaluation> evaluations,
        IEnumerable<ChartError> chart, IEnumerable<PhotographedColor> colors, IEnumerable<PhotographFinding> findings)
    {
        (Under, Correction) = (under, correction);
        Evaluations = Guard.Copy(evaluations);
        Chart = Guard.Copy(chart);
        Colors = Guard.Copy(colors);
        Findings = Guard.Copy(findings);
    }

    /// <summary>Illuminant and observer of all colours: those of the chart's known colours.</summary>
    public Colorimeter Under { get; }

    /// <summary>The method used, with its leave-one-out errors.</summary>
    public CorrectionEvaluation Correction { get; }

    /// <summary>Every method that was considered, in the order of <see cref="CorrectionMethod"/>.</summary>
    public IReadOnlyList<CorrectionEvaluation> Evaluations { get; }

    /// <summary>Leave-one-out error of every patch of the chart that was used, in the order given.</summary>
    public IReadOnlyList<ChartError> Chart { get; }

    /// <summary>Colours of the patches of the tooth, in the order given.</summary>
    public IReadOnlyList<PhotographedColor> Colors { get; }

    /// <summary>All findings: about the photograph, about the chart, then those of every patch of the tooth.</summary>
    public IReadOnlyList<PhotographFinding> Findings { get; }

    /// <summary>The colour of a patch of the tooth.</summary>
    /// <param name="name">Name of the patch.</param>
    /// <exception cref="ArgumentException">No patch of the tooth has this name; lists those that there are.</exception>
    public PhotographedColor this[string name] =>
        Colors.FirstOrDefault(color => color.Name == name) ?? throw new ArgumentException(
            $"No patch of the tooth is called '{name}'; there are: {string.Join(", ", Colors.Select(it => it.Name))}.",
            nameof(name));

    /// <summary>
    /// The method and the colours, such as "linear (3 terms): mean 1.20, largest 4.01; stump: L* ...".
    /// </summary>
    private protected override string InWords(Language language) =>
        language.Text("PhotographResult", Correction, language.Join("; ", Colors));
}
