namespace CeramicOptics.Spectra;

/// <summary>Total (scattered and straight) transmittance of a specimen, 0 to 1.</summary>
/// <remarks>Values lie in [0, 1]; percent is refused.</remarks>
public sealed class TransmittanceSpectrum : Spectrum
{
    /// <summary>A spectrum that copies <paramref name="values"/>.</summary>
    /// <param name="grid">Wavelengths.</param>
    /// <param name="values">One transmittance for each wavelength, 0 to 1.</param>
    /// <exception cref="ArgumentException">The number of values differs from the grid's.</exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A value is NaN or outside its range; names index and wavelength.
    /// </exception>
    public TransmittanceSpectrum(WavelengthGrid grid, ReadOnlySpan<double> values)
        : base(grid, values, "Transmittance", 0, 1, "")
    {
    }

    /// <summary>This transmittance at the wavelengths of another grid inside its range.</summary>
    /// <param name="grid">The grid to interpolate to; nothing is extrapolated.</param>
    /// <param name="method">Interpolation; Sprague (CIE 167) unless the data has steps it would overshoot.</param>
    /// <exception cref="ArgumentException">
    /// <paramref name="grid"/> reaches outside this spectrum's range, or Sprague is asked of fewer than 6 values.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// Sprague overshoots the allowed range; take the monotone method.
    /// </exception>
    public TransmittanceSpectrum Resample(
        WavelengthGrid grid, InterpolationMethod method = InterpolationMethod.Sprague) =>
        new(grid, SpectralInterpolation.Resample(this, grid, method));
}
