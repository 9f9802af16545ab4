using System.Globalization;

namespace CeramicOptics.Colorimetry;

/// <summary>Display colour in sRGB (IEC 61966-2-1), gamma-encoded, not clipped.</summary>
/// <param name="R">Red; 0 to 1 inside the gamut.</param>
/// <param name="G">Green; 0 to 1 inside the gamut.</param>
/// <param name="B">Blue; 0 to 1 inside the gamut.</param>
public readonly record struct Srgb(double R, double G, double B)
{
    // Room for rounding in the four-decimal matrix of the standard, below a thousandth of an 8-bit step.
    private const double Tolerance = 1e-4;

    /// <summary>True when a display can show the colour without clipping.</summary>
    public bool IsInGamut => IsInside(R) && IsInside(G) && IsInside(B);

    /// <summary>Display colour of tristimulus values.</summary>
    /// <param name="xyz">Values for illuminant D65 and the 2 degree observer, Y = 100 for white.</param>
    /// <remarks>
    /// IEC 61966-2-1:1999, eqs. 7 and 8. The matrix belongs to D65; other whites must be adapted first.
    /// </remarks>
    public static Srgb FromXyz(Xyz xyz)
    {
        (double r, double g, double b) = LinearFromXyz(xyz);
        return new Srgb(Encode(r), Encode(g), Encode(b));
    }

    /// <summary>
    /// "#rrggbb", each channel clipped to the display's range; ask <see cref="IsInGamut"/> whether that changed the
    /// colour.
    /// </summary>
    public string ToHex() =>
        string.Format(CultureInfo.InvariantCulture, "#{0:x2}{1:x2}{2:x2}", Byte(R), Byte(G), Byte(B));

    /// <summary>
    /// Display colour of a colour inside the gamut: the given one, or the most saturated one of its lightness and hue
    /// that fits.
    /// </summary>
    /// <param name="color">Colour for illuminant D65 and the 2 degree observer.</param>
    /// <returns>Inside the gamut; colours lighter than white become white, darker than black, black.</returns>
    /// <remarks>
    /// Chroma is found by bisection at constant L* and h_ab, which keeps a swatch's lightness and hue true where
    /// clipping would not.
    /// </remarks>
    public static Srgb FromLabReducingChroma(Lab color)
    {
        Xyz white = Colorimeter.D65TwoDegree.White;
        double l = Math.Min(100, Math.Max(0, color.L));
        Srgb At(double share) => FromXyz(new Lab(l, share * color.A, share * color.B).ToXyz(white));
        if (At(1).IsInGamut)
        {
            return At(1);
        }

        double low = 0, high = 1;
        for (int i = 0; i < 40; i++)
        {
            double middle = (low + high) / 2;
            (low, high) = At(middle).IsInGamut ? (middle, high) : (low, middle);
        }

        return At(low);
    }

    /// <summary>Linear light of tristimulus values (eq. 7), not clipped.</summary>
    internal static (double R, double G, double B) LinearFromXyz(Xyz xyz)
    {
        double x = xyz.X / 100, y = xyz.Y / 100, z = xyz.Z / 100;
        return (
            (3.2406 * x) - (1.5372 * y) - (0.4986 * z),
            (-0.9689 * x) + (1.8758 * y) + (0.0415 * z),
            (0.0557 * x) - (0.2040 * y) + (1.0570 * z));
    }

    internal static double Encode(double linear) =>
        linear <= 0.0031308 ? 12.92 * linear : (1.055 * Math.Pow(linear, 1 / 2.4)) - 0.055;

    internal static bool IsInside(double channel) => channel >= -Tolerance && channel <= 1 + Tolerance;

    private static byte Byte(double channel) => (byte)Math.Round(255 * Math.Min(Math.Max(channel, 0), 1));
}
