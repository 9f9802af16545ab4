using CeramicOptics.Colorimetry.Differences;

namespace CeramicOptics.Colorimetry;

/// <summary>Measures of how much of its backing a specimen lets through.</summary>
public static class Translucency
{
    /// <summary>
    /// Translucency parameter TP: the CIELAB difference between the specimen over white and over black.
    /// </summary>
    /// <param name="overBlack">Colour over a black backing.</param>
    /// <param name="overWhite">Colour over a white backing.</param>
    /// <returns>0 (opaque) to about 100.</returns>
    /// <remarks>
    /// Johnston, Ma, Kienle 1995, Int. J. Prosthodont. 8:79-86. Depends on the backings, the thickness and the
    /// coupling.
    /// </remarks>
    public static double Parameter(Lab overBlack, Lab overWhite) => ColorDifference.Cie76(overBlack, overWhite);

    /// <summary>Translucency parameter TP00: the same with CIEDE2000.</summary>
    /// <param name="overBlack">Colour over a black backing.</param>
    /// <param name="overWhite">Colour over a white backing.</param>
    /// <returns>0 (opaque) to about 100.</returns>
    /// <remarks>Salas et al. 2018, Dent. Mater. (thresholds 0.62 and 2.62).</remarks>
    public static double Parameter00(Lab overBlack, Lab overWhite) => ColorDifference.Ciede2000(overBlack, overWhite);

    /// <summary>Contrast ratio: luminance factor over black divided by that over white.</summary>
    /// <param name="overBlack">Tristimulus values over a black backing.</param>
    /// <param name="overWhite">Tristimulus values over a white backing; Y positive.</param>
    /// <returns>0 (clear) to 1 (opaque).</returns>
    /// <exception cref="ArgumentOutOfRangeException">Y over white is not positive.</exception>
    public static double ContrastRatio(Xyz overBlack, Xyz overWhite) =>
        overBlack.Y / Guard.InRange(overWhite.Y, double.Epsilon, double.MaxValue, "", "Y over white");
}
