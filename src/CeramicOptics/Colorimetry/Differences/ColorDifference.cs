#if NET
using System.Numerics;
using System.Runtime.Intrinsics.X86;
#endif

namespace CeramicOptics.Colorimetry.Differences;

/// <summary>Colour-difference formulas.</summary>
public static class ColorDifference
{
    private const double Pow25To7 = 6103515625;

    /// <summary>The difference by the named formula.</summary>
    /// <param name="formula">The formula.</param>
    /// <param name="reference">Colour compared with.</param>
    /// <param name="sample">Colour judged.</param>
    /// <exception cref="ArgumentOutOfRangeException">A colour value is NaN or beyond ±1e9.</exception>
    internal static double Between(ColorDifferenceFormula formula, Lab reference, Lab sample) =>
        Guard.Defined(formula) == ColorDifferenceFormula.Cie76
            ? Cie76(reference, sample)
            : Ciede2000(reference, sample);

    /// <summary>CIE 1976 L*a*b* difference: the distance of the two colours.</summary>
    /// <param name="reference">Colour compared with.</param>
    /// <param name="sample">Colour judged.</param>
    /// <exception cref="ArgumentOutOfRangeException">A colour value is NaN or beyond ±1e9.</exception>
    /// <remarks>ISO/CIE 11664-4, eq. 18.</remarks>
    public static double Cie76(Lab reference, Lab sample)
    {
        CheckColors(reference, sample);
        double l = sample.L - reference.L, a = sample.A - reference.A, b = sample.B - reference.B;
        return Math.Sqrt((l * l) + (a * a) + (b * b));
    }

    /// <summary>CIE 1994 colour difference.</summary>
    /// <param name="reference">Standard; its chroma sets the weights, so the order matters.</param>
    /// <param name="sample">Colour judged.</param>
    /// <param name="kL">Parametric factor of lightness, positive; 1 under reference conditions, 2 for textiles.</param>
    /// <returns>0 or more.</returns>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A colour value is NaN or beyond ±1e9, or a factor is outside its range.
    /// </exception>
    /// <remarks>CIE 116-1995, with the constants 0.045 and 0.015.</remarks>
    public static double Cie94(Lab reference, Lab sample, double kL = 1)
    {
        CheckColors(reference, sample);
        Guard.InRange(kL, 1e-6, 1e6, "");
        double chroma = reference.Chroma, dL = (sample.L - reference.L) / kL, dC = sample.Chroma - chroma;
        double dH2 = HueSquared(reference, sample, dC);
        double sC = 1 + (0.045 * chroma), sH = 1 + (0.015 * chroma);
        return Math.Sqrt((dL * dL) + (dC / sC * (dC / sC)) + (dH2 / (sH * sH)));
    }

    /// <summary>CMC(l:c) colour difference.</summary>
    /// <param name="reference">Standard; it sets the weights, so the order matters.</param>
    /// <param name="sample">Colour judged.</param>
    /// <param name="l">Weight of lightness, positive; 2 for acceptability, 1 for perceptibility.</param>
    /// <param name="c">Weight of chroma, positive.</param>
    /// <returns>0 or more.</returns>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A colour value is NaN or beyond ±1e9, or a factor is outside its range.
    /// </exception>
    /// <remarks>Clarke, McDonald, Rigg 1984, J. Soc. Dyers Colour. 100:128-132; ISO 105-J03.</remarks>
    public static double Cmc(Lab reference, Lab sample, double l = 2, double c = 1)
    {
        CheckColors(reference, sample);
        Guard.InRange(l, 1e-6, 1e6, "");
        Guard.InRange(c, 1e-6, 1e6, "");
        double chroma = reference.Chroma, hue = reference.HueDegrees, dL = sample.L - reference.L,
            dC = sample.Chroma - chroma;
        double chroma4 = chroma * chroma * chroma * chroma, f = Math.Sqrt(chroma4 / (chroma4 + 1900));
        double t = hue is >= 164 and <= 345
            ? 0.56 + Math.Abs(0.2 * Cosine(hue + 168))
            : 0.36 + Math.Abs(0.4 * Cosine(hue + 35));
        double sL = reference.L < 16 ? 0.511 : 0.040975 * reference.L / (1 + (0.01765 * reference.L));
        double sC = (0.0638 * chroma / (1 + (0.0131 * chroma))) + 0.638, sH = sC * ((f * t) + 1 - f);
        return Math.Sqrt(
            (dL / (l * sL) * (dL / (l * sL))) + (dC / (c * sC) * (dC / (c * sC)))
                + (HueSquared(reference, sample, dC) / (sH * sH)));
    }

