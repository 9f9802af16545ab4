using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Uncertainty;

/// <summary>How certain a predicted match or masking is.</summary>
public static class PredictionUncertainty
{
    /// <summary>
    /// Propagates the distributions of all inputs by quasi-Monte-Carlo (JCGM 101:2008), for each zone at its available
    /// thickness.
    /// </summary>
    /// <param name="restoration">The restoration.</param>
    /// <param name="options">Samples and seed; the default when null.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <remarks>
    /// Inputs are normal and independent: thicknesses of all layers, K, S and index of each material, stump, target,
    /// and the optical model's own error. Sixteen randomly shifted Richtmyer sequences (multiples of the square roots
    /// of primes; Niederreiter 1992, 3.1); their spread gives the standard errors.
    /// </remarks>
    /// <exception cref="ArgumentException">
    /// Grids or models differ, or a target was read in another geometry.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A zone's available thickness is outside the range of the wall.
    /// </exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static UncertaintyResult Find(
        Restoration restoration, SamplingOptions? options = null, IProgress<double>? progress = null,
        CancellationToken cancellation = default)
    {
        CompiledWall wall = new(Guard.NotNull(restoration), cancellation);
        List<ZonePrediction> zones = [];
        foreach (Zone zone in restoration.Zones)
        {
            zones.Add(Of(new ZoneComparison(wall, zone), options ?? new SamplingOptions(), cancellation));
            progress?.Report(zones.Count / (double)restoration.Zones.Count);
        }

        return new UncertaintyResult(restoration, zones, DecisionCautions.Of(restoration));
    }

    private static ZonePrediction Of(ZoneComparison comparison, SamplingOptions options, CancellationToken cancellation)
    {
        UncertaintyModel model = new(comparison);
        model.Prepare(comparison.Zone.AvailableMm);
        SampledDifferences sampled = SampledDifferences.Of(model, options, cancellation);
        ColorCriterion criterion = comparison.Criterion;
        return new ZonePrediction(
            comparison.Zone,
            comparison.Difference(comparison.Zone.AvailableMm),
            sampled.Mean,
            sampled.StandardDeviation,
            new Interval(sampled.Quantile(0.025), sampled.Quantile(0.975)),
            sampled.Within(criterion.Limit),
            sampled.Within(ColorCriterion.AcceptabilityBy(criterion.Formula).Limit),
            sampled.Within(ColorCriterion.PerceptibilityBy(criterion.Formula).Limit),
            model.Contributions(),
            sampled.Count);
    }
}
