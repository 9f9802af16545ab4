#if NET
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace CeramicOptics.Colorimetry.Differences;

/// <summary>CIEDE2000 of eight pairs at a time, all parametric factors 1.</summary>
/// <remarks>
/// The trigonometry is algebra on vectors: the sum of the two hue directions points along the mean hue, its multiples
/// follow from double-angle formulas, and dH' is the cross product over the cosine of half the angle. Only the bell
/// around 275 degrees needs an angle and an exponential. Roots and divisions, which cost most, are shared: the three
/// weights are brought to one denominator. Lanes without a hue, or with nearly opposite hues, where the formula itself
/// jumps, are left to the scalar definition. Where the processor estimates reciprocal roots to 14 bits, two Newton steps
/// take the place of root and division. Agrees with the definition within 1e-10.
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

    // atan(x)/x as a polynomial in x², x from 0 to 1, Chebyshev fit by mpmath, error 1.8e-12; highest power first.
    private static readonly double[] ArcTangent =
    [
        -0.00026660196719267425, 0.002162794422156479, -0.008241899893996813, 0.01993744283625617, -0.03526772086942244,
        0.050455577528416146,
        -0.06366092236096826, 0.07614250199003121, -0.09076798876650477, 0.11109428364330506, -0.14285592394282529,
        0.19999995340385063,
        -0.333333332624797, 0.9999999999981967,
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
        Vector512<double> t = Plus(one, Vector512.Create(-0.17 * Degrees30.Cos), cos);
        t = Plus(t, Vector512.Create(-0.17 * Degrees30.Sin), sin);
        t = Plus(t, Vector512.Create(0.24), cos2);
        t = Plus(t, Vector512.Create(0.32 * Degrees6.Cos), cos3);
        t = Plus(t, Vector512.Create(-0.32 * Degrees6.Sin), sin3);
        t = Plus(t, Vector512.Create(-0.20 * Degrees63.Cos), cos4);
        t = Plus(t, Vector512.Create(-0.20 * Degrees63.Sin), sin4);

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

        // Half the angle from its tangent across / (1 + along), folded to at most 45 degrees.
        Vector512<double> opposite = Vector512.Abs(across), adjacent = Vector512.Max(
            Vector512<double>.One + along, Vector512.Create(1e-9));
        Vector512<double> ratio = Vector512.Min(opposite, adjacent) / Vector512.Max(opposite, adjacent),
            square = ratio * ratio;
        Vector512<double> series = Vector512.Create(ArcTangent[0]);
        for (int i = 1; i < ArcTangent.Length; i++)
        {
            series = Plus(Vector512.Create(ArcTangent[i]), series, square);
        }

        Vector512<double> folded = ratio * series;
        Vector512<double> angle = 2 * DegreesPerRadian * Vector512.ConditionalSelect(
            Vector512.GreaterThan(opposite, adjacent), Vector512.Create(Math.PI / 2) - folded, folded);
        Vector512<double> bell = angle * 0.04;
        Vector512<double> turn = Vector512.Exp(-(bell * bell)) * (60 / DegreesPerRadian);
        Vector512<double> wrapped = Vector512.GreaterThan(across, Vector512<double>.Zero) & Vector512.GreaterThan(
            angle, Vector512.Create(BellWrap));
        turn = Vector512.AndNot(turn, wrapped);

        // Sine of at most 60 degrees by its series.
        Vector512<double> turn2 = turn * turn, sine = Vector512<double>.One;
        for (int k = 16; k >= 2; k -= 2)
        {
            sine = Minus(Vector512<double>.One, turn2 * (1.0 / (k * (k + 1))), sine);
        }

        return -2 * ChromaFactor(meanC) * turn * sine;
    }

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
