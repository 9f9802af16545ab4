namespace CeramicOptics.Decisions.Appearance;

/// <summary>Colours of two stacks and their difference, with uncertainties.</summary>
public sealed class StackDifference : Formattable
{
    internal StackDifference(UncertainColor first, UncertainColor second, UncertainValue difference) =>
        (First, Second, Difference) = (first, second, difference);

    /// <summary>Colour of the first stack over its substrate.</summary>
    public UncertainColor First { get; }

    /// <summary>Colour of the second stack over its substrate.</summary>
    public UncertainColor Second { get; }

    /// <summary>Their difference by the formula asked for.</summary>
    public UncertainValue Difference { get; }

    /// <summary>For example "difference 2.13 ± 0.41".</summary>
    private protected override string InWords(Language language) => language.Text("StackDifference", Difference);
}
