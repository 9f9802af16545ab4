using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;

namespace CeramicOptics.Selection;

/// <summary>How much the choice of cement can move the colour over a given stump at a given thickness.</summary>
public static class CementComparison
{
    /// <summary>Colours with each cement, and with its try-in paste beside it.</summary>
    /// <param name="restoration">The restoration without cement over its stump; what it has as coupling is left out.</param>
    /// <param name="cements">At least one; the first is the one that others are compared with.</param>
    /// <param name="conditions">Illuminants and geometry; D65 and 2 degrees when null.</param>
    /// <returns>One effect for each cement, in the order given.</returns>
    /// <exception cref="ArgumentException">No cement, or grids differ.</exception>
    public static IReadOnlyList<CementEffect> Compare(LayerStack restoration, IEnumerable<CementOption> cements, ViewingConditions? conditions = null)
    {
        Guard.NotNull(restoration);
        IReadOnlyList<CementOption> options = Guard.Copy(cements, minimumCount: 1);
        ViewingConditions viewing = conditions ?? ViewingConditions.Default;

        IReadOnlyList<Lab> Colors(Layer film)
        {
            Spectra.ReflectanceSpectrum spectrum = new LayerStack([.. restoration.Layers, film], restoration.Substrate).Reflectance(viewing.Geometry);
            return Guard.Copy(viewing.Colorimeters.Select(colorimeter => colorimeter.ToLab(spectrum)));
        }

        IReadOnlyList<Lab> first = Colors(Guard.NotNull(options[0].Bonded, nameof(cements)));
        return Guard.Copy(options.Select(option =>
        {
            IReadOnlyList<Lab> bonded = Colors(Guard.NotNull(option.Bonded, nameof(cements)));
            IReadOnlyList<Lab>? triedIn = option.TryInPaste is null ? null : Colors(option.TryInPaste);
            return new CementEffect(
                option, bonded, triedIn, Largest(first, bonded), ColorWords.Describe(first[0], bonded[0]), triedIn is null ? null : Largest(triedIn, bonded));
        }));
    }

    private static double Largest(IReadOnlyList<Lab> one, IReadOnlyList<Lab> other) =>
        one.Zip(other, (a, b) => ColorDifference.Ciede2000(a, b)).Max();
}
