namespace CeramicOptics.Spectra;

/// <summary>Relative spectral power of a light source, in any unit that is the same at all wavelengths.</summary>
public sealed class PowerSpectrum : Spectrum
{
    /// <summary>A spectrum that copies <paramref name="values"/>.</summary>
    /// <param name="grid">Wavelengths.</param>
    /// <param name="values">One power for each wavelength, 0 to 1e12, not all zero.</param>
    /// <exception cref="ArgumentException">The number of values differs from the grid's, or all are zero.</exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A value is NaN or outside its range; names index and wavelength.
    /// </exception>
    public PowerSpectrum(WavelengthGrid grid, ReadOnlySpan<double> values)
        : base(grid, values, "Relative spectral power", 0, 1e12, "")
    {
        bool dark = true;
        foreach (double value in values)
        {
            dark &= value == 0;
        }

        if (dark)
        {
            throw new ArgumentException("Relative spectral power is zero at every wavelength.", nameof(values));
        }
    }

    /// <summary>This power at the wavelengths of another grid inside its range.</summary>
    /// <param name="grid">The grid to interpolate to; nothing is extrapolated.</param>
    /// <param name="method">Interpolation; monotone cubic is right for sources with lines.</param>
    /// <exception cref="ArgumentException">
    /// <paramref name="grid"/> reaches outside this spectrum's range, or Sprague is asked of fewer than 6 values.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// Sprague overshoots the allowed range; take the monotone method.
    /// </exception>
    public PowerSpectrum Resample(
        WavelengthGrid grid, InterpolationMethod method = InterpolationMethod.MonotoneCubic) =>
        new(grid, SpectralInterpolation.Resample(this, grid, method));
}
