namespace CeramicOptics.Colorimetry;

/// <summary>CIE 1976 L*u*v* colour (ISO/CIE 11664-5).</summary>
/// <param name="L">Lightness L*, 0 to 100.</param>
/// <param name="U">u*, green to red.</param>
/// <param name="V">v*, blue to yellow.</param>
public readonly record struct Luv(double L, double U, double V)
{
    /// <summary>L*u*v* of tristimulus values under a white.</summary>
    /// <param name="xyz">The colour.</param>
    /// <param name="white">Tristimulus values of the perfect diffuser in the same units, all positive.</param>
    /// <exception cref="ArgumentOutOfRangeException">White is not positive or a value is not finite.</exception>
    /// <remarks>ISO/CIE 11664-5, eqs. 1 to 6. Black has u* = v* = 0.</remarks>
    public static Luv FromXyz(Xyz xyz, Xyz white)
    {
        double l = Lab.FromXyz(xyz, white).L;
        (double u, double v) = xyz.UniformChromaticity;
        (double uWhite, double vWhite) = white.UniformChromaticity;
        return xyz is { X: 0, Y: 0, Z: 0 }
            ? new Luv(l, 0, 0)
            : new Luv(l, 13 * l * (u - uWhite), 13 * l * (v - vWhite));
    }

    /// <summary>Tristimulus values under a white; the inverse of <see cref="FromXyz(Xyz, Xyz)"/>.</summary>
    /// <param name="white">Tristimulus values of the perfect diffuser, all positive.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// White is not positive, or the colour has no tristimulus values (v' of zero or below).
    /// </exception>
    public Xyz ToXyz(Xyz white)
    {
        double y = new Lab(L, 0, 0).ToXyz(white).Y;
        if (L == 0)
        {
            return default;
        }

        (double uWhite, double vWhite) = white.UniformChromaticity;
        double u = (U / (13 * L)) + uWhite, v = Guard.InRange(
            (V / (13 * L)) + vWhite, 1e-12, double.MaxValue, "", "v'");
        return new Xyz(y * 9 * u / (4 * v), y, y * (12 - (3 * u) - (20 * v)) / (4 * v));
    }
}
