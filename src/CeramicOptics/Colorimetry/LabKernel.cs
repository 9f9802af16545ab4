#if NET
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace CeramicOptics.Colorimetry;

/// <summary>L*a*b* of eight colours at a time (ISO/CIE 11664-4, eqs. 1 to 5).</summary>
/// <remarks>
/// Cube roots start from a third of the exponent in single precision, off by at most 4 %, and two steps of Halley's
/// iteration, each of which cubes the error, bring them to rounding. Agrees with <see cref="Lab.FromXyz(Xyz, Xyz)"/>
/// within 1e-12.
/// </remarks>
internal static class LabKernel
{
    public const int Width = LabLanes.Width;

    private const double Limit = 24.0 / 116 * 24 / 116 * 24 / 116, Slope = 841.0 / 108, Offset = 16.0 / 116;

    // Ratios to white beyond this are for the scalar definition; single precision holds all others.
    private const double Largest = 1e30;

    // A third of the bits of 1.0f is missing after division by three; the rest makes errors of both signs equal.
    private const int RootBits = 0x2A5137A0;

    /// <summary>
    /// The first eight colours by their X, Y and Z; false when a value is too large or not finite, for the scalar
    /// definition.
    /// </summary>
    public static bool TryConvert(
        Vector512<double> x, Vector512<double> y, Vector512<double> z, Xyz white, Span<Lab> destination)
    {
        (x, y, z) = (x * (1 / white.X), y * (1 / white.Y), z * (1 / white.Z));
        Vector512<double> largest = Vector512.Max(
            Vector512.Abs(x), Vector512.Max(Vector512.Abs(y), Vector512.Abs(z)));
        if (!Vector512.LessThanAll(largest, Vector512.Create(Largest)))
        {
            return false;
        }

        (x, y, z) = (F(x), F(y), F(z));
        LabLanes.Store((y * 116) - Vector512.Create(16.0), (x - y) * 500, (y - z) * 200, destination);
        return true;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> F(Vector512<double> t)
    {
        Vector512<double> line = Vector512.MultiplyAddEstimate(
            t, Vector512.Create(Slope), Vector512.Create(Offset));
        Vector512<double> large = Vector512.Max(t, Vector512.Create(Limit));
        Vector256<int> bits = Vector256.Narrow(large.GetLower(), large.GetUpper()).AsInt32();
        Vector256<int> third = Vector256.ConvertToInt32(Vector256.ConvertToSingle(bits) * (1f / 3));
        (Vector256<double> low, Vector256<double> high) = Vector256.Widen(
            (third + Vector256.Create(RootBits)).AsSingle());
        Vector512<double> root = Halley(Halley(Vector512.Create(low, high), large), large);
        return Vector512.ConditionalSelect(Vector512.GreaterThan(t, Vector512.Create(Limit)), root, line);
    }

    // r (r³ + 2 t) / (2 r³ + t).
    private static Vector512<double> Halley(Vector512<double> root, Vector512<double> t)
    {
        Vector512<double> cube = root * root * root, sum = cube + t;
        return root * ((sum + t) / (sum + cube));
    }
}
#endif
