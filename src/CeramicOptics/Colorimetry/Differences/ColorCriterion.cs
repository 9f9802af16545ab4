namespace CeramicOptics.Colorimetry.Differences;

/// <summary>
/// The largest colour difference that is acceptable: a formula, a limit, and where the limit comes from.
/// </summary>
public sealed record ColorCriterion : IFormattable
{
    private const string Paravina = "Paravina et al. 2015, J. Esthet. Restor. Dent. 27 Suppl. 1; ISO/TR 28642:2016";

    /// <summary>A criterion of the caller's own.</summary>
    /// <param name="name">Name to show in results.</param>
    /// <param name="formula">Difference formula.</param>
    /// <param name="limit">Largest difference that meets it, above 0 to 100.</param>
    /// <param name="source">Where the limit comes from.</param>
    /// <exception cref="ArgumentOutOfRangeException">Limit outside its range or NaN.</exception>
    public ColorCriterion(string name, ColorDifferenceFormula formula, double limit, string source)
    {
        Name = Guard.NotBlank(name);
        Formula = Guard.Defined(formula);
        Limit = Guard.InRange(limit, 1e-6, 100, "");
        Source = Guard.NotBlank(source);
    }

    /// <summary>Half of all observers accept the match: CIEDE2000 1.8.</summary>
    public static ColorCriterion AcceptabilityThreshold { get; } = new(
        "acceptability threshold", ColorDifferenceFormula.Ciede2000, 1.8, Paravina);

    /// <summary>Half of all observers see no difference: CIEDE2000 0.8.</summary>
    public static ColorCriterion PerceptibilityThreshold { get; } = new(
        "perceptibility threshold", ColorDifferenceFormula.Ciede2000, 0.8, Paravina);

    /// <summary>Half of all observers accept the match: CIELAB 2.7.</summary>
    public static ColorCriterion AcceptabilityThresholdCielab { get; } = new(
        "acceptability threshold", ColorDifferenceFormula.Cie76, 2.7, Paravina);

    /// <summary>Half of all observers see no difference: CIELAB 1.2.</summary>
    public static ColorCriterion PerceptibilityThresholdCielab { get; } = new(
        "perceptibility threshold", ColorDifferenceFormula.Cie76, 1.2, Paravina);

    /// <summary>The acceptability threshold by a formula.</summary>
    internal static ColorCriterion AcceptabilityBy(ColorDifferenceFormula formula) =>
        formula == ColorDifferenceFormula.Cie76 ? AcceptabilityThresholdCielab : AcceptabilityThreshold;

    /// <summary>The perceptibility threshold by a formula.</summary>
    internal static ColorCriterion PerceptibilityBy(ColorDifferenceFormula formula) =>
        formula == ColorDifferenceFormula.Cie76 ? PerceptibilityThresholdCielab : PerceptibilityThreshold;

    /// <summary>Name, such as "acceptability threshold".</summary>
    public string Name { get; }

    /// <summary>Difference formula.</summary>
    public ColorDifferenceFormula Formula { get; }

    /// <summary>Largest difference that meets the criterion.</summary>
    public double Limit { get; }

    /// <summary>Where the limit comes from.</summary>
    public string Source { get; }

    /// <summary>The difference of two colours by this criterion's formula.</summary>
    /// <param name="reference">Colour compared with.</param>
    /// <param name="sample">Colour judged.</param>
    public double Difference(Lab reference, Lab sample) => ColorDifference.Between(Formula, reference, sample);

    /// <summary>The same for many pairs.</summary>
    internal void Differences(ReadOnlySpan<Lab> references, ReadOnlySpan<Lab> samples, Span<double> destination)
    {
        if (Formula == ColorDifferenceFormula.Ciede2000)
        {
            ColorDifference.Ciede2000(references, samples, destination);
            return;
        }

        for (int i = 0; i < references.Length; i++)
        {
            destination[i] = Difference(references[i], samples[i]);
        }
    }

    /// <summary>For example "acceptability threshold (CIEDE2000 at most 1.8)".</summary>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider) =>
        Language.Of(provider).Text("ColorCriterion", Name, Formula, Limit);
}
