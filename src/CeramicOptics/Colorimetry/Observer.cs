using CeramicOptics.Data;
using CeramicOptics.Spectra;

namespace CeramicOptics.Colorimetry;

/// <summary>A colorimetric observer: three colour-matching functions.</summary>
/// <remarks>
/// The CIE's own are tables at 1 nm: 1931 and 1964 from 360 to 830 nm (ISO/CIE 11664-1), 2015 from 390 to 830 nm (CIE
/// 170-2:2015, "cone-fundamental-based tristimulus functions"). Immutable and safe to share.
/// </remarks>
public sealed class Observer
{
    private const double MustReachDownToNm = 390, MustReachUpToNm = 780, WidestStepNm = 10, LargestValue = 1e6;

    private readonly double[] _x, _y, _z;

    /// <summary>An observer from the caller's own functions.</summary>
    /// <param name="name">Name to show in results.</param>
    /// <param name="grid">
    /// Wavelengths, at least from 390 to 780 nm, in steps of at most 10 nm; steps above 1 nm are interpolated (ASTM
    /// E2022).
    /// </param>
    /// <param name="x">The function x-bar, one value for each wavelength, 0 to 1e6, not all zero; copied.</param>
    /// <param name="y">The function y-bar, likewise.</param>
    /// <param name="z">The function z-bar, likewise.</param>
    /// <exception cref="ArgumentException">
    /// The name is empty, the grid ends early, a function has another number of values than the grid, or is all zero.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// The step is too wide, or a value is NaN or outside its range; names function and wavelength.
    /// </exception>
    /// <remarks>
    /// Only the ratios of the functions matter, since Y of the perfect diffuser is scaled to 100. Sums run from 360 to
    /// 780 nm; where the functions begin later, from there.
    /// </remarks>
    public Observer(
        string name, WavelengthGrid grid, ReadOnlySpan<double> x, ReadOnlySpan<double> y, ReadOnlySpan<double> z)
    {
        Name = Guard.NotBlank(name);
        Grid = Guard.NotNull(grid);
        Guard.InRange(grid.StepNm, 0, WidestStepNm, "nm", "step of the colour-matching functions");
        if (grid.StartNm > MustReachDownToNm || grid.EndNm < MustReachUpToNm)
        {
            throw new ArgumentException(
                $"Colour-matching functions must reach from {Guard.Text(MustReachDownToNm)} to "
                + $"{Guard.Text(MustReachUpToNm)} nm but are given at {grid}.",
                nameof(grid));
        }

        (_x, _y, _z) = (Checked(grid, x, "x-bar"), Checked(grid, y, "y-bar"), Checked(grid, z, "z-bar"));
    }

    /// <summary>CIE 1931 standard observer, 2 degree field.</summary>
    public static Observer Cie1931TwoDegree { get; } = new(
        "2°", Table(CieTables.Cie1931TwoDegreeStartNm, CieTables.Cie1931TwoDegreeX.Length),
        CieTables.Cie1931TwoDegreeX, CieTables.Cie1931TwoDegreeY, CieTables.Cie1931TwoDegreeZ);

    /// <summary>CIE 1964 standard observer, 10 degree field.</summary>
    public static Observer Cie1964TenDegree { get; } = new(
        "10°", Table(CieTables.Cie1964TenDegreeStartNm, CieTables.Cie1964TenDegreeX.Length),
        CieTables.Cie1964TenDegreeX, CieTables.Cie1964TenDegreeY, CieTables.Cie1964TenDegreeZ);

    /// <summary>CIE 2015 observer based on cone fundamentals, 2 degree field; its functions begin at 390 nm.</summary>
    public static Observer Cie2015TwoDegree { get; } = new(
        "2° (2015)", Table(CieTables.Cie2015TwoDegreeStartNm, CieTables.Cie2015TwoDegreeX.Length),
        CieTables.Cie2015TwoDegreeX, CieTables.Cie2015TwoDegreeY, CieTables.Cie2015TwoDegreeZ);

    /// <summary>CIE 2015 observer based on cone fundamentals, 10 degree field; its functions begin at 390 nm.</summary>
    public static Observer Cie2015TenDegree { get; } = new(
        "10° (2015)", Table(CieTables.Cie2015TenDegreeStartNm, CieTables.Cie2015TenDegreeX.Length),
        CieTables.Cie2015TenDegreeX, CieTables.Cie2015TenDegreeY, CieTables.Cie2015TenDegreeZ);

    /// <summary>"2°", "10°", "2° (2015)", "10° (2015)", or the caller's name.</summary>
    public string Name { get; }

    /// <summary>Wavelengths of the functions.</summary>
    public WavelengthGrid Grid { get; }

    /// <summary>The function x-bar.</summary>
    public ReadOnlySpan<double> X => _x;

    /// <summary>The function y-bar.</summary>
    public ReadOnlySpan<double> Y => _y;

    /// <summary>The function z-bar.</summary>
    public ReadOnlySpan<double> Z => _z;

    /// <inheritdoc/>
    public override string ToString() => Name;

    private static WavelengthGrid Table(double startNm, int count) => new(startNm, 1, count);

    private static double[] Checked(WavelengthGrid grid, ReadOnlySpan<double> values, string function)
    {
        if (values.Length != grid.Count)
        {
            throw new ArgumentException($"{function} has {Guard.Text(values.Length)} values for {grid}.");
        }

        double largest = 0;
        for (int i = 0; i < values.Length; i++)
        {
            Guard.InRange(values[i], 0, LargestValue, "", $"{function} at {Guard.Text(grid[i])} nm");
            largest = Math.Max(largest, values[i]);
        }

        return largest > 0 ? values.ToArray() : throw new ArgumentException($"{function} is zero at every wavelength.");
    }
}
