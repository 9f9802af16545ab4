namespace CeramicOptics.Colorimetry;

/// <summary>CIE 1976 colour as lightness, chroma and hue (ISO/CIE 11664-4).</summary>
/// <param name="L">Lightness L*, 0 to 100.</param>
/// <param name="Chroma">Chroma C*ab, 0 or more.</param>
/// <param name="HueDegrees">Hue angle h_ab, degrees.</param>
public readonly record struct Lch(double L, double Chroma, double HueDegrees)
{
    /// <summary>The same colour in rectangular coordinates.</summary>
    public Lab ToLab()
    {
        double hue = Angle.Radians(HueDegrees);
        return new Lab(L, Chroma * Math.Cos(hue), Chroma * Math.Sin(hue));
    }
}
