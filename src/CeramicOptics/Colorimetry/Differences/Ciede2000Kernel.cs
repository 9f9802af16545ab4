#if NET
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace CeramicOptics.Colorimetry.Differences;

/// <summary>CIEDE2000 of eight pairs at a time, all parametric factors 1.</summary>
/// <remarks>
/// The trigonometry is algebra on vectors: the sum of the two hue directions points along the mean hue, the weight of
/// hue is a polynomial in its cosine and sine, and dH' is the cross product over the cosine of half the angle. The bell
/// around 275 degrees is the fourth power of a polynomial in the cosine of the distance. The three weights are brought
/// to one denominator, which goes under the last root. Where the processor estimates reciprocal roots to 14 bits, their
/// series takes the place of root and division. Lanes with nearly opposite hues, where the formula itself jumps, and
/// colours far beyond real ones are left to the scalar definition. Agrees with the definition within 1e-10.
/// </remarks>
internal static class Ciede2000Kernel
{
    public const int Width = LabLanes.Width;

    private const double DegreesPerRadian = 180 / Math.PI;

    // Added to what goes under a root, so that none is of zero.
    private const double Smallest = 1e-36;

    // Sum of squares of what comes in, far beyond those of colours.
    private const double Largest = 1e6;

    // Beyond this distance from 275 degrees the bell is below 3e-14.
    private const double BellReach = 140;

    private static readonly (double Cos, double Sin) Degrees6 = Direction(6), Degrees30 = Direction(30),
        Degrees63 = Direction(63), Degrees275 = Direction(275);

    // exp(-(angle/25)²/4) in the cosine of the angle, to 140 degrees; lowest power first. Weighted least squares in
    // Chebyshev polynomials, refined to equal errors of the bell (Lawson), 6e-15.
    private static readonly double[] QuarterBell =
    [
        0.039163895101990226, 0.16156266488672624, 0.2818199209948168, 0.2730229521571833, 0.16271246622876775,
        0.06264475756270259, 0.015986765909269028, 0.002740804328016787, 0.0003198005322881904, 2.4289059800078427e-05,
        1.6832384390923982e-06,
    ];

    // -2 sin(b π/3) / b in b², b from 0 to 1; found likewise, 2e-15.
    private static readonly double[] MinusTwiceSine =
    [
        -2.094395102393187, 0.38279353926266574, -0.020989004440948617, 0.0005480242515507605, -8.346868000885799e-06,
        8.3191554978157e-08, -5.725127039113431e-10,
    ];

    /// <summary>
    /// Differences of the first eight pairs; bit i of the result tells that lane i is for the scalar definition.
    /// </summary>
    public static uint Compute(ReadOnlySpan<Lab> references, ReadOnlySpan<Lab> samples, Span<double> destination)
    {
        (Vector512<double> l1, Vector512<double> a1, Vector512<double> b1) = LabLanes.Load(references);
        (Vector512<double> l2, Vector512<double> a2, Vector512<double> b2) = LabLanes.Load(samples);
        Vector512<double> square1 = Square(a1, b1), square2 = Square(a2, b2);
        Vector512<double> half = ChromaFactor(0.02 * (Root(square1) + Root(square2))), stretch = Plus(
            Vector512.Create(1.5), Vector512.Create(-0.5), half);
        (a1, a2) = (a1 * stretch, a2 * stretch);
        Vector512<double> c1 = Root(Square(a1, b1)), c2 = Root(Square(a2, b2)), product = c1 * c2;
        Vector512<double> sum = Plus(Plus(product, a1, a2), b1, b2), cross = (a1 * b2) - (b1 * a2);

        // sqrt(sum/2) is the cosine of half the hue angle times sqrt(c1 c2); sqrt(2 sum c1 c2) is the length of the
        // vector along the mean hue.
        Vector512<double> one = Vector512<double>.One, smallest = Vector512.Create(Smallest);
        Vector512<double> dL = l2 - l1, dC = c2 - c1;
        Vector512<double> dH = cross * InverseRoot(Plus(smallest, sum, Vector512.Create(0.5)));
        Vector512<double> inverse = InverseRoot(Plus(smallest, sum + sum, product));
        Vector512<double> cos = Plus(a1 * c2, a2, c1) * inverse, sin = Plus(b1 * c2, b2, c1) * inverse;

        // 1/SL as r / (r + 0.015 f), with f the squared distance of mean L* from 50 and r = sqrt(20 + f); mean C' in
        // units of 25.
        Vector512<double> meanC = 0.02 * (c1 + c2), f = Plus(Vector512.Create(-50.0), Vector512.Create(0.5), l1 + l2);
        f *= f;
        Vector512<double> r = Root(Vector512.Create(20.0) + f);
        Vector512<double> sL = Plus(r, Vector512.Create(0.015), f), sC = Plus(one, Vector512.Create(25 * 0.045), meanC),
            sH = Plus(one, Vector512.Create(25 * 0.015) * meanC, HueWeight(cos, sin));
        Vector512<double> sCsH = sC * sH, whole = sL * sCsH;
        Vector512<double> l = dL * r * sCsH, c = dC * (sL * sH), h = dH * (sL * sC);
        Vector512<double> squares = Plus(l * l, c, Plus(c, Rotation(cos, sin, meanC), h));
        squares = Vector512.MaxNative(Plus(squares, h, h), Vector512<double>.Zero);
        (squares * InverseRoot(Plus(smallest, squares * whole, whole))).CopyTo(destination);

        // The sum cancels as hues near opposition; 0.8 degrees from it, it is still right to 1e-12.
        Vector512<double> size = Plus(square1 + square2 + f, dL, dL);
        return (uint)(Vector512.LessThan(size, Vector512.Create(Largest))
            & Vector512.GreaterThan(sum, 1e-4 * product)).ExtractMostSignificantBits() ^ 0xFF;
    }

