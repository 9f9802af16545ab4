using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Spectra;

namespace CeramicOptics.Colorimetry;

/// <summary>How far apart the colours of bodies that match under one light can be under another.</summary>
/// <remarks>
/// Reflectances with one colour under a first light form a convex set, and so do their tristimulus values under a
/// second (the metamer mismatch body: Logvinenko, Funt, Godau 2014, IEEE Trans. Image Process. 23:34-43). Each extreme
/// here is the farthest body of that set in one direction, evenly spread in L*a*b*, found to 0.001 in L*a*b* by a
/// barrier method; each is a true metamer, so the largest difference is reached. Between the directions it can be
/// slightly larger.
/// </remarks>
public sealed class MetamerSpread
{
    private const int Directions = 60;

    private MetamerSpread(Colorimeter under, Lab expected, IReadOnlyList<ReflectanceSpectrum> extremes)
    {
        (Expected, Extremes, Farthest) = (expected, extremes, extremes[0]);
        foreach (ReflectanceSpectrum extreme in extremes)
        {
            double difference = ColorDifference.Ciede2000(expected, under.ToLab(extreme));
            (LargestDifference, Farthest) = difference > LargestDifference
                ? (difference, extreme)
                : (LargestDifference, Farthest);
        }
    }

    /// <summary>Colour of the smoothest of the bodies under the second light.</summary>
    public Lab Expected { get; }

    /// <summary>Bodies of the same colour, far apart under the second light.</summary>
    internal IReadOnlyList<ReflectanceSpectrum> Extremes { get; }

    /// <summary>Largest CIEDE2000 from <see cref="Expected"/> to a body of the same colour.</summary>
    public double LargestDifference { get; }

    /// <summary>The body with that difference.</summary>
    public ReflectanceSpectrum Farthest { get; }

    /// <summary>The spread for a body known by its colour alone.</summary>
    /// <param name="color">Its colour under the first light.</param>
    /// <param name="first">The first light, under which all bodies have this colour.</param>
    /// <param name="second">The light they are carried to.</param>
    /// <param name="grid">Wavelengths of the bodies, at least from 400 to 700 nm.</param>
    /// <param name="within">
    /// How far the bodies may depart from the smoothest one at any wavelength, 0.001 to 1. With 1 all reflectances from
    /// 0 to 1 count, also jagged ones that no tooth and no ceramic has; a small value such as 0.03 keeps to smooth
    /// bodies (a choice, no source).
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// No reflectance between 0 and 1 has that colour, or <paramref name="within"/> is outside its range.
    /// </exception>
    /// <exception cref="ArgumentException">The grid does not reach from 400 to 700 nm.</exception>
    public static MetamerSpread Find(
        Lab color, Colorimeter first, Colorimeter second, WavelengthGrid grid, double within = 1)
    {
        Guard.InRange(within, 0.001, 1, "");
        ReflectanceSpectrum smoothest = Guard.NotNull(first).SmoothestReflectance(color, grid);
        WeightingTable held = first.Weighting(grid), judged = Guard.NotNull(second).Weighting(grid);
        Xyz center = judged.ToXyz(smoothest.Values);
        Lab expected = Lab.FromXyz(center, judged.White);
        LinearExtreme search = new(smoothest.Values, within, held.X, held.Y, held.Z);
        List<ReflectanceSpectrum> extremes = [];
        double[] objective = new double[grid.Count];

        // A direction in L*a*b* pulled back to XYZ by the slope of the cube-root functions at the expected colour.
        double fx = Slope(center.X, judged.White.X), fy = Slope(center.Y, judged.White.Y);
        double fz = Slope(center.Z, judged.White.Z);
        foreach ((double l, double a, double b) in EvenDirections.OnSphere(Directions))
        {
            (double x, double y, double z) = (500 * a * fx, ((116 * l) - (500 * a) + (200 * b)) * fy, -200 * b * fz);
            for (int i = 0; i < objective.Length; i++)
            {
                objective[i] = (x * judged.X[i]) + (y * judged.Y[i]) + (z * judged.Z[i]);
            }

            extremes.Add(new ReflectanceSpectrum(grid, search.Maximize(objective)));
        }

        return new MetamerSpread(second, expected, extremes);
    }

    private static double Slope(double value, double white) => Lab.FSlope(value / white) / white;
}
