using System.Text.Json.Serialization;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Cementing;

/// <summary>What each of several cements does to the colour of a restoration.</summary>
[JsonConverter(typeof(AnswerConverter))]
public sealed class CementComparisonResult : Formattable, IAnswer
{
    internal CementComparisonResult(
        Restoration restoration, IEnumerable<CementEffect> effects, IReadOnlyList<Caution> cautions) =>
        (Restoration, Effects, Cautions) = (restoration, Guard.Copy(effects), cautions);

    /// <summary>The restoration that was asked about.</summary>
    public Restoration Restoration { get; }

    /// <summary>One effect for each cement, in the order given; the others are compared with the first.</summary>
    public IReadOnlyList<CementEffect> Effects { get; }

    /// <summary>Cautions that must be shown with the result.</summary>
    public IReadOnlyList<Caution> Cautions { get; }

    /// <summary>One line for each cement.</summary>
    private protected override string InWords(Language language) => language.Join("\n", Effects);
}
