using CeramicOptics.Decisions.Comparison;

namespace CeramicOptics.Decisions.Masking;

/// <summary>Finds every crossing, and the minimum, of the difference of a zone over the thickness of its wall by bounded subdivision.</summary>
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
        Point first = At(zone, zone.Range.MinMm), last = At(zone, zone.Range.MaxMm);
        Stack<(Point A, Point B)> open = new([(first, last)]);
        bool masked = first.Difference <= limit;
        while (open.Count > 0)
        {
            (Point a, Point b) = open.Pop();
            bool changes = a.Difference <= limit != b.Difference <= limit;
            if (!changes && IsDecided(zone.Bounds(a.Mm, b.Mm), limit))
            {
                continue;
            }

            if (b.Mm - a.Mm > ResolutionMm)
            {
                Point middle = At(zone, (a.Mm + b.Mm) / 2);
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

    /// <summary>The thickness of the range with the smallest difference, to 0.01.</summary>
    public static double Minimum(ZoneComparison zone)
    {
        Point first = At(zone, zone.Range.MinMm), last = At(zone, zone.Range.MaxMm);
        Point best = first.Difference <= last.Difference ? first : last;
        Queue<(Point A, Point B)> open = new([(first, last)]);
        for (int split = 0; open.Count > 0 && split < MaximumSplits; split++)
        {
            (Point a, Point b) = open.Dequeue();
            if (b.Mm - a.Mm <= ResolutionMm || zone.Bounds(a.Mm, b.Mm).Lower > best.Difference - MinimumTolerance)
            {
                continue;
            }

            Point middle = At(zone, (a.Mm + b.Mm) / 2);
            best = middle.Difference < best.Difference ? middle : best;
            open.Enqueue((a, middle));
            open.Enqueue((middle, b));
        }

        return best.Mm;
    }

    private static Point At(ZoneComparison zone, double mm) => new(mm, zone.Difference(mm));

    private static bool IsDecided((double Lower, double Upper) bounds, double limit) => bounds.Upper <= limit || bounds.Lower > limit;

    // Bisection; the end returned is the masked one, so that the answer itself meets the criterion.
    private static double Locate(ZoneComparison zone, Point a, Point b)
    {
        double limit = zone.Criterion.Limit, low = a.Mm, high = b.Mm;
        bool lowMasked = a.Difference <= limit;
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

    private readonly record struct Point(double Mm, double Difference);
}
