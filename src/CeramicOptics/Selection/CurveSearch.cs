namespace CeramicOptics.Selection;

/// <summary>Finds every crossing, and the minimum, of a <see cref="DifferenceCurve"/> by bounded subdivision.</summary>
internal static class CurveSearch
{
    // Intervals this short are judged by their ends alone.
    private const double ResolutionMm = 1e-4;
    private const double CrossingToleranceMm = 1e-9;
    private const double MinimumTolerance = 0.01;
    private const int MaximumSplits = 20000;

    /// <summary>Crossings of the limit between two points, rising.</summary>
    public static List<Crossing> Crossings(DifferenceCurve curve, CurvePoint from, CurvePoint to)
    {
        double limit = curve.Criterion.Limit;
        List<Crossing> crossings = [];
        Stack<(CurvePoint A, CurvePoint B)> open = new([(from, to)]);
        bool masked = from.Worst <= limit;
        while (open.Count > 0)
        {
            (CurvePoint a, CurvePoint b) = open.Pop();
            bool changes = a.Worst <= limit != b.Worst <= limit;
            if (!changes && IsDecided(curve.Bounds(a, b), limit))
            {
                continue;
            }

            if (b.ThicknessMm - a.ThicknessMm > ResolutionMm)
            {
                CurvePoint middle = curve.Evaluate((a.ThicknessMm + b.ThicknessMm) / 2);
                open.Push((middle, b));
                open.Push((a, middle));
            }
            else if (changes)
            {
                masked = !masked;
                crossings.Add(new Crossing(Locate(curve, a, b), masked));
            }
        }

        return crossings;
    }

    /// <summary>The point with the smallest worst difference between two points, to 0.01.</summary>
    public static CurvePoint Minimum(DifferenceCurve curve, CurvePoint from, CurvePoint to)
    {
        CurvePoint best = from.Worst <= to.Worst ? from : to;
        Queue<(CurvePoint A, CurvePoint B)> open = new([(from, to)]);
        for (int split = 0; open.Count > 0 && split < MaximumSplits; split++)
        {
            (CurvePoint a, CurvePoint b) = open.Dequeue();
            if (curve.Bounds(a, b).Lower > best.Worst - MinimumTolerance || b.ThicknessMm - a.ThicknessMm <= ResolutionMm)
            {
                continue;
            }

            CurvePoint middle = curve.Evaluate((a.ThicknessMm + b.ThicknessMm) / 2);
            best = middle.Worst < best.Worst ? middle : best;
            open.Enqueue((a, middle));
            open.Enqueue((middle, b));
        }

        return best;
    }

    private static bool IsDecided((double Lower, double Upper) bounds, double limit) => bounds.Upper <= limit || bounds.Lower > limit;

    // Bisection; the end returned is the masked one, so that the answer itself meets the criterion.
    private static double Locate(DifferenceCurve curve, CurvePoint a, CurvePoint b)
    {
        double limit = curve.Criterion.Limit, low = a.ThicknessMm, high = b.ThicknessMm;
        bool lowMasked = a.Worst <= limit;
        while (high - low > CrossingToleranceMm)
        {
            double middle = (low + high) / 2;
            if (curve.Evaluate(middle).Worst <= limit == lowMasked)
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
