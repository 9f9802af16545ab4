using System.Text.Json.Serialization;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Appearance;

/// <summary>Colours of two stacks and their difference, with uncertainties.</summary>
[JsonConverter(typeof(ReportConverter))]
public sealed class StackDifference : Answer
{
    internal StackDifference(
        IReadOnlyList<UncertainStack> stacks, AppearanceOptions options, ColorDifferenceFormula formula,
        UncertainColor first, UncertainColor second, UncertainValue difference)
        : base(StackCautions.Of(options, stacks))
    {
        (Stacks, Options, Formula) = (stacks, options, formula);
        (First, Second, Difference) = (first, second, difference);
    }

    /// <summary>The two stacks, in the order given.</summary>
    internal IReadOnlyList<UncertainStack> Stacks { get; }

    /// <summary>How they were seen; backings are not used.</summary>
    public AppearanceOptions Options { get; }

    /// <summary>Formula of the difference.</summary>
    public ColorDifferenceFormula Formula { get; }

    /// <summary>Colour of the first stack over its substrate.</summary>
    public UncertainColor First { get; }

    /// <summary>Colour of the second stack over its substrate.</summary>
    public UncertainColor Second { get; }

    /// <summary>Their difference by the formula asked for.</summary>
    public UncertainValue Difference { get; }

    /// <summary>For example "difference 2.13 ± 0.41".</summary>
    private protected override string InWords(Language language) => language.Text("StackDifference", Difference);
}
