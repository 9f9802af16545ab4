namespace CeramicOptics.Colorimetry;

/// <summary>CIE 1976 L*a*b* colour (ISO/CIE 11664-4).</summary>
/// <param name="L">Lightness L*, 0 (black) to 100 (perfect diffuser).</param>
/// <param name="A">a*, green (negative) to red (positive).</param>
/// <param name="B">b*, blue (negative) to yellow (positive).</param>
/// <remarks>
/// The default is black. The white it refers to is that of the <see cref="Colorimeter"/> that made it.
/// </remarks>
public readonly record struct Lab(double L, double A, double B) : IFormattable
{
    private const double Delta = 24.0 / 116;

    /// <summary>Chroma C*ab, 0 or more.</summary>
    public double Chroma => Math.Sqrt((A * A) + (B * B));

    /// <summary>Hue angle h_ab in degrees, [0, 360); 0 for a neutral colour.</summary>
    public double HueDegrees => Angle.DegreesOf(B, A);

    /// <summary>A colour given by lightness, chroma and hue (L*C*h).</summary>
    /// <param name="l">Lightness L*, 0 to 100; any finite number is taken.</param>
    /// <param name="chroma">Chroma C*ab, 0 or more.</param>
    /// <param name="hueDegrees">Hue angle h_ab, degrees.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is not finite, or chroma is negative.</exception>
    public static Lab FromLch(double l, double chroma, double hueDegrees)
    {
        Guard.InRange(l, double.MinValue, double.MaxValue, "");
        Guard.InRange(chroma, 0, double.MaxValue, "");
        double hue = Angle.Radians(Guard.InRange(hueDegrees, double.MinValue, double.MaxValue, "degrees"));
        return new Lab(l, chroma * Math.Cos(hue), chroma * Math.Sin(hue));
    }

    /// <summary>L*a*b* of tristimulus values under a white.</summary>
    /// <param name="xyz">The colour.</param>
    /// <param name="white">Tristimulus values of the perfect diffuser in the same units, all positive.</param>
    /// <exception cref="ArgumentOutOfRangeException">White is not positive or a value is not finite.</exception>
    /// <remarks>ISO/CIE 11664-4, eqs. 1 to 5.</remarks>
    public static Lab FromXyz(Xyz xyz, Xyz white)
    {
        double fy = F(Ratio(xyz.Y, white.Y));
        return new Lab((116 * fy) - 16, 500 * (F(Ratio(xyz.X, white.X)) - fy), 200 * (fy - F(Ratio(xyz.Z, white.Z))));
    }

    /// <summary>Tristimulus values under a white; the exact inverse of <see cref="FromXyz(Xyz, Xyz)"/>.</summary>
    /// <param name="white">Tristimulus values of the perfect diffuser, all positive.</param>
    /// <exception cref="ArgumentOutOfRangeException">White is not positive or not finite.</exception>
    public Xyz ToXyz(Xyz white)
    {
        double fy = (L + 16) / 116;
        return new Xyz(
            Positive(white.X) * FInverse(fy + (A / 500)), Positive(white.Y) * FInverse(fy),
            Positive(white.Z) * FInverse(fy - (B / 200)));
    }

    /// <summary>The function f of eq. 4: cube root, or a straight line for dark colours.</summary>
    internal static double F(double t) =>
        t > Delta * Delta * Delta ? Angle.CubeRoot(t) : (841.0 / 108 * t) + (16.0 / 116);

    /// <summary>df/dt of <see cref="F"/>.</summary>
    internal static double FSlope(double t)
    {
        double root = F(t);
        return t > Delta * Delta * Delta ? 1 / (3 * root * root) : 841.0 / 108;
    }

    private static double FInverse(double f) => f > Delta ? f * f * f : 108.0 / 841 * (f - (16.0 / 116));

    private static double Ratio(double value, double white) =>
        Guard.InRange(value, double.MinValue, double.MaxValue, "", nameof(Xyz)) / Positive(white);

    private static double Positive(double white) =>
        Guard.InRange(white, double.Epsilon, double.MaxValue, "", nameof(white));

    /// <summary>For example "L* 52.1, a* 8.2, b* 21.0".</summary>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider) =>
        Language.Of(provider).Text("Lab", L, A, B);
}
