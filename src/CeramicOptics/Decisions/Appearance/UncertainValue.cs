using CeramicOptics.Decisions.Uncertainty;

namespace CeramicOptics.Decisions.Appearance;

/// <summary>A predicted number with its uncertainty.</summary>
public sealed class UncertainValue : Formattable
{
    internal UncertainValue(double value, SampledDifferences sampled)
    {
        (Value, Mean, StandardUncertainty) = (value, sampled.Mean, sampled.StandardDeviation);
        Interval95 = new Interval(sampled.Quantile(0.025), sampled.Quantile(0.975));
    }

    /// <summary>The prediction, with every input at its value.</summary>
    public double Value { get; }

    /// <summary>Mean of the distribution; for a difference it exceeds a small <see cref="Value"/>.</summary>
    public double Mean { get; }

    /// <summary>Standard uncertainty: standard deviation of the distribution.</summary>
    public double StandardUncertainty { get; }

    /// <summary>Interval that contains 95 % of the distribution, with equal tails.</summary>
    public Interval Interval95 { get; }

    /// <summary>For example "12.31 ± 0.42".</summary>
    private protected override string InWords(Language language) =>
        language.Text("UncertainValue", Value, StandardUncertainty);
}
