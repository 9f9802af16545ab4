namespace CeramicOptics.Colorimetry;

/// <summary>
/// Display colour in Display P3 (primaries of SMPTE RP 431-2, white D65, the transfer curve of sRGB), not clipped.
/// </summary>
/// <param name="R">Red; 0 to 1 inside the gamut.</param>
/// <param name="G">Green; 0 to 1 inside the gamut.</param>
/// <param name="B">Blue; 0 to 1 inside the gamut.</param>
public readonly record struct DisplayP3(double R, double G, double B)
{
    /// <summary>True when such a display can show the colour without clipping.</summary>
    public bool IsInGamut => Srgb.IsInside(R) && Srgb.IsInside(G) && Srgb.IsInside(B);

    /// <summary>Display colour of tristimulus values.</summary>
    /// <param name="xyz">
    /// Values for illuminant D65 and the 2 degree observer, Y = 100 for white; adapt other whites first.
    /// </param>
    /// <remarks>
    /// Primaries (0.680, 0.320), (0.265, 0.690), (0.150, 0.060), white (0.3127, 0.3290): SMPTE EG 432-1. The matrix
    /// follows from them.
    /// </remarks>
    public static DisplayP3 FromXyz(Xyz xyz)
    {
        double x = xyz.X / 100, y = xyz.Y / 100, z = xyz.Z / 100;
        return new DisplayP3(
            Srgb.Encode((2.4934969119414254 * x) - (0.9313836179191239 * y) - (0.4027107844507168 * z)),
            Srgb.Encode((-0.8294889695615747 * x) + (1.7626640603183463 * y) + (0.0236246858419436 * z)),
            Srgb.Encode((0.0358458302437845 * x) - (0.0761723892680418 * y) + (0.9568845240076872 * z)));
    }
}
