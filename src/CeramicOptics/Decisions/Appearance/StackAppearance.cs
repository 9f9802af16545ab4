using CeramicOptics.Characterization;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Decisions.Appearance;

/// <summary>
/// Colour, translucency, transmitted light and opalescence of a stack, and the difference of two, with uncertainties.
/// </summary>
/// <remarks>
/// Quasi-Monte-Carlo (JCGM 101:2008) at the points that all uncertainties of the library use. Thicknesses, scales,
/// indices and backings enter to second order, reading noise of K and S linearly, in tristimulus values. A single
/// colour carries the model's whole error; between two colours predicted by one theory it decreases in proportion to
/// their CIELAB difference when that is below a few units, as for a masking reference.
/// </remarks>
public static class StackAppearance
{
    /// <summary>Colour, translucency, transmitted light and opalescence of one stack.</summary>
    /// <param name="stack">The stack.</param>
    /// <param name="options">Light, geometry, backings, samples.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="ArgumentException">A backing of another grid, or a grid that does not reach from 400 to 700
    /// nm.</exception>
    /// <exception cref="ArgumentOutOfRangeException">No light is reflected over the white backing.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static AppearanceResult Find(
        UncertainStack stack, AppearanceOptions options, IProgress<double>? progress = null,
        CancellationToken cancellation = default)
    {
        Guard.NotNull(stack);
        View Over(Backing backing) =>
            new(stack, backing.Substrate, backing.Coupling, Guard.NotNull(options).BackingReflectance);
        StackColors colors = new(
            [View.Own(stack), Over(Guard.NotNull(options).Black), Over(options.White), View.Free(stack)], options,
            cancellation);
        OwnError own = stack.OwnError;
        double[] Measures(Lab[] at, Xyz[] xyz, ReadOnlySpan<double> z)
        {
            (Lab black, Lab white, Lab through) = (at[1], at[2], at[3]);
            Lab other = own.Move(white, z, own.ShareBetween(black, white));
            double whiteY = other.ToXyz(colors.White).Y;
            return
            [
                .. Coordinates(own.Move(at[0], z)), .. Coordinates(own.Move(black, z)),
                .. Coordinates(own.Move(white, z)), .. Coordinates(own.Move(through, z)),
                Translucency.Parameter(black, other),
                Translucency.Parameter00(black, other),
                // No backing is darker than black; only an error drawn for an opaque stack can say so.
                whiteY > xyz[1].Y ? xyz[1].Y / whiteY : 1,
                ColorIndices.Opalescence(own.Move(through, z, own.ShareBetween(black, through)), black),
                Math.Max(0, own.Move(through, z).ToXyz(colors.White).Y / colors.White.Y),
            ];
        }

        // Refuses a stack that reflects nothing over white.
        Translucency.ContrastRatio(colors.Nominal[1], colors.Nominal[2]);
        UncertainValue[] values = colors.Sample(Measures, modelDimensions: 3, progress);
        return new AppearanceResult(
            stack, options, stack.Stack.FreeTransmittance(), [.. Enumerable.Range(0, 4).Select(i => Color(values, i))],
            [.. values.Skip(12)]);
    }

    /// <summary>Difference of two stacks, each over its own substrate.</summary>
    /// <param name="first">One stack.</param>
    /// <param name="second">The other, on the same grid.</param>
    /// <param name="options">Light, geometry, samples; backings are not used.</param>
    /// <param name="formula">Difference formula.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <remarks>
    /// What the stacks share (materials, substrate) has one common error, which cancels in part. Errors of two
    /// different theories are independent.
    /// </remarks>
    /// <exception cref="ArgumentException">The grids differ, or do not reach from 400 to 700 nm.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static StackDifference FindDifference(
        UncertainStack first, UncertainStack second, AppearanceOptions options,
        ColorDifferenceFormula formula = ColorDifferenceFormula.Ciede2000, IProgress<double>? progress = null,
        CancellationToken cancellation = default)
    {
        Guard.NotNull(first).Stack.Grid.RequireSame(Guard.NotNull(second).Stack.Grid, "The second stack");
        Guard.Defined(formula);
        StackColors colors = new([View.Own(first), View.Own(second)], Guard.NotNull(options), cancellation);
        bool isOneTheory = first.Stack.Model.IsSameTheoryAs(second.Stack.Model);
        (OwnError u, OwnError v) = (first.OwnError, second.OwnError);
        OwnError both = u.And(v);
        double[] Measures(Lab[] at, Xyz[] xyz, ReadOnlySpan<double> z)
        {
            Lab one = u.Move(at[0], z), other = v.Move(at[1], isOneTheory ? z : z.Slice(3));
            double difference = isOneTheory
                ? ColorDifference.Between(
                    formula, at[0], both.Move(at[1], z, both.ShareBetween(at[0], at[1])))
                : ColorDifference.Between(formula, one, other);
            return [.. Coordinates(one), .. Coordinates(other), difference];
        }

        UncertainValue[] values = colors.Sample(Measures, isOneTheory ? 3 : 6, progress);
        return new StackDifference(
            Guard.Copy([first, second]), options, formula, Color(values, 0), Color(values, 1), values[6]);
    }

    private static UncertainColor Color(UncertainValue[] values, int at) =>
        new(values[3 * at], values[(3 * at) + 1], values[(3 * at) + 2]);

    private static double[] Coordinates(Lab color) => [color.L, color.A, color.B];
}
