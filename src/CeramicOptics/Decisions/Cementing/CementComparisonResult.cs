using System.Text.Json.Serialization;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Cementing;

/// <summary>What each of several cements does to the colour of a restoration.</summary>
[JsonConverter(typeof(ReportConverter))]
public sealed class CementComparisonResult : Answer
{
    internal CementComparisonResult(
        Restoration restoration, IEnumerable<CementEffect> effects, IReadOnlyList<Caution> cautions)
        : base(cautions) => (Restoration, Effects) = (restoration, Guard.Copy(effects));

    /// <summary>The restoration that was asked about.</summary>
    public Restoration Restoration { get; }

    /// <summary>One effect for each cement, in the order given; the others are compared with the first.</summary>
    public IReadOnlyList<CementEffect> Effects { get; }

    /// <summary>One line for each cement.</summary>
    private protected override string InWords(Language language) => language.Join("\n", Effects);
}