    /// <summary>CIEDE2000 colour difference.</summary>
    /// <param name="reference">Colour compared with.</param>
    /// <param name="sample">Colour judged.</param>
    /// <param name="kL">Parametric factor of lightness, positive; 1 under reference conditions.</param>
    /// <param name="kC">Parametric factor of chroma, positive.</param>
    /// <param name="kH">Parametric factor of hue, positive.</param>
    /// <returns>0 or more; the same in both argument orders.</returns>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A colour value is NaN or beyond ±1e9, or a factor is outside its range.
    /// </exception>
    public static double Ciede2000(Lab reference, Lab sample, double kL = 1, double kC = 1, double kH = 1) =>
        Ciede2000Terms(reference, sample, kL, kC, kH).Total;

    /// <summary>CIEDE2000 of many pairs, all parametric factors 1; allocates nothing.</summary>
    /// <param name="references">Colours compared with.</param>
    /// <param name="samples">Colours judged, as many.</param>
    /// <param name="destination">Receives as many differences; may not overlap the colours.</param>
    /// <exception cref="ArgumentException">Lengths differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A colour value is NaN or beyond ±1e9; the message names its place.
    /// </exception>
    /// <remarks>
    /// Within 1e-10 of the scalar form, which is the definition and takes over where hues are nearly opposite or
    /// missing.
    /// </remarks>
    public static void Ciede2000(ReadOnlySpan<Lab> references, ReadOnlySpan<Lab> samples, Span<double> destination)
    {
        CheckLengths(references, samples, destination);
        int i = 0;
#if NET
        i = Avx512F.IsSupported
            ? ByLanes<WideLanes>(references, samples, destination)
            : Vector.IsHardwareAccelerated ? ByLanes<NarrowLanes>(references, samples, destination) : 0;
#endif
        for (; i < references.Length; i++)
        {
            destination[i] = OfPair(references, samples, i);
        }
    }

    // The scalar definition, with the place in the message of a colour that is refused.
    private static double OfPair(ReadOnlySpan<Lab> references, ReadOnlySpan<Lab> samples, int i)
    {
        CheckColor(references[i], nameof(references), i);
        CheckColor(samples[i], nameof(samples), i);
        return Ciede2000(references[i], samples[i]);
    }

#if NET
    // As many pairs as fill vectors; the result is their number.
    internal static int ByLanes<T>(ReadOnlySpan<Lab> references, ReadOnlySpan<Lab> samples, Span<double> destination)
        where T : unmanaged, ILanes<T>
    {
        int whole = references.Length - (references.Length % T.Width);
        for (int i = 0; i < whole; i += Ciede2000Kernel<T>.Block)
        {
            int length = Math.Min(Ciede2000Kernel<T>.Block, whole - i);
            ulong scalar = Ciede2000Kernel<T>.Compute(
                references.Slice(i, length), samples.Slice(i, length), destination.Slice(i, length));
            for (; scalar != 0; scalar &= scalar - 1)
            {
                int pair = i + BitOperations.TrailingZeroCount(scalar);
                destination[pair] = OfPair(references, samples, pair);
            }
        }

        return whole;
    }
#endif

