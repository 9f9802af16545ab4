namespace CeramicOptics.Selection;

/// <summary>How sure a predicted difference is, and how probable a match.</summary>
public sealed record UncertaintyResult
{
    internal UncertaintyResult()
    {
    }

    /// <summary>Largest difference over illuminants with every input at its value.</summary>
    public required double Difference { get; init; }

    /// <summary>Mean of the difference over the inputs' distributions; a norm, it lies above <see cref="Difference"/> where that is small.</summary>
    public required double MeanDifference { get; init; }

    /// <summary>Standard uncertainty of the difference.</summary>
    public required double StandardUncertainty { get; init; }

    /// <summary>Interval that holds 95 % of the distribution of the difference, with equal tails.</summary>
    public required (double Low, double High) Interval95 { get; init; }

    /// <summary>Probability that the criterion asked for is met.</summary>
    public required Probability Meets { get; init; }

    /// <summary>Probability of a difference that half of all observers accept (CIEDE2000 1.8 or CIELAB 2.7, by the criterion's formula).</summary>
    public required Probability Acceptable { get; init; }

    /// <summary>Probability of a difference that half of all observers do not see (CIEDE2000 0.8 or CIELAB 1.2).</summary>
    public required Probability Imperceptible { get; init; }

    /// <summary>Inputs by what they do, the largest share first.</summary>
    public required IReadOnlyList<Contribution> Contributions { get; init; }

    /// <summary>Number of samples; 0 for a first-order estimate.</summary>
    public required int Samples { get; init; }

    /// <summary>What must be shown with the result.</summary>
    public required IReadOnlyList<Caution> Cautions { get; init; }
}
