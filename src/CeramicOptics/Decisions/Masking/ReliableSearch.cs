using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Layers;

namespace CeramicOptics.Decisions.Masking;

/// <summary>Finds thicknesses at which a share of pieces meets the criterion, with every input uncertain.</summary>
internal sealed class ReliableSearch(
    ZoneComparison comparison, UncertaintyModel model, NormalPoints points, double share,
    CancellationToken cancellation)
{
    private const double StepMm = 0.05, ResolutionMm = 0.001;
    private const int LeastSteps = 16;

    /// <summary>
    /// From the thinnest wall from which on all up to the end of a range are reliable, to that end; null when the end
    /// is not. Never below the range, which half of all pieces would miss.
    /// </summary>
    public ThicknessRange? UpToTheEnd(ThicknessRange met)
    {
        double high = met.MaxMm;
        if (!IsReliable(high))
        {
            return null;
        }

        double low = high;
        while (low > met.MinMm)
        {
            low = Math.Max(low - StepMm, met.MinMm);
            if (!IsReliable(low))
            {
                return new ThicknessRange(Edge(low, high), met.MaxMm);
            }

            high = low;
        }

        return met;
    }

    /// <summary>
    /// The thinnest reliable walls of a range that allow a wall of a smallest thickness; the thinnest of all when none
    /// does, null when there are none.
    /// </summary>
    public ThicknessRange? Thinnest(ThicknessRange met, double smallestMm)
    {
        double width = met.MaxMm - met.MinMm;
        double[] walls = met.Steps(Math.Max(Math.Min(StepMm, width / LeastSteps), ResolutionMm));
        ThicknessRange? thinnest = null;
        double? from = null;
        for (int i = 0; i < walls.Length; i++)
        {
            bool isReliable = IsReliable(walls[i]);
            if (isReliable)
            {
                from ??= i == 0 ? walls[0] : Edge(walls[i - 1], walls[i]);
            }

            if (from is double first && (!isReliable || i == walls.Length - 1))
            {
                ThicknessRange found = new(first, isReliable ? walls[i] : Edge(walls[i], walls[i - 1]));
                thinnest ??= found;
                if (Allows(found, smallestMm))
                {
                    return found;
                }

                from = null;
            }
        }

        return thinnest;
    }

    /// <summary>
    /// Of ranges that meet a target, rising, the thinnest that reliably allows a wall of a smallest thickness; else the
    /// thinnest that is reliable anywhere, else the thinnest.
    /// </summary>
    public static (ThicknessRange? Met, ThicknessRange? Reliable) ThinnestOf(
        IEnumerable<ThicknessRange> ranges, double smallestMm, Func<ThicknessRange, ThicknessRange?> reliableIn)
    {
        (ThicknessRange? Met, ThicknessRange? Reliable) answer = (null, null);
        foreach (ThicknessRange met in ranges)
        {
            ThicknessRange? reliable = reliableIn(met);
            if (reliable is { } found && Allows(found, smallestMm))
            {
                return (met, found);
            }

            if (answer.Met is null || (answer.Reliable is null && reliable is not null))
            {
                answer = (met, reliable);
            }
        }

        return answer;
    }

    // True when a range has a wall of at least a thickness, as it is shown, rounded up.
    private static bool Allows(ThicknessRange reliable, double smallestMm) =>
        Guard.RoundedUp(Math.Max(reliable.MinMm, smallestMm)) <= reliable.MaxMm;

    private bool IsReliable(double mm)
    {
        // So far below the limit that even the largest share is met.
        const double Enough = 6;
        double difference = comparison.Difference(mm), limit = comparison.Criterion.Limit;
        if (difference > limit)
        {
            return false;
        }

        model.Prepare(mm);
        return difference + (Enough * model.StandardUncertainty()) <= limit
            || SampledDifferences.Of(model, points, cancellation).Within(limit).Value >= share;
    }

    // The reliable end of what lies between a wall that is not reliable and one that is.
    private double Edge(double notReliable, double reliable)
    {
        while (Math.Abs(reliable - notReliable) > ResolutionMm)
        {
            double middle = (notReliable + reliable) / 2;
            (notReliable, reliable) = IsReliable(middle) ? (notReliable, middle) : (middle, reliable);
        }

        return reliable;
    }
}
