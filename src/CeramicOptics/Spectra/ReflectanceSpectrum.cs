namespace CeramicOptics.Spectra;

/// <summary>
/// Spectral reflectance factor, relative to the perfect reflecting diffuser (0 = black, 1 = perfect diffuser).
/// </summary>
/// <remarks>
/// Values lie in [0, 1.1]: a reflectance is at most 1, but the factor of a glossy near-white body read at 45:0 can
/// exceed 1 by under one percent. Percent (0..100) is refused.
/// </remarks>
public sealed class ReflectanceSpectrum : Spectrum
{
    /// <summary>Largest reflectance factor that is accepted.</summary>
    internal const double Maximum = 1.1;

    /// <summary>A reflectance spectrum that copies <paramref name="values"/>.</summary>
    /// <param name="grid">Wavelengths.</param>
    /// <param name="values">One reflectance factor for each wavelength, 0 to 1.1.</param>
    /// <exception cref="ArgumentException">The number of values differs from the grid's.</exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A value is NaN or outside [0, 1.1]; names index and wavelength.
    /// </exception>
    public ReflectanceSpectrum(WavelengthGrid grid, ReadOnlySpan<double> values)
        : base(grid, values, "Reflectance", 0, Maximum, "")
    {
    }

    /// <summary>The same reflectance at every wavelength.</summary>
    /// <param name="grid">Wavelengths.</param>
    /// <param name="value">Reflectance factor, 0 to 1.1.</param>
    public static ReflectanceSpectrum Uniform(WavelengthGrid grid, double value) => new(grid, Constant(grid, value));

    /// <summary>
    /// A reflectance on a uniform grid from readings at any wavelengths, by monotone cubic interpolation.
    /// </summary>
    /// <param name="wavelengthsNm">
    /// Increasing wavelengths of the readings, nm; they must reach both ends of <paramref name="grid"/>.
    /// </param>
    /// <param name="values">One reflectance factor for each reading.</param>
    /// <param name="grid">The grid to interpolate to.</param>
    /// <exception cref="ArgumentException">
    /// Lengths differ, wavelengths are not increasing, or the grid reaches outside them.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// An interpolated value is NaN or outside [0, 1.1]; names index and wavelength.
    /// </exception>
    public static ReflectanceSpectrum FromSamples(
        ReadOnlySpan<double> wavelengthsNm, ReadOnlySpan<double> values, WavelengthGrid grid) =>
        new(grid, SpectralInterpolation.MonotoneCubic(wavelengthsNm, values, grid));

    /// <summary>This reflectance at the wavelengths of another grid inside its range.</summary>
    /// <param name="grid">The grid to interpolate to; nothing is extrapolated.</param>
    /// <param name="method">Interpolation; Sprague (CIE 167) unless the data has steps it would overshoot.</param>
    /// <exception cref="ArgumentException">
    /// <paramref name="grid"/> reaches outside this spectrum's range, or Sprague is asked of fewer than 6 values.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// Sprague overshoots the allowed range; take the monotone method.
    /// </exception>
    public ReflectanceSpectrum Resample(
        WavelengthGrid grid, InterpolationMethod method = InterpolationMethod.Sprague) =>
        new(grid, SpectralInterpolation.Resample(this, grid, method));
}
