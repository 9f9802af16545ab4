using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using MathNet.Numerics.Distributions;

namespace CeramicOptics.Selection;

/// <summary>How sure a predicted match is.</summary>
/// <remarks>
/// Inputs are normal: thicknesses of all layers, the common scale of K and S of each material, the stump, the target, refractive indices,
/// and the reading noise of K and S. Thicknesses, scales, stump and target go through the full model; the small, many and independent rest
/// enters linearly in tristimulus values, with its covariance between illuminants. Errors of two-flux theory itself are not included.
/// </remarks>
public static class PredictionUncertainty
{
    /// <summary>First-order propagation (JCGM 100:2008).</summary>
    /// <param name="stack">The restoration over its stump.</param>
    /// <param name="ceramicLayer">Position of the ceramic, 0 at the surface; matters for a self-backed reference.</param>
    /// <param name="reference">What the colour is compared with.</param>
    /// <param name="criterion">Difference that is good enough.</param>
    /// <param name="inputs">Standard uncertainties.</param>
    /// <param name="conditions">Illuminants and geometry; D65 and 2 degrees when null. The stump's uncertainty is taken from <paramref name="inputs"/>.</param>
    /// <remarks>The difference is taken as normal; good where it is several times its uncertainty and one illuminant limits throughout, else take <see cref="Sample"/>.</remarks>
    /// <exception cref="ArgumentException">The number of uncertainties is not that of the layers, or grids differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">No such layer.</exception>
    public static UncertaintyResult FirstOrder(
        LayerStack stack, int ceramicLayer, MaskingReference reference, ColorCriterion criterion, InputUncertainty inputs, ViewingConditions? conditions = null)
    {
        UncertaintyModel model = new(stack, ceramicLayer, reference, criterion, inputs, conditions ?? ViewingConditions.Default);
        double[] z = new double[model.Dimensions];
        double nominal = model.Difference(z), variance = 0;
        for (int i = 0; i < z.Length; i++)
        {
            (double low, double high) = model.Around(i);
            variance += (high - low) * (high - low) / 4;
        }

        double u = Math.Sqrt(variance);
        Probability Below(double limit) => new(u > 0 ? Normal.CDF(0, 1, (limit - nominal) / u) : nominal <= limit ? 1 : 0, 0);
        double acceptable = ColorCriterion.AcceptableBy(criterion.Formula).Limit, imperceptible = ColorCriterion.ImperceptibleBy(criterion.Formula).Limit;
        return new UncertaintyResult
        {
            Difference = nominal,
            MeanDifference = nominal,
            StandardUncertainty = u,
            Interval95 = (Math.Max(0, nominal - (1.959964 * u)), nominal + (1.959964 * u)),
            Meets = Below(criterion.Limit),
            Acceptable = Below(acceptable),
            Imperceptible = Below(imperceptible),
            Contributions = model.Contributions(),
            Samples = 0,
            Cautions = model.Cautions,
        };
    }

    /// <summary>Propagation of distributions by quasi-Monte-Carlo (JCGM 101:2008).</summary>
    /// <param name="stack">The restoration over its stump.</param>
    /// <param name="ceramicLayer">Position of the ceramic, 0 at the surface; matters for a self-backed reference.</param>
    /// <param name="reference">What the colour is compared with.</param>
    /// <param name="criterion">Difference that is good enough.</param>
    /// <param name="inputs">Standard uncertainties.</param>
    /// <param name="conditions">Illuminants and geometry; D65 and 2 degrees when null.</param>
    /// <param name="samples">Number of samples, 256 to 10 million; rounded up to a multiple of 16.</param>
    /// <param name="seed">The same seed gives the same result.</param>
    /// <param name="progress">Told the share done, 0 to 1.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <remarks>Sixteen randomly shifted Richtmyer sequences (multiples of the square roots of primes; Niederreiter 1992, 3.1); their spread gives the standard errors.</remarks>
    /// <exception cref="ArgumentException">The number of uncertainties is not that of the layers, or grids differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">No such layer, or the number of samples is outside its range.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static UncertaintyResult Sample(
        LayerStack stack,
        int ceramicLayer,
        MaskingReference reference,
        ColorCriterion criterion,
        InputUncertainty inputs,
        ViewingConditions? conditions = null,
        int samples = 10_000,
        ulong seed = 1,
        IProgress<double>? progress = null,
        CancellationToken cancellation = default)
    {
        Guard.InRange(samples, 256, 10_000_000);
        UncertaintyModel model = new(stack, ceramicLayer, reference, criterion, inputs, conditions ?? ViewingConditions.Default);
        NormalSequence sequence = new(model.Dimensions, samples, seed);
        int each = sequence.PerReplicate;
        double[] differences = new double[sequence.Count];
        double[] z = new double[model.Dimensions];
        double acceptable = ColorCriterion.AcceptableBy(criterion.Formula).Limit, imperceptible = ColorCriterion.ImperceptibleBy(criterion.Formula).Limit;
        double[] meets = new double[NormalSequence.Replicates], accepts = new double[NormalSequence.Replicates], unseen = new double[NormalSequence.Replicates];
        for (int r = 0; r < NormalSequence.Replicates; r++)
        {
            cancellation.ThrowIfCancellationRequested();
            for (int k = 0; k < each; k++)
            {
                sequence.Next(z);
                double difference = model.Difference(z);
                differences[(r * each) + k] = difference;
                meets[r] += difference <= criterion.Limit ? 1.0 / each : 0;
                accepts[r] += difference <= acceptable ? 1.0 / each : 0;
                unseen[r] += difference <= imperceptible ? 1.0 / each : 0;
            }

            progress?.Report((r + 1.0) / NormalSequence.Replicates);
        }

        double mean = differences.Average(), variance = differences.Sum(value => (value - mean) * (value - mean)) / (differences.Length - 1);
        double nominal = model.Difference(new double[model.Dimensions]);
        Array.Sort(differences);
        return new UncertaintyResult
        {
            Difference = nominal,
            MeanDifference = mean,
            StandardUncertainty = Math.Sqrt(variance),
            Interval95 = (Quantile(differences, 0.025), Quantile(differences, 0.975)),
            Meets = Of(meets),
            Acceptable = Of(accepts),
            Imperceptible = Of(unseen),
            Contributions = model.Contributions(),
            Samples = differences.Length,
            Cautions = model.Cautions,
        };
    }

    internal static Probability Of(double[] replicates)
    {
        double mean = replicates.Average(), squares = replicates.Sum(value => (value - mean) * (value - mean));
        return new Probability(Math.Min(1, mean), Math.Sqrt(squares / (replicates.Length - 1) / replicates.Length));
    }

    // By linear interpolation; share below 1.
    private static double Quantile(double[] sorted, double share)
    {
        double position = share * (sorted.Length - 1);
        int below = (int)position;
        return sorted[below] + ((position - below) * (sorted[below + 1] - sorted[below]));
    }
}
