#if NET
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace CeramicOptics.Colorimetry.Differences;

/// <summary>CIEDE2000 of eight pairs at a time, all parametric factors 1.</summary>
/// <remarks>
/// The trigonometry is algebra on vectors: the sum of the two hue directions points along the mean hue, its multiples
/// follow from double-angle formulas, and dH' is the cross product over the cosine of half the angle. Only the bell
/// around 275 degrees needs an angle and an exponential. Roots and divisions, which cost most, are shared: the three
/// weights are brought to one denominator. Lanes without a hue, or with nearly opposite hues, where the formula itself
/// jumps, are left to the scalar definition. Where the processor estimates reciprocal roots to 14 bits, two Newton
/// steps take the place of root and division. Agrees with the definition within 1e-10.
/// </remarks>
internal static class Ciede2000Kernel
{
    public const int Width = LabLanes.Width;

    private const double Pow25To7 = 6103515625, DegreesPerRadian = 180 / Math.PI;

    // Its reciprocal root is still finite.
    private const double Smallest = 1e-300;

    // Beyond this distance from 275 degrees the bell is below 1e-14; above 85 degrees the standard's hue has wrapped
    // and the bell is zero.
    private const double BellReach = 145, BellWrap = 85;

    private static readonly (double Cos, double Sin) Degrees6 = Direction(6), Degrees30 = Direction(30),
        Degrees63 = Direction(63), Degrees275 = Direction(275);

    // (angle/25)² over 1 - cos(angle), angles to 145 degrees, as a polynomial in 0.09 - cos(angle); lowest power first.
    // Weighted least squares in Chebyshev polynomials, refined to equal errors of the bell (Lawson), 4e-13.
    private const double BellCenter = 0.09;

    private static readonly double[] BellSquare =
    [
        12.65444138853222, 3.25647675351295, 1.4619349303587414, 0.819939538426184, 0.5181027833668586,
        0.35298320660724436, 0.25177855919649494, 0.17830020518726963, 0.11317813479482124, 0.055937750998157565,
        0.018027103952158875, 0.0027440896971177428,
    ];

    // exp(-y) from 0 to 0.526, Chebyshev fit by mpmath, error 7e-16.
    private static readonly double[] Decay =
    [
        0.9999999999999993, -0.9999999999997444, 0.49999999998394634, -0.16666666627509547, 0.041666661809953896,
        -0.008333298669924032, 0.0013887378500343, -0.0001980034064446828, 2.4124934640751415e-05,
        -2.121779233227421e-06,
    ];

    // sin(x)/x in x², Taylor's series, to 60 degrees within 1e-16.
    private static readonly double[] Sine =
    [
        1, -1.0 / 6, 1.0 / 120, -1.0 / 5040, 1.0 / 362880, -1.0 / 39916800, 1.0 / 6227020800, -1.0 / 1307674368000,
        1.0 / 355687428096000,
    ];

    /// <summary>
    /// Differences of the first eight pairs; bit i of the result tells that lane i is for the scalar definition.
    /// </summary>
    public static uint Compute(ReadOnlySpan<Lab> references, ReadOnlySpan<Lab> samples, Span<double> destination)
    {
        (Vector512<double> l1, Vector512<double> a1, Vector512<double> b1) = LabLanes.Load(references);
        (Vector512<double> l2, Vector512<double> a2, Vector512<double> b2) = LabLanes.Load(samples);
        Vector512<double> one = Vector512<double>.One, half = Vector512.Create(0.5);

        Vector512<double> stretch = Vector512.Create(1.5)
            - (half * ChromaFactor(half * (Length(a1, b1) + Length(a2, b2))));
        (a1, a2) = (a1 * stretch, a2 * stretch);
        Vector512<double> c1 = Length(a1, b1), c2 = Length(a2, b2), product = c1 * c2;
        Vector512<double> sum = product + Plus(a1 * a2, b1, b2), cross = Minus(a1 * b2, b1, a2);

        // The sum cancels as hues near opposition; 0.8 degrees from it, it is still right to 1e-12.
        uint awkward = (uint)Vector512.LessThanOrEqual(sum, 1e-4 * product).ExtractMostSignificantBits();

        // sqrt(sum/2) is the cosine of half the hue angle times sqrt(c1 c2); sqrt(2 sum c1 c2) is the length of the
        // vector along the mean hue.
        Vector512<double> dL = l2 - l1, dC = c2 - c1, dH = cross * InverseRoot(half * sum);
        Vector512<double> inverse = InverseRoot((sum + sum) * product);
        Vector512<double> cos = Plus(a1 * c2, a2, c1) * inverse, sin = Plus(b1 * c2, b2, c1) * inverse;
        Vector512<double> cos2 = Minus(cos * cos, sin, sin), sin2 = 2 * sin * cos;
        Vector512<double> cos3 = Minus(cos2 * cos, sin2, sin), sin3 = Plus(sin2 * cos, cos2, sin);
        Vector512<double> cos4 = Minus(cos2 * cos2, sin2, sin2), sin4 = 2 * sin2 * cos2;
        Vector512<double> t = Plus(one, Vector512.Create(-0.17 * Degrees30.Cos), cos),
            other = Vector512.Create(0.32 * Degrees6.Cos) * cos3;
        t = Plus(t, Vector512.Create(-0.17 * Degrees30.Sin), sin);
        other = Plus(other, Vector512.Create(-0.32 * Degrees6.Sin), sin3);
        t = Plus(t, Vector512.Create(0.24), cos2);
        other = Plus(other, Vector512.Create(-0.20 * Degrees63.Cos), cos4);
        t += Plus(other, Vector512.Create(-0.20 * Degrees63.Sin), sin4);

        // 1/SL as r / (r + 0.015 f), with f the squared distance of mean L* from 50 and r = sqrt(20 + f).
        Vector512<double> meanC = half * (c1 + c2), f = (half * (l1 + l2)) - Vector512.Create(50.0);
        f *= f;
        Vector512<double> r = Root(Vector512.Create(20.0) + f);
        Vector512<double> sL = Plus(r, Vector512.Create(0.015), f), sC = Plus(one, Vector512.Create(0.045), meanC),
            sH = Plus(one, Vector512.Create(0.015) * meanC, t);
        dL *= r;
        Vector512<double> l = dL * sC * sH, c = dC * sL * sH, h = dH * sL * sC, whole = sL * sC * sH;
        Vector512<double> squares = Plus(l * l, c, c + (Rotation(cos, sin, meanC) * h));
        squares = Plus(squares, h, h);
        (Root(Vector512.Max(squares, Vector512<double>.Zero)) / whole).CopyTo(destination);
        return awkward | (~(uint)Vector512.Equals(squares, squares).ExtractMostSignificantBits() & 0xFF);
    }