    /// <summary>CIEDE2000 taken apart into lightness, chroma, hue and rotation.</summary>
    /// <param name="reference">Colour compared with.</param>
    /// <param name="sample">Colour judged.</param>
    /// <param name="kL">Parametric factor of lightness, positive; 1 under reference conditions.</param>
    /// <param name="kC">Parametric factor of chroma, positive.</param>
    /// <param name="kH">Parametric factor of hue, positive.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A colour value is NaN or beyond ±1e9, or a factor is outside its range.
    /// </exception>
    /// <remarks>
    /// ISO/CIE 11664-6:2014; equation numbers in the code are those of Sharma, Wu, Dalal 2005, Color Res. Appl.
    /// 30:21-30. The mean hue jumps where two hues are exactly opposite; the formula itself is discontinuous there.
    /// </remarks>
    internal static Ciede2000Terms Ciede2000Terms(
        Lab reference, Lab sample, double kL = 1, double kC = 1, double kH = 1)
    {
        CheckColors(reference, sample);
        Guard.InRange(kL, 1e-6, 1e6, "");
        Guard.InRange(kC, 1e-6, 1e6, "");
        Guard.InRange(kH, 1e-6, 1e6, "");

        double meanChroma = (reference.Chroma + sample.Chroma) / 2;                              // (3)
        double g = 0.5 * (1 - ChromaFactor(meanChroma));                                         // (4)
        double a1 = (1 + g) * reference.A, a2 = (1 + g) * sample.A;                              // (5)
        double c1 = Math.Sqrt((a1 * a1) + (reference.B * reference.B));                          // (6)
        double c2 = Math.Sqrt((a2 * a2) + (sample.B * sample.B));
        double h1 = Angle.DegreesOf(reference.B, a1), h2 = Angle.DegreesOf(sample.B, a2);        // (7)

        double dL = sample.L - reference.L, dC = c2 - c1;                                        // (8), (9)
        double dh = h2 - h1, sumH = h1 + h2;
        double meanH;
        if (c1 * c2 == 0)
        {
            dh = 0;                                                                              // (10)
            meanH = sumH;                                                                        // (14)
        }
        else
        {
            meanH = Math.Abs(dh) <= 180 ? sumH / 2 : sumH < 360 ? (sumH + 360) / 2 : (sumH - 360) / 2;
            dh += dh > 180 ? -360 : dh < -180 ? 360 : 0;
        }

        double dH = 2 * Math.Sqrt(c1 * c2) * Math.Sin(Angle.Radians(dh / 2));                    // (11)
        double meanL = (reference.L + sample.L) / 2, meanC = (c1 + c2) / 2;                      // (12), (13)
        double t = 1 - (0.17 * Cosine(meanH - 30)) + (0.24 * Cosine(2 * meanH))
            + (0.32 * Cosine((3 * meanH) + 6)) - (0.20 * Cosine((4 * meanH) - 63));              // (15)
        double bell = (meanH - 275) / 25;
        double dTheta = 30 * Math.Exp(-bell * bell);                                             // (16)
        double rC = 2 * ChromaFactor(meanC);                                                     // (17)
        double fromMiddle = (meanL - 50) * (meanL - 50);
        double sL = 1 + (0.015 * fromMiddle / Math.Sqrt(20 + fromMiddle));                       // (18)
        double sC = 1 + (0.045 * meanC), sH = 1 + (0.015 * meanC * t);                           // (19), (20)
        double rT = -Math.Sin(Angle.Radians(2 * dTheta)) * rC;                                   // (21)
        return new Ciede2000Terms(dL, dC, dH, dL / (kL * sL), dC / (kC * sC), dH / (kH * sH), rT);
    }

    private static void CheckLengths(ReadOnlySpan<Lab> references, ReadOnlySpan<Lab> samples, Span<double> destination)
    {
        if (references.Length != samples.Length || references.Length != destination.Length)
        {
            throw new ArgumentException(
                $"references ({references.Length}), samples ({samples.Length}) and destination "
                    + $"({destination.Length}) must be equally long.");
        }
    }

    // dH*² = da*² + db*² - dC*²; rounding may carry it below zero.
    private static double HueSquared(Lab reference, Lab sample, double dC)
    {
        double a = sample.A - reference.A, b = sample.B - reference.B;
        return Math.Max(0, (a * a) + (b * b) - (dC * dC));
    }

    // sqrt(C^7 / (C^7 + 25^7)), without overflow for any finite chroma.
    private static double ChromaFactor(double chroma)
    {
        if (chroma > 1e6)
        {
            return 1;
        }

        double squared = chroma * chroma, power7 = squared * squared * squared * chroma;
        return Math.Sqrt(power7 / (power7 + Pow25To7));
    }

    private static double Cosine(double degrees) => Math.Cos(Angle.Radians(degrees));

    private static void CheckColors(Lab reference, Lab sample)
    {
        CheckColor(reference, nameof(reference));
        CheckColor(sample, nameof(sample));
    }

    // Beyond 1e9 nothing is a colour any more, and squares could overflow.
    private static void CheckColor(Lab color, string name, int? index = null)
    {
        const double Limit = 1e9;
        if (!(Math.Abs(color.L) <= Limit && Math.Abs(color.A) <= Limit && Math.Abs(color.B) <= Limit))
        {
            name = index is int i ? $"{name}[{Guard.Text(i)}]" : name;
            Guard.InRange(color.L, -Limit, Limit, "", name + ".L");
            Guard.InRange(color.A, -Limit, Limit, "", name + ".A");
            Guard.InRange(color.B, -Limit, Limit, "", name + ".B");
        }
    }
}
