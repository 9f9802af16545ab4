#if NET
using System.Runtime.Intrinsics;

namespace CeramicOptics.Colorimetry.Differences;

/// <summary>CIEDE2000 of four pairs at a time, all parametric factors 1.</summary>
/// <remarks>
/// The trigonometry is algebra on unit vectors: the sum of the two hue directions points along the mean hue, its multiples follow from
/// double-angle formulas, and dH' is the cross product over the cosine of half the angle. Only the bell around 275 degrees needs an angle and
/// an exponential, and only where it is not zero. Lanes without a hue, or with nearly opposite hues, where the formula itself jumps, are left to
/// the scalar definition. Agrees with it within 1e-10.
/// </remarks>
internal static class Ciede2000Kernel
{
    public const int Width = 4;

    private const double Pow25To7 = 6103515625, DegreesPerRadian = 180 / Math.PI;

    // Beyond this distance from 275 degrees the bell is below 1e-14; above 85 degrees the standard's hue has wrapped and the bell is zero.
    private const double BellReach = 145, BellWrap = 85;

    private static readonly (double Cos, double Sin) Degrees6 = Direction(6), Degrees30 = Direction(30), Degrees63 = Direction(63), Degrees275 = Direction(275);

    /// <summary>Differences of the first four pairs; bit i of the result tells that lane i is for the scalar definition.</summary>
    public static uint Compute(ReadOnlySpan<Lab> references, ReadOnlySpan<Lab> samples, Span<double> destination)
    {
        (Vector256<double> l1, Vector256<double> a1, Vector256<double> b1) = Load(references);
        (Vector256<double> l2, Vector256<double> a2, Vector256<double> b2) = Load(samples);
        Vector256<double> one = Vector256.Create(1.0), half = Vector256.Create(0.5);

        Vector256<double> meanChroma = half * (Length(a1, b1) + Length(a2, b2));
        Vector256<double> stretch = one + (half * (one - ChromaFactor(meanChroma)));
        (a1, a2) = (a1 * stretch, a2 * stretch);
        Vector256<double> c1 = Length(a1, b1), c2 = Length(a2, b2), product = c1 * c2;
        Vector256<double> dot = (a1 * a2) + (b1 * b2), cross = (a1 * b2) - (b1 * a2);
        uint awkward = Vector256.LessThanOrEqual(product + dot, 1e-6 * product).ExtractMostSignificantBits();

        Vector256<double> dL = l2 - l1, dC = c2 - c1, dH = cross / Vector256.Sqrt(half * (product + dot));
        Vector256<double> x = (a1 * c2) + (a2 * c1), y = (b1 * c2) + (b2 * c1), length = Length(x, y);
        (Vector256<double> cos, Vector256<double> sin) = (x / length, y / length);
        (Vector256<double> cos2, Vector256<double> sin2) = ((cos * cos) - (sin * sin), 2 * sin * cos);
        (Vector256<double> cos3, Vector256<double> sin3) = ((cos2 * cos) - (sin2 * sin), (sin2 * cos) + (cos2 * sin));
        (Vector256<double> cos4, Vector256<double> sin4) = ((cos2 * cos2) - (sin2 * sin2), 2 * sin2 * cos2);
        Vector256<double> t = one
            - (0.17 * ((Degrees30.Cos * cos) + (Degrees30.Sin * sin))) + (0.24 * cos2)
            + (0.32 * ((Degrees6.Cos * cos3) - (Degrees6.Sin * sin3))) - (0.20 * ((Degrees63.Cos * cos4) + (Degrees63.Sin * sin4)));

        Vector256<double> meanC = half * (c1 + c2), fromMiddle = (half * (l1 + l2)) - Vector256.Create(50.0);
        fromMiddle *= fromMiddle;
        Vector256<double> sL = one + (0.015 * fromMiddle / Vector256.Sqrt(Vector256.Create(20.0) + fromMiddle));
        Vector256<double> c = dC / (one + (0.045 * meanC)), h = dH / (one + (0.015 * meanC * t)), l = dL / sL;
        Vector256<double> squares = (l * l) + (c * c) + (h * h) + (Rotation(cos, sin, meanC) * c * h);
        Vector256.Sqrt(Vector256.Max(squares, Vector256<double>.Zero)).CopyTo(destination);
        return awkward | (~Vector256.Equals(squares, squares).ExtractMostSignificantBits() & 0xF);
    }

    private static Vector256<double> Rotation(Vector256<double> cos, Vector256<double> sin, Vector256<double> meanC)
    {
        // Angle from 275 degrees by three halvings of its tangent and the series of the arctangent.
        Vector256<double> one = Vector256.Create(1.0);
        Vector256<double> along = (Degrees275.Cos * cos) + (Degrees275.Sin * sin), across = (Degrees275.Cos * sin) - (Degrees275.Sin * cos);
        if (!Vector256.GreaterThanAny(along, Vector256.Create(Math.Cos(BellReach / DegreesPerRadian))))
        {
            return Vector256<double>.Zero;
        }

        Vector256<double> tangent = across / Vector256.Max(one + along, Vector256.Create(1e-9));
        tangent /= one + Vector256.Sqrt(one + (tangent * tangent));
        tangent /= one + Vector256.Sqrt(one + (tangent * tangent));
        Vector256<double> square = tangent * tangent, series = Vector256.Create(1.0 / 25);
        for (int k = 23; k >= 1; k -= 2)
        {
            series = Vector256.Create(1.0 / k) - (square * series);
        }

        Vector256<double> angle = 8 * DegreesPerRadian * tangent * series, bell = angle / 25;
        Vector256<double> turn = Vector256.Exp(-(bell * bell)) * (60 / DegreesPerRadian);
        turn = Vector256.ConditionalSelect(Vector256.LessThanOrEqual(angle, Vector256.Create(BellWrap)), turn, Vector256<double>.Zero);

        // Sine of at most 60 degrees by its series.
        Vector256<double> turn2 = turn * turn, sine = one;
        for (int k = 16; k >= 2; k -= 2)
        {
            sine = one - (turn2 / (k * (k + 1)) * sine);
        }

        return -2 * ChromaFactor(meanC) * turn * sine;
    }

    private static Vector256<double> ChromaFactor(Vector256<double> chroma)
    {
        Vector256<double> squared = chroma * chroma, power7 = squared * squared * squared * chroma;
        return Vector256.Sqrt(power7 / (power7 + Vector256.Create(Pow25To7)));
    }

    private static Vector256<double> Length(Vector256<double> x, Vector256<double> y) => Vector256.Sqrt((x * x) + (y * y));

    private static (Vector256<double> L, Vector256<double> A, Vector256<double> B) Load(ReadOnlySpan<Lab> colors)
    {
        (Lab p, Lab q, Lab r, Lab s) = (colors[0], colors[1], colors[2], colors[3]);
        return (Vector256.Create(p.L, q.L, r.L, s.L), Vector256.Create(p.A, q.A, r.A, s.A), Vector256.Create(p.B, q.B, r.B, s.B));
    }

    private static (double Cos, double Sin) Direction(double degrees) => (Math.Cos(degrees / DegreesPerRadian), Math.Sin(degrees / DegreesPerRadian));
}
#endif