    private static Vector512<double> Rotation(Vector512<double> cos, Vector512<double> sin, Vector512<double> meanC)
    {
        Vector512<double> along = Plus(Degrees275.Cos * cos, Vector512.Create(Degrees275.Sin), sin), across = Minus(
            Degrees275.Cos * sin, Vector512.Create(Degrees275.Sin), cos);
        if (!Vector512.GreaterThanAny(along, Vector512.Create(Math.Cos(BellReach / DegreesPerRadian))))
        {
            return Vector512<double>.Zero;
        }

        // From the cosine of the distance, no nearer to opposite than the reach.
        Vector512<double> cosine = Vector512.Max(along, Vector512.Create(Math.Cos(BellReach / DegreesPerRadian)));
        Vector512<double> square = (Vector512<double>.One - cosine)
            * Polynomial(BellSquare, Vector512.Create(BellCenter) - cosine);

        // exp(-x) is exp(-x/64) squared six times.
        Vector512<double> bell = Polynomial(Decay, square * (1.0 / 64));
        for (int k = 0; k < 6; k++)
        {
            bell *= bell;
        }

        Vector512<double> wrapped = Vector512.GreaterThan(across, Vector512<double>.Zero) & Vector512.LessThan(
            along, Vector512.Create(Math.Cos(BellWrap / DegreesPerRadian)));
        Vector512<double> turn = Vector512.AndNot(bell * (60 / DegreesPerRadian), wrapped);
        return -2 * ChromaFactor(meanC) * (turn * Polynomial(Sine, turn * turn));
    }

    // In pairs, pairs of pairs and so on (Estrin), so that few terms wait for each other.
    private static Vector512<double> Polynomial(double[] terms, Vector512<double> x)
    {
        Vector512<double> x2 = x * x, x4 = x2 * x2, x8 = x4 * x4;
        Vector512<double> low = Plus(Four(terms, 0, x, x2), Four(terms, 4, x, x2), x4);
        return terms.Length switch
        {
            > 10 => Plus(low, Four(terms, 8, x, x2), x8),
            10 => Plus(low, Two(terms, 8, x), x8),
            _ => Plus(low, Vector512.Create(terms[8]), x8),
        };
    }

    private static Vector512<double> Four(double[] terms, int at, Vector512<double> x, Vector512<double> x2) =>
        Plus(Two(terms, at, x), Two(terms, at + 2, x), x2);

    private static Vector512<double> Two(double[] terms, int at, Vector512<double> x) =>
        Plus(Vector512.Create(terms[at]), Vector512.Create(terms[at + 1]), x);

    // sqrt(C⁷/(C⁷ + 25⁷)) = C⁷ / sqrt(C⁷ (C⁷ + 25⁷)).
    private static Vector512<double> ChromaFactor(Vector512<double> chroma)
    {
        Vector512<double> squared = chroma * chroma, power7 = squared * squared * squared * chroma;
        return power7 * InverseRoot(power7 * (power7 + Vector512.Create(Pow25To7)));
    }

    private static Vector512<double> Length(Vector512<double> x, Vector512<double> y) => Root(Plus(x * x, y, y));

    private static Vector512<double> Root(Vector512<double> square) =>
        Avx512F.IsSupported ? square * InverseRoot(square) : Vector512.Sqrt(square);

    // Of 0 or more; finite for 0.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> InverseRoot(Vector512<double> square)
    {
        square = Vector512.Max(square, Vector512.Create(Smallest));
        if (!Avx512F.IsSupported)
        {
            return Vector512<double>.One / Vector512.Sqrt(square);
        }

        // Newton: y (3 - s y²)/2, twice; 14 bits become 28 and 55.
        Vector512<double> inverse = Avx512F.ReciprocalSqrt14(square), half = square * -0.5;
        Vector512<double> threeHalves = Vector512.Create(1.5);
        inverse *= Plus(threeHalves, half * inverse, inverse);
        return inverse * Plus(threeHalves, half * inverse, inverse);
    }

    // sum + x y and sum - x y, in one rounding where the hardware has it.
    private static Vector512<double> Plus(Vector512<double> sum, Vector512<double> x, Vector512<double> y) =>
        Vector512.MultiplyAddEstimate(x, y, sum);

    private static Vector512<double> Minus(Vector512<double> sum, Vector512<double> x, Vector512<double> y) =>
        Vector512.MultiplyAddEstimate(-x, y, sum);

    private static (double Cos, double Sin) Direction(double degrees) => (
        Math.Cos(degrees / DegreesPerRadian), Math.Sin(degrees / DegreesPerRadian));
}
#endif
