using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;

namespace CeramicOptics.Decisions.Comparison;

/// <summary>How far, in CIELAB, a colour can be from its values at the two ends of an interval.</summary>
internal readonly record struct ColorMove(double FromA, double FromB)
{
    // Largest change of CIEDE2000 for a unit move in CIELAB, away from opposite hues, in a search over 64 million
    // random pairs (tests/reference/ciede2000_lipschitz.py): 2.96 at CIELAB distances up to 15, 5.6 up to 30, 20 up to
    // 60. Bounded here by 3 up to 15 and by 3 (distance / 15)² beyond.
    private const double Ciede2000Steepness = 3, SteepnessDistance = 15;

    /// <summary>From XYZ at both ends and bounds on their second derivatives along a way of length h.</summary>
    public static ColorMove Between(
        Lab labA, Lab labB, ReadOnlySpan<double> a, ReadOnlySpan<double> b, ReadOnlySpan<double> curvatures, double h,
        Xyz white)
    {
        double eighth = h * h / 8;
        (double xLow, double xHigh) = Box(0, white.X, a, b, curvatures, eighth);
        (double yLow, double yHigh) = Box(1, white.Y, a, b, curvatures, eighth);
        (double zLow, double zHigh) = Box(2, white.Z, a, b, curvatures, eighth);
        Lab from = new((116 * yLow) - 16, 500 * (xLow - yHigh), 200 * (yLow - zHigh));
        Lab to = new((116 * yHigh) - 16, 500 * (xHigh - yLow), 200 * (yHigh - zLow));
        return new ColorMove(Farthest(labA, from, to), Farthest(labB, from, to));
    }

    /// <summary>Numbers between which the difference of two colours stays while both move.</summary>
    public static (double Lower, double Upper) Bounds(
        ColorDifferenceFormula formula, double a, double b, Lab colorA, Lab colorB, Lab referenceA, Lab referenceB,
        ColorMove color, ColorMove reference)
    {
        bool isCiede2000 = formula == ColorDifferenceFormula.Ciede2000;
        double steepness = Steepness(
            formula, ColorDifference.Cie76(referenceA, colorA) + color.FromA + reference.FromA);
        double moveA = (steepness * (color.FromA + reference.FromA))
            + (isCiede2000 ? Jump(referenceA, reference.FromA, colorA, color.FromA) : 0);
        double moveB = (steepness * (color.FromB + reference.FromB))
            + (isCiede2000 ? Jump(referenceB, reference.FromB, colorB, color.FromB) : 0);
        return (Math.Max(a - moveA, b - moveB), Math.Min(a + moveA, b + moveB));
    }

    /// <summary>
    /// Largest change of the difference of two colours that together move so far, away from opposite hues.
    /// </summary>
    public static double Bound(ColorCriterion criterion, Lab color, Lab reference, double move) =>
        move * Steepness(criterion.Formula, ColorDifference.Cie76(reference, color) + move);

    // Largest change of the difference for a unit move, for colours up to so far from each other.
    private static double Steepness(ColorDifferenceFormula formula, double distance)
    {
        double relative = Math.Max(1, distance / SteepnessDistance);
        return formula == ColorDifferenceFormula.Ciede2000 ? Ciede2000Steepness * relative * relative : 1;
    }

    // What CIEDE2000 can jump by while two colours move so far. Its chroma and hue parts together are at most the root
    // of 2 (for the rotation) times the sum of both chromas, which its stretched a* makes up to 1.5 times as long; a
    // straight move of both passes opposition at most twice. From hues within a right angle the way to opposition is so
    // long that the steepness covers the jump (same script).
    private static double Jump(Lab reference, double referenceMove, Lab color, double colorMove)
    {
        const double Largest = 2 * 1.4143 * 1.5;
        double cosine = (reference.A * color.A) + (reference.B * color.B);
        if (cosine >= 0)
        {
            return 0;
        }

        double referenceChroma = reference.Chroma, chroma = color.Chroma;
        double apart = Math.Abs(Math.Atan2((reference.A * color.B) - (reference.B * color.A), cosine));
        return apart + Turn(referenceChroma, referenceMove) + Turn(chroma, colorMove) >= Math.PI
            ? Largest * (referenceChroma + referenceMove + chroma + colorMove)
            : 0;
    }

    // Largest change of the hue angle, in radians, of a colour that moves so far.
    private static double Turn(double chroma, double move) => move < chroma ? Math.Asin(move / chroma) : Math.PI;

    private static (double Low, double High) Box(
        int at, double white, ReadOnlySpan<double> a, ReadOnlySpan<double> b, ReadOnlySpan<double> curvatures,
        double eighth)
    {
        double beyond = curvatures[at] * eighth;
        return (Lab.F((Math.Min(a[at], b[at]) - beyond) / white), Lab.F((Math.Max(a[at], b[at]) + beyond) / white));
    }

    private static double Farthest(Lab point, Lab from, Lab to)
    {
        double l = Math.Max(Math.Abs(point.L - from.L), Math.Abs(to.L - point.L));
        double a = Math.Max(Math.Abs(point.A - from.A), Math.Abs(to.A - point.A));
        double b = Math.Max(Math.Abs(point.B - from.B), Math.Abs(to.B - point.B));
        return Math.Sqrt((l * l) + (a * a) + (b * b));
    }
}
