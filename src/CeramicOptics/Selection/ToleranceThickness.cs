using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;

namespace CeramicOptics.Selection;

/// <summary>How thick a layer must be nominally so that nearly all pieces meet the criterion, with all that varies from piece to piece.</summary>
public static class ToleranceThickness
{
    private const double StepMm = 0.02, ResolutionMm = 0.001;

    /// <summary>The thickness.</summary>
    /// <param name="stack">The restoration over its stump; the thickness of the ceramic is ignored.</param>
    /// <param name="ceramicLayer">Position of the ceramic, 0 at the surface.</param>
    /// <param name="rangeMm">Smallest and largest nominal thickness to consider, 0 to 100 mm.</param>
    /// <param name="reference">What the colour is compared with.</param>
    /// <param name="criterion">Difference that is good enough.</param>
    /// <param name="inputs">Standard uncertainties, here what varies from piece to piece and what is not known.</param>
    /// <param name="conditions">Illuminants, geometry, structural minimum; D65 and 2 degrees when null.</param>
    /// <param name="share">Share of pieces that must meet the criterion, 0.5 to 0.999.</param>
    /// <param name="samples">Samples at each thickness, 256 to 1 million; the same ones at all.</param>
    /// <param name="seed">The same seed gives the same result.</param>
    /// <param name="progress">Told the share done, 0 to 1.</param>
    /// <param name="cancellation">Stops the work between two thicknesses.</param>
    /// <remarks>Searched from the thick end in steps of 0.02 mm; a gap narrower than that can be missed.</remarks>
    /// <exception cref="ArgumentException">The number of uncertainties is not that of the layers, or grids differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A number is outside its range, or there is no such layer.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static ToleranceResult Find(
        LayerStack stack,
        int ceramicLayer,
        (double Min, double Max) rangeMm,
        MaskingReference reference,
        ColorCriterion criterion,
        InputUncertainty inputs,
        ViewingConditions? conditions = null,
        double share = 0.95,
        int samples = 2048,
        ulong seed = 1,
        IProgress<double>? progress = null,
        CancellationToken cancellation = default)
    {
        Guard.ThicknessRange(rangeMm);
        Guard.InRange(share, 0.5, 0.999, "");
        Guard.InRange(samples, 256, 1_000_000);
        ViewingConditions viewing = conditions ?? ViewingConditions.Default;
        UncertaintyModel model = new(stack, ceramicLayer, reference, criterion, inputs, viewing);
        NormalSequence sequence = new(model.Dimensions, samples, seed);
        int each = sequence.PerReplicate, count = sequence.Count;
        double[] points = new double[count * model.Dimensions];
        for (int k = 0; k < count; k++)
        {
            sequence.Next(points.AsSpan(k * model.Dimensions, model.Dimensions));
        }

        Probability At(double mm)
        {
            cancellation.ThrowIfCancellationRequested();
            double[] meets = new double[NormalSequence.Replicates];
            for (int k = 0; k < count; k++)
            {
                meets[k / each] += model.Difference(points.AsSpan(k * model.Dimensions, model.Dimensions), mm) <= criterion.Limit ? 1.0 / each : 0;
            }

            return PredictionUncertainty.Of(meets);
        }

        double[] thicknesses = MatchEvaluator.Thicknesses(rangeMm.Min, rangeMm.Max, StepMm);
        int first = thicknesses.Length;
        while (first > 0 && At(thicknesses[first - 1]).Value >= share)
        {
            first--;
            progress?.Report((thicknesses.Length - first) / (thicknesses.Length + 1.0));
        }

        double? optical = first == thicknesses.Length ? null : thicknesses[first];
        if (first > 0 && optical is double high)
        {
            double low = thicknesses[first - 1];
            while (high - low > ResolutionMm)
            {
                double middle = (low + high) / 2;
                (low, high) = At(middle).Value >= share ? (low, middle) : (middle, high);
            }

            optical = high;
        }

        double structural = viewing.StructuralMinimumMm ?? 0;
        double? recommended = optical is double mm && Math.Max(mm, structural) <= rangeMm.Max ? Math.Max(mm, structural) : null;
        List<Caution> cautions = [Caution.ToothReduction, .. model.Cautions];
        if (structural > (optical ?? double.PositiveInfinity))
        {
            cautions.Add(Caution.StructuralMinimum(structural));
        }

        ToleranceResult result = new(optical, recommended, share, At(recommended ?? rangeMm.Max), cautions.AsReadOnly());
        progress?.Report(1);
        return result;
    }
}
