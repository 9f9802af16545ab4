namespace CeramicOptics.Spectra;

/// <summary>Kubelka-Munk scattering coefficient S of a material, in 1/mm.</summary>
/// <remarks>Values lie in [0, 1e6] 1/mm.</remarks>
public sealed class ScatteringSpectrum : Spectrum
{
    /// <summary>A spectrum that copies <paramref name="perMm"/>.</summary>
    /// <param name="grid">Wavelengths.</param>
    /// <param name="perMm">One coefficient for each wavelength, 0 to 1e6 1/mm.</param>
    /// <exception cref="ArgumentException">The number of values differs from the grid's.</exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A value is NaN or outside its range; names index and wavelength.
    /// </exception>
    public ScatteringSpectrum(WavelengthGrid grid, ReadOnlySpan<double> perMm)
        : base(grid, perMm, "Scattering coefficient", 0, 1e6, " 1/mm")
    {
    }

    /// <summary>The same coefficient at every wavelength.</summary>
    /// <param name="grid">Wavelengths.</param>
    /// <param name="perMm">Coefficient, 0 to 1e6 1/mm.</param>
    public static ScatteringSpectrum Uniform(WavelengthGrid grid, double perMm) => new(grid, Constant(grid, perMm));

    /// <summary>These coefficients at the wavelengths of another grid inside their range.</summary>
    /// <param name="grid">The grid to interpolate to; nothing is extrapolated.</param>
    /// <param name="method">Interpolation; Sprague (CIE 167) unless the data has steps it would overshoot.</param>
    /// <exception cref="ArgumentException">
    /// <paramref name="grid"/> reaches outside this spectrum's range, or Sprague is asked of fewer than 6 values.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// Sprague overshoots the allowed range; take the monotone method.
    /// </exception>
    public ScatteringSpectrum Resample(
        WavelengthGrid grid, InterpolationMethod method = InterpolationMethod.Sprague) =>
        new(grid, SpectralInterpolation.Resample(this, grid, method));
}
