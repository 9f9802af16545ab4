namespace CeramicOptics.Spectra;

/// <summary>Equally spaced wavelengths in nm at which spectral values are given.</summary>
/// <remarks>Immutable and safe to share. Two grids are equal when start, step and count are equal.</remarks>
public sealed record WavelengthGrid
{
    private const double ShortestNm = 200, LongestNm = 3000;

    /// <summary>A grid of <paramref name="count"/> wavelengths from <paramref name="startNm"/> on.</summary>
    /// <param name="startNm">First wavelength, 200 to 3000 nm.</param>
    /// <param name="stepNm">Distance between neighbours, 0.1 to 100 nm.</param>
    /// <param name="count">Number of wavelengths, 2 to 20000.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A value, or the last wavelength, is outside its range or NaN.
    /// </exception>
    public WavelengthGrid(double startNm, double stepNm, int count)
    {
        StartNm = Guard.InRange(startNm, ShortestNm, LongestNm, "nm");
        StepNm = Guard.InRange(stepNm, 0.1, 100, "nm");
        Count = Guard.InRange(count, 2, 20000);
        Guard.InRange(EndNm, ShortestNm, LongestNm, "nm");
    }

    /// <summary>First wavelength, nm.</summary>
    public double StartNm { get; }

    /// <summary>Distance between neighbours, nm.</summary>
    public double StepNm { get; }

    /// <summary>Number of wavelengths.</summary>
    public int Count { get; }

    /// <summary>Last wavelength, nm.</summary>
    public double EndNm => this[Count - 1];

    /// <summary>The wavelength at <paramref name="index"/>, nm.</summary>
    /// <param name="index">0 to <see cref="Count"/> - 1.</param>
    public double this[int index] => StartNm + (index * StepNm);

    /// <summary>Grid from <paramref name="startNm"/> to <paramref name="endNm"/>, both included.</summary>
    /// <param name="startNm">First wavelength, nm.</param>
    /// <param name="endNm">Last wavelength, nm; a whole number of steps away.</param>
    /// <param name="stepNm">Distance between neighbours, nm.</param>
    /// <exception cref="ArgumentException">The range is not a whole number of steps.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range or NaN.</exception>
    public static WavelengthGrid Range(double startNm, double endNm, double stepNm)
    {
        Guard.InRange(stepNm, 0.1, 100, "nm");
        Guard.InRange(startNm, ShortestNm, LongestNm, "nm");
        Guard.InRange(endNm, startNm, LongestNm, "nm");
        double steps = Math.Round((endNm - startNm) / stepNm);
        if (Math.Abs(startNm + (steps * stepNm) - endNm) > 1e-6)
        {
            throw new ArgumentException(
                $"The range {Guard.Text(startNm)} to {Guard.Text(endNm)} nm is not a whole number of steps of "
                    + $"{Guard.Text(stepNm)} nm.", nameof(stepNm));
        }

        return new WavelengthGrid(startNm, stepNm, (int)steps + 1);
    }

    /// <summary>The grid whose wavelengths are <paramref name="wavelengthsNm"/>.</summary>
    /// <param name="wavelengthsNm">At least two increasing, equally spaced wavelengths, nm.</param>
    /// <exception cref="ArgumentException">
    /// Fewer than two, not increasing, or not equally spaced (to 1e-6 nm); names the position.
    /// </exception>
    internal static WavelengthGrid FromWavelengths(ReadOnlySpan<double> wavelengthsNm)
    {
        if (wavelengthsNm.Length < 2)
        {
            throw new ArgumentException(
                $"A grid needs at least 2 wavelengths but {wavelengthsNm.Length} given.", nameof(wavelengthsNm));
        }

        SpectralInterpolation.CheckIncreasing(wavelengthsNm);
        int uneven = FirstUneven(wavelengthsNm, out double step);
        if (uneven >= 0)
        {
            throw new ArgumentException(
                $"Wavelengths are not equally spaced: index {uneven} is {Guard.Text(wavelengthsNm[uneven])} nm "
                    + $"where {Guard.Text(wavelengthsNm[0] + (uneven * step))} nm is expected.",
                nameof(wavelengthsNm));
        }

        return new WavelengthGrid(wavelengthsNm[0], step, wavelengthsNm.Length);
    }

    /// <summary>Position of a wavelength that is on the grid (to 1e-6 nm), or -1.</summary>
    /// <param name="wavelengthNm">Wavelength, nm.</param>
    public int IndexOf(double wavelengthNm)
    {
        double position = Math.Round((wavelengthNm - StartNm) / StepNm);
        return position >= 0 && position < Count && Math.Abs(this[(int)position] - wavelengthNm) <= 1e-6
            ? (int)position
            : -1;
    }

    /// <summary>For example "380 to 780 nm in steps of 5 nm (81 values)".</summary>
    public override string ToString() =>
        $"{Guard.Text(StartNm)} to {Guard.Text(EndNm)} nm in steps of {Guard.Text(StepNm)} nm ({Guard.Text(Count)} "
            + "values)";

    /// <summary>
    /// Position of the first wavelength off equal spacing (to 1e-6 nm), or -1; at least two wavelengths.
    /// </summary>
    internal static int FirstUneven(ReadOnlySpan<double> wavelengthsNm, out double stepNm)
    {
        stepNm = (wavelengthsNm[wavelengthsNm.Length - 1] - wavelengthsNm[0]) / (wavelengthsNm.Length - 1);
        for (int i = 1; i < wavelengthsNm.Length; i++)
        {
            if (Math.Abs(wavelengthsNm[0] + (i * stepNm) - wavelengthsNm[i]) > 1e-6)
            {
                return i;
            }
        }

        return -1;
    }

    /// <summary>
    /// Throws an <see cref="ArgumentException"/> that shows both grids unless <paramref name="other"/> equals this one.
    /// </summary>
    internal void RequireSame(WavelengthGrid other, string what)
    {
        if (!Equals(other))
        {
            throw new ArgumentException($"{what} is given at {other} but {this} is needed; resample it first.");
        }
    }
}
