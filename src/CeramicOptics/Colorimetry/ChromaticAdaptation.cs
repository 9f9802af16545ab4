namespace CeramicOptics.Colorimetry;

/// <summary>Corresponding colours: colours that look alike under different whites.</summary>
public static class ChromaticAdaptation
{
    // By row.
    private static readonly double[] Bradford =
        [0.8951, 0.2664, -0.1614, -0.7502, 1.7135, 0.0367, 0.0389, -0.0685, 1.0296];

    private static readonly double[] Cat02 =
        [0.7328, 0.4296, -0.1624, -0.7036, 1.6975, 0.0061, 0.0030, 0.0136, 0.9834];

    private static readonly double[] Cat16 =
        [0.401288, 0.650173, -0.051461, -0.250268, 1.204414, 0.045854, -0.002079, 0.048952, 0.953127];

    /// <summary>The colour that looks under one white as the given one looks under another.</summary>
    /// <param name="xyz">The colour.</param>
    /// <param name="fromWhite">White it is seen under, all values positive.</param>
    /// <param name="toWhite">White of the result, same scale, all values positive.</param>
    /// <param name="method">Transform.</param>
    /// <param name="degree">Degree of adaptation, 0 (none) to 1 (complete).</param>
    /// <exception cref="ArgumentOutOfRangeException">A white or the degree is outside its range or NaN.</exception>
    /// <remarks>
    /// Von Kries scaling in the sharpened space of the method; from and back are exact inverses for complete
    /// adaptation.
    /// </remarks>
    public static Xyz Adapt(
        Xyz xyz, Xyz fromWhite, Xyz toWhite, AdaptationMethod method = AdaptationMethod.Bradford, double degree = 1)
    {
        Guard.InRange(degree, 0, 1, "");
        double[] m = Guard.Defined(method) switch
        {
            AdaptationMethod.Bradford => Bradford,
            AdaptationMethod.Cat02 => Cat02,
            _ => Cat16,
        };
        (double r, double g, double b) = Times(m, xyz);
        (double r1, double g1, double b1) = Times(m, Positive(fromWhite, nameof(fromWhite)));
        (double r2, double g2, double b2) = Times(m, Positive(toWhite, nameof(toWhite)));
        double Scale(double from, double to) => (degree * to / from) + 1 - degree;
        return Solve(m, r * Scale(r1, r2), g * Scale(g1, g2), b * Scale(b1, b2));
    }

    private static (double R, double G, double B) Times(double[] m, Xyz v) => (
        (m[0] * v.X) + (m[1] * v.Y) + (m[2] * v.Z), (m[3] * v.X) + (m[4] * v.Y) + (m[5] * v.Z),
        (m[6] * v.X) + (m[7] * v.Y) + (m[8] * v.Z));

    // Cramer's rule, so that no rounded inverse matrix is needed.
    private static Xyz Solve(double[] m, double r, double g, double b)
    {
        double c0 = (m[4] * m[8]) - (m[5] * m[7]), c1 = (m[5] * m[6]) - (m[3] * m[8]);
        double c2 = (m[3] * m[7]) - (m[4] * m[6]);
        double determinant = (m[0] * c0) + (m[1] * c1) + (m[2] * c2);
        return new Xyz(
            ((c0 * r) + (((m[2] * m[7]) - (m[1] * m[8])) * g) + (((m[1] * m[5]) - (m[2] * m[4])) * b)) / determinant,
            ((c1 * r) + (((m[0] * m[8]) - (m[2] * m[6])) * g) + (((m[2] * m[3]) - (m[0] * m[5])) * b)) / determinant,
            ((c2 * r) + (((m[1] * m[6]) - (m[0] * m[7])) * g) + (((m[0] * m[4]) - (m[1] * m[3])) * b)) / determinant);
    }

    private static Xyz Positive(Xyz white, string name)
    {
        Guard.InRange(white.X, 1e-9, 1e9, "", name + ".X");
        Guard.InRange(white.Y, 1e-9, 1e9, "", name + ".Y");
        Guard.InRange(white.Z, 1e-9, 1e9, "", name + ".Z");
        return white;
    }
}
