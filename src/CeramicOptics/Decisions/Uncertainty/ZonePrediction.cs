using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Uncertainty;

/// <summary>
/// How certain the predicted difference of one zone at its available thickness is, and how probable a match.
/// </summary>
public sealed class ZonePrediction : Formattable
{
    internal ZonePrediction(
        Zone zone,
        double difference,
        double meanDifference,
        double standardUncertainty,
        Interval interval95,
        Probability meets,
        Probability acceptable,
        Probability imperceptible,
        IReadOnlyList<Contribution> contributions,
        int samples)
    {
        (Zone, Difference, MeanDifference, StandardUncertainty, Interval95) = (
            zone, difference, meanDifference, standardUncertainty, interval95);
        (Meets, Acceptable, Imperceptible, Contributions, Samples) = (
            meets, acceptable, imperceptible, contributions, samples);
    }

    /// <summary>The zone.</summary>
    public Zone Zone { get; }

    /// <summary>Largest difference over illuminants with every input at its value.</summary>
    public double Difference { get; }

    /// <summary>
    /// Mean of the difference over the inputs' distributions; a norm, it lies above <see cref="Difference"/> where that
    /// is small.
    /// </summary>
    public double MeanDifference { get; }

    /// <summary>
    /// Standard uncertainty of the difference: of its distribution, or first order where nothing was sampled.
    /// </summary>
    public double StandardUncertainty { get; }

    /// <summary>Interval that contains 95 % of the distribution of the difference, with equal tails.</summary>
    public Interval Interval95 { get; }

    /// <summary>Probability that the criterion asked for is met.</summary>
    public Probability Meets { get; }

    /// <summary>
    /// Probability of a difference within the acceptability threshold, which half of all observers accept (CIEDE2000
    /// 1.8 or CIELAB 2.7, by the criterion's formula).
    /// </summary>
    public Probability Acceptable { get; }

    /// <summary>
    /// Probability of a difference within the perceptibility threshold, which half of all observers do not see
    /// (CIEDE2000 0.8 or CIELAB 1.2).
    /// </summary>
    public Probability Imperceptible { get; }

    /// <summary>Inputs by what they do, the largest share first.</summary>
    public IReadOnlyList<Contribution> Contributions { get; }

    /// <summary>Number of samples.</summary>
    internal int Samples { get; }

    /// <summary>For example "cervical: 1.2 ± 0.4, meets the criterion with probability 0.930 ± 0.005".</summary>
    private protected override string InWords(Language language) =>
        language.Text("ZonePrediction", Zone.Name, Difference, StandardUncertainty, Meets);
}
