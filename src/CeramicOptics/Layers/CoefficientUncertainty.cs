using CeramicOptics.Spectra;

namespace CeramicOptics.Layers;

/// <summary>Standard uncertainty of the coefficients K and S of a material.</summary>
/// <remarks>
/// Two parts: reading noise, independent from wavelength to wavelength, with a correlation of K and S at each; and one
/// relative error of scale common to all coefficients, from the thickness of the disc (K and S are both inverse to it).
/// Immutable.
/// </remarks>
public sealed class CoefficientUncertainty
{
    private readonly double[] _absorption, _scattering, _correlation;

    /// <summary>Uncertainties that copy the given values.</summary>
    /// <param name="absorptionPerMm">Standard uncertainty of K at each wavelength, 1/mm.</param>
    /// <param name="scatteringPerMm">Standard uncertainty of S at each wavelength, 1/mm.</param>
    /// <param name="correlation">Correlation of the two at each wavelength, -1 to 1.</param>
    /// <param name="relativeScale">Relative standard uncertainty common to all coefficients, 0 to 1.</param>
    /// <exception cref="ArgumentException">Lengths differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range or NaN.</exception>
    public CoefficientUncertainty(
        ReadOnlySpan<double> absorptionPerMm, ReadOnlySpan<double> scatteringPerMm, ReadOnlySpan<double> correlation,
        double relativeScale)
    {
        if (absorptionPerMm.Length != scatteringPerMm.Length || absorptionPerMm.Length != correlation.Length)
        {
            throw new ArgumentException(
                $"Uncertainties of K ({absorptionPerMm.Length}), S ({scatteringPerMm.Length}) and their correlation "
                    + $"({correlation.Length}) must be equally many.");
        }

        for (int i = 0; i < absorptionPerMm.Length; i++)
        {
            Guard.InRange(absorptionPerMm[i], 0, 1e6, "1/mm", $"absorption uncertainty [{i}]");
            Guard.InRange(scatteringPerMm[i], 0, 1e6, "1/mm", $"scattering uncertainty [{i}]");
            Guard.InRange(correlation[i], -1, 1, "", $"correlation [{i}]");
        }

        (_absorption, _scattering, _correlation) = (
            absorptionPerMm.ToArray(), scatteringPerMm.ToArray(), correlation.ToArray());
        RelativeScale = Guard.InRange(relativeScale, 0, 1, "");
    }

    /// <summary>Only a common relative error of all coefficients, where no more is known.</summary>
    /// <param name="grid">Wavelengths of the coefficients.</param>
    /// <param name="relativeScale">Relative standard uncertainty, 0 to 1.</param>
    public static CoefficientUncertainty OfScale(WavelengthGrid grid, double relativeScale)
    {
        double[] none = new double[Guard.NotNull(grid).Count];
        return new CoefficientUncertainty(none, none, none, relativeScale);
    }

    /// <summary>Standard uncertainty of K at each wavelength, 1/mm.</summary>
    public ReadOnlySpan<double> AbsorptionPerMm => _absorption;

    /// <summary>Standard uncertainty of S at each wavelength, 1/mm.</summary>
    public ReadOnlySpan<double> ScatteringPerMm => _scattering;

    /// <summary>Correlation of K and S at each wavelength.</summary>
    public ReadOnlySpan<double> Correlation => _correlation;

    /// <summary>Relative standard uncertainty common to all coefficients.</summary>
    public double RelativeScale { get; }

    internal CoefficientUncertainty Resample(WavelengthGrid from, WavelengthGrid to) => new(
        SpectralInterpolation.MonotoneCubic(from, _absorption, to),
        SpectralInterpolation.MonotoneCubic(from, _scattering, to),
        SpectralInterpolation.MonotoneCubic(from, _correlation, to), RelativeScale);

    /// <summary>The same, checked to be given at as many wavelengths as the coefficients.</summary>
    internal CoefficientUncertainty RequireFor(WavelengthGrid grid, string name) =>
        _absorption.Length == grid.Count
            ? this
            : throw new ArgumentException(
                $"Uncertainty of '{name}' has {_absorption.Length} values but the coefficients are given at {grid}.");
}
