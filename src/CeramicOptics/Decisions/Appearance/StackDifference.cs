namespace CeramicOptics.Decisions.Appearance;

/// <summary>Colours of two stacks and their difference, with uncertainties.</summary>
public sealed class StackDifference : IFormattable
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
    public override string ToString() => ToString(null);

    /// <summary>The same in the language of a culture.</summary>
    /// <param name="provider">A culture or a <see cref="Language"/>; null for English.</param>
    public string ToString(IFormatProvider? provider) =>
        Language.Of(provider).Text("StackDifference", Difference);

    string IFormattable.ToString(string? format, IFormatProvider? provider) => ToString(provider);
}
