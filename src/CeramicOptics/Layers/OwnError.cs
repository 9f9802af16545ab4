using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;

namespace CeramicOptics.Layers;

/// <summary>Standard uncertainties of L*, a*, b* of a predicted colour from the theory itself.</summary>
/// <param name="L">Of L*.</param>
/// <param name="A">Of a*.</param>
/// <param name="B">Of b*.</param>
/// <param name="Correlation">Correlation of the errors of L* and b*.</param>
/// <param name="WholeFrom">
/// CIELAB difference of two colours of one theory from which on the error counts whole.
/// </param>
internal readonly record struct OwnError(double L, double A, double B, double Correlation, double WholeFrom)
{
    private const double UsuallyWholeFrom = 4;

    /// <summary>Equal and independent, as a caller gives it.</summary>
    public static OwnError Equal(double each) => new(each, each, each, 0, UsuallyWholeFrom);

    /// <summary>
    /// Share that is left between two colours of one theory and one set of constants, which have the same error where
    /// they are the same colour.
    /// </summary>
    public double ShareBetween(Lab one, Lab other) =>
        Math.Min(1, ColorDifference.Cie76(one, other) / WholeFrom);

    /// <summary>Both, independent of each other.</summary>
    public OwnError And(OwnError other) => new(
        Root(L, other.L), Root(A, other.A), Root(B, other.B),
        Root(L, other.L) * Root(B, other.B) > 0
            ? ((Correlation * L * B) + (other.Correlation * other.L * other.B))
                / (Root(L, other.L) * Root(B, other.B))
            : 0,
        Math.Min(WholeFrom, other.WholeFrom));

    /// <summary>A colour moved by standard normal numbers, three of them.</summary>
    public Lab Move(Lab color, ReadOnlySpan<double> z, double share = 1)
    {
        double b = (Correlation * z[0]) + (Math.Sqrt(1 - (Correlation * Correlation)) * z[2]);
        return new Lab(color.L + (share * L * z[0]), color.A + (share * A * z[1]), color.B + (share * B * b));
    }

    private static double Root(double one, double other) => Math.Sqrt((one * one) + (other * other));
}
