using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Spectra;

namespace CeramicOptics.Colorimetry;

/// <summary>Single numbers for whiteness, yellowness, opalescence and metamerism.</summary>
public static class ColorIndices
{
    /// <summary>Whiteness index for dentistry, WI_D = 0.511 L* - 2.324 a* - 1.100 b*.</summary>
    /// <param name="color">Colour under D65 with the 2 degree observer.</param>
    /// <returns>Higher is whiter; about 0 to 40 for teeth, 51 for the perfect diffuser.</returns>
    /// <remarks>
    /// Pérez et al. 2016, Dent. Mater.; 50:50 % perceptibility 0.72, acceptability 2.60 (Pérez et al. 2019). Not
    /// verified: no copy with the coefficients or with 0.72 could be read; 2.60 is quoted by others.
    /// </remarks>
    public static double WhitenessForDentistry(Lab color) => (0.511 * color.L) - (2.324 * color.A) - (1.100 * color.B);

    /// <summary>Yellowness index YI of ASTM E313.</summary>
    /// <param name="xyz">Colour under D65 or C; the coefficients below belong to these.</param>
    /// <param name="colorimeter">D65 or C with the 2 or 10 degree observer.</param>
    /// <returns>100 (Cx X - Cz Z) / Y; 0 for the perfect diffuser, positive for yellowish.</returns>
    /// <exception cref="ArgumentException">Another illuminant, or another observer than 1931 and 1964.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Y is not positive.</exception>
    /// <remarks>
    /// ASTM E313-15, as colour-science 0.4.6 carries it: Cx, Cz 1.2985, 1.1335 (D65, 2°); 1.3013, 1.1498 (D65, 10°);
    /// 1.2769, 1.0592 (C, 2°); 1.2871, 1.0781 (C, 10°).
    /// </remarks>
    public static double YellownessE313(Xyz xyz, Colorimeter colorimeter)
    {
        Guard.InRange(xyz.Y, 1e-9, 1e9, "", "Y");
        bool isTwoDegree = IsTwoDegree(Guard.NotNull(colorimeter), "Yellowness E313");
        (double cx, double cz) = (colorimeter.Illuminant.Name, isTwoDegree) switch
        {
            ("D65", true) => (1.2985, 1.1335),
            ("D65", false) => (1.3013, 1.1498),
            ("C", true) => (1.2769, 1.0592),
            ("C", false) => (1.2871, 1.0781),
            _ => throw new ArgumentException(
                $"Yellowness E313 is defined for D65 and C, not for {colorimeter.Name}.", nameof(colorimeter)),
        };
        return 100 * ((cx * xyz.X) - (cz * xyz.Z)) / xyz.Y;
    }

    /// <summary>CIE whiteness W = Y + 800 (xn - x) + 1700 (yn - y) with its tint.</summary>
    /// <param name="xyz">Colour under D65.</param>
    /// <param name="colorimeter">D65 with the 2 or 10 degree observer.</param>
    /// <returns>Whiteness (100 for the perfect diffuser) and tint (positive greenish).</returns>
    /// <exception cref="ArgumentException">
    /// Another illuminant than D65, or another observer than 1931 and 1964.
    /// </exception>
    /// <remarks>
    /// CIE 15:2004, 9.4; meant for 40 &lt; W &lt; 5 Y - 280 and tint -3 to 3, which
    /// <see cref="CieWhiteness.IsInRange"/> tells.
    /// </remarks>
    public static CieWhiteness WhitenessCie(Xyz xyz, Colorimeter colorimeter)
    {
        if (Guard.NotNull(colorimeter).Illuminant.Name != "D65")
        {
            throw new ArgumentException(
                $"CIE whiteness is defined for D65, not for {colorimeter.Name}.", nameof(colorimeter));
        }

        Xyz white = colorimeter.White;
        double dx = white.ChromaticityX - xyz.ChromaticityX, dy = white.ChromaticityY - xyz.ChromaticityY;
        double whiteness = xyz.Y + (800 * dx) + (1700 * dy);
        double tint = ((IsTwoDegree(colorimeter, "CIE whiteness") ? 1000 : 900) * dx) - (650 * dy);
        return new CieWhiteness(whiteness, tint, whiteness > 40 && whiteness < (5 * xyz.Y) - 280 && Math.Abs(tint) < 3);
    }

    /// <summary>Opalescence parameter OP: chromatic difference between transmitted and reflected colour.</summary>
    /// <param name="transmitted">Colour of the light that passes the specimen.</param>
    /// <param name="reflected">Colour of the specimen over black.</param>
    /// <returns>0 or more.</returns>
    /// <remarks>sqrt(da*² + db*²); Lee 2016, Dent. Mater. J., doi 10.4012/dmj.2016-091.</remarks>
    public static double Opalescence(Lab transmitted, Lab reflected)
    {
        double a = transmitted.A - reflected.A, b = transmitted.B - reflected.B;
        return Math.Sqrt((a * a) + (b * b));
    }

    /// <summary>
    /// Special index of metamerism, change of illuminant: the difference under a test light of two specimens made equal
    /// under a reference light.
    /// </summary>
    /// <param name="reference">Reflectance of the standard.</param>
    /// <param name="sample">Reflectance of the specimen.</param>
    /// <param name="referenceLight">Light under which they match, or nearly.</param>
    /// <param name="testLight">Light under which they are judged.</param>
    /// <param name="formula">Difference formula.</param>
    /// <returns>
    /// 0 for specimens that match under both; what is left of a mismatch under the reference light is taken out by the
    /// multiplicative correction.
    /// </returns>
    /// <exception cref="ArgumentException">
    /// A spectrum does not reach from 400 to 700 nm, or the sample is black under the reference light.
    /// </exception>
    /// <remarks>CIE 15:2004, 9.2.2.3.</remarks>
    public static double Metamerism(
        ReflectanceSpectrum reference, ReflectanceSpectrum sample, Colorimeter referenceLight, Colorimeter testLight,
        ColorDifferenceFormula formula = ColorDifferenceFormula.Ciede2000)
    {
        Xyz first = Guard.NotNull(referenceLight).ToXyz(reference), second = referenceLight.ToXyz(sample);
        Xyz test = Guard.NotNull(testLight).ToXyz(sample);
        if (!(second.X > 0 && second.Y > 0 && second.Z > 0))
        {
            throw new ArgumentException(
                $"The sample is black under {referenceLight.Name}; metamerism has no meaning.", nameof(sample));
        }

        Xyz corrected = new(test.X * first.X / second.X, test.Y * first.Y / second.Y, test.Z * first.Z / second.Z);
        Xyz white = testLight.Weighting(sample.Grid).White;
        return ColorDifference.Between(formula, testLight.ToLab(reference), Lab.FromXyz(corrected, white));
    }

    private static bool IsTwoDegree(Colorimeter colorimeter, string index) =>
        colorimeter.Observer == Observer.Cie1931TwoDegree
        || (colorimeter.Observer == Observer.Cie1964TenDegree
            ? false
            : throw new ArgumentException(
                $"{index} is defined for the observers of 1931 and 1964, not for {colorimeter.Name}.",
                nameof(colorimeter)));
}
