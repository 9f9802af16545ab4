using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Layers;

namespace CeramicOptics.Decisions.Masking;

/// <summary>
/// Finds every crossing, and the minimum, of the difference of a zone over the thickness of its wall by bounded
/// subdivision.
/// </summary>
internal static class CurveSearch
{
    // Intervals this short are judged by their ends alone.
    private const double ResolutionMm = 1e-4;
    private const double CrossingToleranceMm = 1e-9;
    private const double MinimumTolerance = 0.01;
    private const int MaximumSplits = 20000;

    /// <summary>Crossings of the limit over the range of the wall, rising.</summary>
    public static List<Crossing> Crossings(ZoneComparison zone)
    {
        double limit = zone.Criterion.Limit;
        List<Crossing> crossings = [];
        ComparisonPoint first = zone.Sample(zone.Range.MinMm), last = zone.Sample(zone.Range.MaxMm);
        Stack<(ComparisonPoint A, ComparisonPoint B)> open = new([(first, last)]);
        bool masked = first.Largest <= limit;
        while (open.Count > 0)
        {
            (ComparisonPoint a, ComparisonPoint b) = open.Pop();
            bool changes = a.Largest <= limit != b.Largest <= limit;
            if (!changes && IsDecided(zone.Bounds(a, b), limit))
            {
                continue;
            }

            if (b.WallMm - a.WallMm > ResolutionMm)
            {
                ComparisonPoint middle = zone.Sample((a.WallMm + b.WallMm) / 2);
                open.Push((middle, b));
                open.Push((a, middle));
            }
            else if (changes)
            {
                masked = !masked;
                crossings.Add(new Crossing(Locate(zone, a, b), masked));
            }
        }

        return crossings;
    }

    /// <summary>The ranges within the limit, rising: from one crossing to the next, or to the ends.</summary>
    /// <param name="crossings">All crossings, rising.</param>
    /// <param name="range">The range of the wall.</param>
    /// <param name="isMaskedThroughout">What holds where there is no crossing.</param>
    public static IReadOnlyList<ThicknessRange> MaskedRanges(
        IReadOnlyList<Crossing> crossings, ThicknessRange range, bool isMaskedThroughout)
    {
        List<ThicknessRange> ranges = [];
        double fromMm = range.MinMm;
        foreach (Crossing crossing in crossings)
        {
            if (crossing.IntoMasking)
            {
                fromMm = crossing.WallMm;
            }
            else
            {
                ranges.Add(new ThicknessRange(fromMm, crossing.WallMm));
            }
        }

        if (crossings.Count == 0 ? isMaskedThroughout : crossings[crossings.Count - 1].IntoMasking)
        {
            ranges.Add(new ThicknessRange(fromMm, range.MaxMm));
        }

        return ranges;
    }

    /// <summary>The thickness of the range with the smallest difference, to 0.01.</summary>
    public static double Minimum(ZoneComparison zone)
    {
        ComparisonPoint first = zone.Sample(zone.Range.MinMm), last = zone.Sample(zone.Range.MaxMm);
        ComparisonPoint best = first.Largest <= last.Largest ? first : last;
        Queue<(ComparisonPoint A, ComparisonPoint B)> open = new([(first, last)]);
        for (int split = 0; open.Count > 0 && split < MaximumSplits; split++)
        {
            (ComparisonPoint a, ComparisonPoint b) = open.Dequeue();
            if (b.WallMm - a.WallMm <= ResolutionMm || zone.Bounds(a, b).Lower > best.Largest - MinimumTolerance)
            {
                continue;
            }

            ComparisonPoint middle = zone.Sample((a.WallMm + b.WallMm) / 2);
            best = middle.Largest < best.Largest ? middle : best;
            open.Enqueue((a, middle));
            open.Enqueue((middle, b));
        }

        return best.WallMm;
    }

    private static bool IsDecided((double Lower, double Upper) bounds, double limit) =>
        bounds.Upper <= limit || bounds.Lower > limit;

    // Bisection; the end returned is the masked one, so that the answer itself meets the criterion.
    private static double Locate(ZoneComparison zone, ComparisonPoint a, ComparisonPoint b)
    {
        double limit = zone.Criterion.Limit, low = a.WallMm, high = b.WallMm;
        bool lowMasked = a.Largest <= limit;
        while (high - low > CrossingToleranceMm)
        {
            double middle = (low + high) / 2;
            if (zone.Difference(middle) <= limit == lowMasked)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }

        return lowMasked ? low : high;
    }
}
