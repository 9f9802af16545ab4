#if NET
using System.Runtime.CompilerServices;

namespace CeramicOptics.Colorimetry.Differences;

/// <summary>CIEDE2000 of a vector of pairs at a time, all parametric factors 1.</summary>
/// <remarks>
/// The trigonometry is algebra on vectors: the sum of the two hue directions points along the mean hue, the weight of
/// hue is a polynomial in its cosine and sine, and dH' is the cross product over the cosine of half the angle. The bell
/// around 275 degrees is the fourth power of a polynomial in the cosine of the distance. The three weights are brought
/// to one denominator, which goes under the last root. Pairs with nearly opposite hues, where the formula itself jumps,
/// and colours far beyond real ones are left to the scalar definition. Agrees with the definition within 1e-10. A block
/// of pairs takes three passes: each is a chain of operations that wait for each other, short enough for the processor
/// to work on several vectors at once, and with few enough calls for all of them to be inlined.
/// </remarks>
internal static class Ciede2000Kernel<T>
    where T : unmanaged, ILanes<T>
{
    /// <summary>The most pairs at a time, one for each bit of a result.</summary>
    public const int Block = 64;

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
    /// Differences of at most a block of pairs, which fill their vectors; bit i of the result tells that pair i is for
    /// the scalar definition.
    /// </summary>
    public static ulong Compute(ReadOnlySpan<Lab> references, ReadOnlySpan<Lab> samples, Span<double> destination)
    {
        // Of constant size, since it is cleared faster.
        Span<Parts> parts = stackalloc Parts[Block / T.Width];
        parts = parts.Slice(0, destination.Length / T.Width);
        ulong scalar = SetParts(references, samples, parts);
        SetRotations(parts);
        Weigh(parts, destination);
        return scalar;
    }

    private static ulong SetParts(ReadOnlySpan<Lab> references, ReadOnlySpan<Lab> samples, Span<Parts> parts)
    {
        T half = T.All(0.5), smallest = T.All(Smallest);
        ulong scalar = 0;
        for (int k = 0, i = 0; k < parts.Length; k++, i += T.Width)
        {
            ref Parts p = ref parts[k];
            (T l1, T a1, T b1) = T.Load(references.Slice(i));
            (T l2, T a2, T b2) = T.Load(samples.Slice(i));
            T square1 = Square(a1, b1), square2 = Square(a2, b2);
            T factor = ChromaFactor(T.All(0.02) * (T.Root(square1) + T.Root(square2)));
            T stretch = T.Plus(T.All(1.5), T.All(-0.5), factor);
            (a1, a2) = (a1 * stretch, a2 * stretch);
            T c1 = T.Root(Square(a1, b1)), c2 = T.Root(Square(a2, b2)), product = c1 * c2;
            T sum = T.Plus(T.Plus(product, a1, a2), b1, b2), cross = (a1 * b2) - (b1 * a2);

            // sqrt(sum/2) is the cosine of half the hue angle times sqrt(c1 c2); sqrt(2 sum c1 c2) is the length of
            // the vector along the mean hue.
            T dL = l2 - l1, inverse = T.InverseRoot(T.Plus(smallest, sum + sum, product));
            T f = T.Plus(T.All(-50), half, l1 + l2);
            f *= f;
            p.DL = dL;
            p.DC = c2 - c1;
            p.DH = cross * T.InverseRoot(T.Plus(smallest, sum, half));
            p.F = f;
            p.MeanC = T.All(0.02) * (c1 + c2);
            p.Cos = T.Plus(a1 * c2, a2, c1) * inverse;
            p.Sin = T.Plus(b1 * c2, b2, c1) * inverse;

            // The sum cancels as hues near opposition; 0.8 degrees from it, it is still right to 1e-12.
            T size = T.Plus(square1 + square2 + f, dL, dL);
            T good = T.Less(size, T.All(Largest)) & T.Less(T.All(1e-4) * product, sum);
            scalar |= (ulong)(T.Mask(good) ^ ((1u << T.Width) - 1)) << i;
        }

        return scalar;
    }

    // The weighted sum of the parts, 1/SL as r / (r + 0.015 f) with r = sqrt(20 + f).
    private static void Weigh(ReadOnlySpan<Parts> parts, Span<double> destination)
    {
        T one = T.All(1);
        for (int k = 0, i = 0; k < parts.Length; k++, i += T.Width)
        {
            ref readonly Parts p = ref parts[k];
            T r = T.Root(T.All(20) + p.F), sL = T.Plus(r, T.All(0.015), p.F);
            T sC = T.Plus(one, T.All(25 * 0.045), p.MeanC);
            T sH = T.Plus(one, T.All(25 * 0.015) * p.MeanC, HueWeight(p.Cos, p.Sin)), sCsH = sC * sH, whole = sL * sCsH;
            T l = p.DL * r * sCsH, c = p.DC * (sL * sH), h = p.DH * (sL * sC);
            T squares = T.Plus(l * l, c, T.Plus(c, p.RT, h));
            squares = T.Max(T.Plus(squares, h, h), T.All(0));
            (squares * T.InverseRoot(T.Plus(T.All(Smallest), squares * whole, whole))).CopyTo(destination.Slice(i));
        }
    }

    // T (Sharma, eq. 15): multiples of the mean hue by its cosine and sine, u = cos 2h and v = sin 2h.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T HueWeight(T cos, T sin)
    {
        double cos3 = 0.32 * Degrees6.Cos, sin3 = -0.32 * Degrees6.Sin;
        double cos4 = -0.2 * Degrees63.Cos, sin4 = -0.2 * Degrees63.Sin;
        T twice = cos + cos, u = T.Plus(T.All(-1), twice, cos), v = twice * sin;
        T byU = T.Plus(T.All(0.24), T.All(2 * cos4), u);
        byU = T.Plus(byU, T.All(2 * sin4), v);
        T byCos = T.Plus(T.All((-0.17 * Degrees30.Cos) - cos3), T.All(2 * cos3), u);
        T bySin = T.Plus(T.All((-0.17 * Degrees30.Sin) + sin3), T.All(2 * sin3), u);
        return T.Plus(T.Plus(T.Plus(T.All(1 - cos4), u, byU), cos, byCos), sin, bySin);
    }

    // RT, -sin(2 dTheta) RC.
    private static void SetRotations(Span<Parts> parts)
    {
        T reach = T.All(Math.Cos(BellReach / DegreesPerRadian));
        foreach (ref Parts p in parts)
        {
            T cos = p.Cos, sin = p.Sin;
            T along = T.Plus(T.All(Degrees275.Cos) * cos, T.All(Degrees275.Sin), sin), rotation = T.All(0);
            if (T.Mask(T.Less(reach, along)) != 0)
            {
                T x = T.Max(along, reach), x2 = x * x, x4 = x2 * x2;
                T quarter = T.Plus(
                    T.Plus(Four(QuarterBell, 0, x, x2), x4, Four(QuarterBell, 4, x, x2)), x4 * x4,
                    Three(QuarterBell, 8, x, x2));

                // From 0 degrees on, the standard's mean hue has wrapped and is far from 275.
                T bell = quarter * quarter;
                bell = (bell * bell) & T.Less(T.Min(cos, sin), T.All(0));
                T y = bell * bell, y2 = y * y;
                T sine = T.Plus(Four(MinusTwiceSine, 0, y, y2), y2 * y2, Three(MinusTwiceSine, 4, y, y2));
                rotation = ChromaFactor(p.MeanC) * (bell * sine);
            }

            p.RT = rotation;
        }
    }

    // In pairs and pairs of pairs (Estrin), so that few terms wait for each other.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Four(double[] terms, int at, T x, T x2) =>
        T.Plus(
            T.Plus(T.All(terms[at]), T.All(terms[at + 1]), x), x2,
            T.Plus(T.All(terms[at + 2]), T.All(terms[at + 3]), x));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Three(double[] terms, int at, T x, T x2) =>
        T.Plus(T.Plus(T.All(terms[at]), T.All(terms[at + 1]), x), T.All(terms[at + 2]), x2);

    // sqrt(C⁷/(C⁷ + 25⁷)), chroma in units of 25.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T ChromaFactor(T chroma)
    {
        T squared = chroma * chroma, power7 = squared * squared * (squared * chroma);
        return power7 * T.InverseRoot(T.Plus(T.All(Smallest), power7, power7 + T.All(1)));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Square(T x, T y) => T.Plus(T.Plus(T.All(Smallest), x, x), y, y);

    private static (double Cos, double Sin) Direction(double degrees) => (
        Math.Cos(degrees / DegreesPerRadian), Math.Sin(degrees / DegreesPerRadian));

    // The differences, the squared distance F of the mean L* from 50, the mean chroma in units of 25, the direction of
    // the mean hue, and RT.
    private struct Parts
    {
        public T DL, DC, DH, F, MeanC, Cos, Sin, RT;
    }
}
#endif
