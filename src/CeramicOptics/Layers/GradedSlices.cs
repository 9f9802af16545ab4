using CeramicOptics.Spectra;

namespace CeramicOptics.Layers;

/// <summary>
/// A blank whose K and S change with depth, cut into homogeneous layers fine enough for a stated error.
/// </summary>
public sealed class GradedSlices
{
    private const int FirstCount = 4, LastCount = 4096;

    private GradedSlices(IReadOnlyList<Layer> layers, double errorBound) => (Layers, ErrorBound) = (layers, errorBound);

    /// <summary>The slices, from the surface down, ready for a <see cref="LayerStack"/>.</summary>
    public IReadOnlyList<Layer> Layers { get; }

    /// <summary>Bound on the error of the internal reflectance, over black and over white, at any wavelength.</summary>
    /// <remarks>
    /// The change at the last doubling of the number of slices, or a quarter of the change before where that is more,
    /// since a change can be small by chance. The error of the slices falls with the square of their number, so that
    /// the true error is about a third of it.
    /// </remarks>
    public double ErrorBound { get; }

    /// <summary>Cuts a blank that goes over from one material to another.</summary>
    /// <param name="upper">Material at fraction 0.</param>
    /// <param name="lower">Material at fraction 1; same grid and index.</param>
    /// <param name="thicknessMm">Thickness of the blank, above 0 to 100 mm.</param>
    /// <param name="lowerFraction">
    /// Share of <paramref name="lower"/> at relative depth 0 (surface) to 1; smooth, values 0 to 1.
    /// </param>
    /// <param name="tolerance">Error bound wanted, 1e-9 to 0.01.</param>
    /// <exception cref="ArgumentException">
    /// Grids, models or indices differ, or the profile has no bound within 4096 slices.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A value, also of the profile, is outside its range or NaN.
    /// </exception>
    /// <remarks>
    /// K and S mix linearly. Each slice has the mixture at its middle (midpoint rule for Kubelka's equation).
    /// </remarks>
    public static GradedSlices Cut(
        Material upper, Material lower, double thicknessMm, Func<double, double> lowerFraction, double tolerance = 1e-5)
    {
        Guard.NotNull(upper).Grid.RequireSame(Guard.NotNull(lower).Grid, $"'{lower.Name}'");
        upper.RequireSameModel(lower);
        Guard.NotNull(lowerFraction);
        Guard.InRange(thicknessMm, 1e-6, Layer.MaximumThicknessMm, "mm");
        Guard.InRange(tolerance, 1e-9, 0.01, "");
        if (upper.RefractiveIndex != lower.RefractiveIndex)
        {
            throw new ArgumentException(
                $"A graded blank needs one index but '{upper.Name}' has {upper.RefractiveIndex} and '{lower.Name}' "
                    + $"has {lower.RefractiveIndex}.");
        }

        IReadOnlyList<Layer> coarse = Slices(upper, lower, thicknessMm, lowerFraction, FirstCount);
        double last = double.PositiveInfinity;
        for (int count = 2 * FirstCount; count <= LastCount; count *= 2)
        {
            IReadOnlyList<Layer> fine = Slices(upper, lower, thicknessMm, lowerFraction, count);
            double change = LargestChange(coarse, fine), bound = Math.Max(change, last / 4);
            if (bound <= tolerance)
            {
                return new GradedSlices(fine, bound);
            }

            (coarse, last) = (fine, change);
        }

        throw new ArgumentException(
            $"The profile is too steep: {Guard.Text(LastCount)} slices do not reach a bound of "
                + $"{Guard.Text(tolerance)}.", nameof(lowerFraction));
    }

    private static IReadOnlyList<Layer> Slices(
        Material upper, Material lower, double thicknessMm, Func<double, double> lowerFraction, int count) =>
        Guard.Copy(Enumerable.Range(0, count).Select(i => new Layer(
            Mixture(upper, lower, Guard.InRange(lowerFraction((i + 0.5) / count), 0, 1, "", "lowerFraction")),
            thicknessMm / count)));

    private static Material Mixture(Material upper, Material lower, double fraction)
    {
        int n = upper.Grid.Count;
        double[] k = new double[n], s = new double[n];
        for (int i = 0; i < n; i++)
        {
            k[i] = ((1 - fraction) * upper.Absorption[i]) + (fraction * lower.Absorption[i]);
            s[i] = ((1 - fraction) * upper.Scattering[i]) + (fraction * lower.Scattering[i]);
        }

        return new Material(
            $"{upper.Name} to {lower.Name}", upper.Model, new AbsorptionSpectrum(upper.Grid, k),
            new ScatteringSpectrum(upper.Grid, s), upper.RefractiveIndex);
    }

    private static double LargestChange(IReadOnlyList<Layer> coarse, IReadOnlyList<Layer> fine)
    {
        double largest = 0;
        foreach (Substrate backing in (Substrate[])[Substrate.Black, Substrate.White])
        {
            ReflectanceSpectrum a = new LayerStack(coarse, backing).Reflectance(MeasurementGeometry.Internal);
            ReflectanceSpectrum b = new LayerStack(fine, backing).Reflectance(MeasurementGeometry.Internal);
            for (int i = 0; i < a.Grid.Count; i++)
            {
                largest = Math.Max(largest, Math.Abs(a[i] - b[i]));
            }
        }

        return largest;
    }
}