    // T (Sharma, eq. 15): multiples of the mean hue by its cosine and sine, u = cos 2h and v = sin 2h.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> HueWeight(Vector512<double> cos, Vector512<double> sin)
    {
        double cos3 = 0.32 * Degrees6.Cos, sin3 = -0.32 * Degrees6.Sin;
        double cos4 = -0.2 * Degrees63.Cos, sin4 = -0.2 * Degrees63.Sin;
        Vector512<double> twice = cos + cos, u = Plus(Vector512.Create(-1.0), twice, cos), v = twice * sin;
        Vector512<double> byU = Plus(Vector512.Create(0.24), Vector512.Create(2 * cos4), u);
        byU = Plus(byU, Vector512.Create(2 * sin4), v);
        Vector512<double> byCos = Plus(Vector512.Create((-0.17 * Degrees30.Cos) - cos3), Vector512.Create(2 * cos3), u);
        Vector512<double> bySin = Plus(Vector512.Create((-0.17 * Degrees30.Sin) + sin3), Vector512.Create(2 * sin3), u);
        return Plus(Plus(Plus(Vector512.Create(1 - cos4), u, byU), cos, byCos), sin, bySin);
    }

    // RT, -sin(2 dTheta) RC.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> Rotation(Vector512<double> cos, Vector512<double> sin, Vector512<double> meanC)
    {
        Vector512<double> reach = Vector512.Create(Math.Cos(BellReach / DegreesPerRadian));
        Vector512<double> along = Plus(Vector512.Create(Degrees275.Cos) * cos, Vector512.Create(Degrees275.Sin), sin);
        if (!Vector512.GreaterThanAny(along, reach))
        {
            return Vector512<double>.Zero;
        }

        Vector512<double> x = Vector512.MaxNative(along, reach), x2 = x * x, x4 = x2 * x2;
        Vector512<double> quarter = Plus(
            Plus(Four(QuarterBell, 0, x, x2), x4, Four(QuarterBell, 4, x, x2)), x4 * x4,
            Three(QuarterBell, 8, x, x2));

        // From 0 degrees on, the standard's mean hue has wrapped and is far from 275.
        Vector512<double> bell = quarter * quarter;
        bell = (bell * bell) & Vector512.LessThan(Vector512.MinNative(cos, sin), Vector512<double>.Zero);
        Vector512<double> y = bell * bell, y2 = y * y;
        Vector512<double> sine = Plus(Four(MinusTwiceSine, 0, y, y2), y2 * y2, Three(MinusTwiceSine, 4, y, y2));
        return ChromaFactor(meanC) * (bell * sine);
    }

    // In pairs and pairs of pairs (Estrin), so that few terms wait for each other.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> Four(double[] terms, int at, Vector512<double> x, Vector512<double> x2) =>
        Plus(
            Plus(Vector512.Create(terms[at]), Vector512.Create(terms[at + 1]), x), x2,
            Plus(Vector512.Create(terms[at + 2]), Vector512.Create(terms[at + 3]), x));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> Three(double[] terms, int at, Vector512<double> x, Vector512<double> x2) =>
        Plus(
            Plus(Vector512.Create(terms[at]), Vector512.Create(terms[at + 1]), x), Vector512.Create(terms[at + 2]), x2);

    // sqrt(C⁷/(C⁷ + 25⁷)), chroma in units of 25.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> ChromaFactor(Vector512<double> chroma)
    {
        Vector512<double> squared = chroma * chroma, power7 = squared * squared * (squared * chroma);
        return power7 * InverseRoot(Plus(Vector512.Create(Smallest), power7, power7 + Vector512<double>.One));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> Square(Vector512<double> x, Vector512<double> y) =>
        Plus(Plus(Vector512.Create(Smallest), x, x), y, y);

    // Of more than 0.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> Root(Vector512<double> square)
    {
        if (!Avx512F.IsSupported)
        {
            return Vector512.Sqrt(square);
        }

        Vector512<double> estimate = Avx512F.ReciprocalSqrt14(square), root = square * estimate;
        return Refined(root, Plus(-Vector512<double>.One, root, estimate));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> InverseRoot(Vector512<double> square)
    {
        if (!Avx512F.IsSupported)
        {
            return Vector512<double>.One / Vector512.Sqrt(square);
        }

        Vector512<double> estimate = Avx512F.ReciprocalSqrt14(square);
        return Refined(estimate, Plus(-Vector512<double>.One, square * estimate, estimate));
    }

    // Times (1 + e)^(-1/2) by its series, which makes 1e-16 of 14 bits.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> Refined(Vector512<double> estimate, Vector512<double> e)
    {
        Vector512<double> series = Plus(Vector512.Create(3.0 / 8), Vector512.Create(-5.0 / 16), e);
        return Plus(estimate, estimate * e, Plus(Vector512.Create(-0.5), e, series));
    }

    // sum + x y, in one rounding where the hardware has it.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> Plus(Vector512<double> sum, Vector512<double> x, Vector512<double> y) =>
        Vector512.MultiplyAddEstimate(x, y, sum);

    private static (double Cos, double Sin) Direction(double degrees) => (
        Math.Cos(degrees / DegreesPerRadian), Math.Sin(degrees / DegreesPerRadian));
}
#endif
