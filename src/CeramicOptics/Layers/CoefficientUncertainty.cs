using CeramicOptics.Spectra;

namespace CeramicOptics.Layers;

/// <summary>Standard uncertainty of the coefficients K and S of a material.</summary>
/// <remarks>
/// Three parts: reading noise, independent from wavelength to wavelength, with a correlation of K and S at each; one
/// relative error of scale common to all coefficients, from the thickness of the disc (K and S are both inverse to it);
/// and one cause that moves all coefficients together, each in its own measure, such as the unknown anisotropy of
/// scattering of a disc read through a window. Immutable.
/// </remarks>
public sealed class CoefficientUncertainty
{
    private readonly double[] _absorption, _scattering, _correlation, _commonAbsorption, _commonScattering;

    /// <summary>Uncertainties that copy the given values.</summary>
    /// <param name="absorptionPerMm">Standard uncertainty of K at each wavelength, 1/mm.</param>
    /// <param name="scatteringPerMm">Standard uncertainty of S at each wavelength, 1/mm.</param>
    /// <param name="correlation">Correlation of the two at each wavelength, -1 to 1.</param>
    /// <param name="relativeScale">Relative standard uncertainty common to all coefficients, 0 to 1.</param>
    /// <param name="commonAbsorptionPerMm">
    /// Moves of K by one standard deviation of a common cause, with their signs, 1/mm; none when empty.
    /// </param>
    /// <param name="commonScatteringPerMm">The same of S, of the same cause.</param>
    /// <exception cref="ArgumentException">Lengths differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range or NaN.</exception>
    public CoefficientUncertainty(
        ReadOnlySpan<double> absorptionPerMm, ReadOnlySpan<double> scatteringPerMm, ReadOnlySpan<double> correlation,
        double relativeScale, ReadOnlySpan<double> commonAbsorptionPerMm = default,
        ReadOnlySpan<double> commonScatteringPerMm = default)
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
        _commonAbsorption = Common(commonAbsorptionPerMm, absorptionPerMm.Length, nameof(commonAbsorptionPerMm));
        _commonScattering = Common(commonScatteringPerMm, absorptionPerMm.Length, nameof(commonScatteringPerMm));
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

    /// <summary>Standard uncertainty of K from noise at each wavelength, 1/mm.</summary>
    public ReadOnlySpan<double> AbsorptionPerMm => _absorption;

    /// <summary>Standard uncertainty of S from noise at each wavelength, 1/mm.</summary>
    public ReadOnlySpan<double> ScatteringPerMm => _scattering;

    /// <summary>Correlation of the noise of K and S at each wavelength.</summary>
    public ReadOnlySpan<double> Correlation => _correlation;

    /// <summary>Relative standard uncertainty common to all coefficients.</summary>
    public double RelativeScale { get; }

    /// <summary>Moves of K by one standard deviation of a common cause, with their signs, 1/mm.</summary>
    public ReadOnlySpan<double> CommonAbsorptionPerMm => _commonAbsorption;

    /// <summary>Moves of S by one standard deviation of the same cause, 1/mm.</summary>
    public ReadOnlySpan<double> CommonScatteringPerMm => _commonScattering;

    /// <summary>True when a common cause moves anything.</summary>
    internal bool HasCommon => Array.Exists(_commonAbsorption, Moves) || Array.Exists(_commonScattering, Moves);

    /// <summary>True when anything but the common scale is uncertain.</summary>
    internal bool MovesAnyAlone =>
        Array.Exists(_absorption, Moves) || Array.Exists(_scattering, Moves) || HasCommon;

    internal CoefficientUncertainty Resample(WavelengthGrid from, WavelengthGrid to) => new(
        SpectralInterpolation.MonotoneCubic(from, _absorption, to),
        SpectralInterpolation.MonotoneCubic(from, _scattering, to),
        SpectralInterpolation.MonotoneCubic(from, _correlation, to), RelativeScale,
        SpectralInterpolation.MonotoneCubic(from, _commonAbsorption, to),
        SpectralInterpolation.MonotoneCubic(from, _commonScattering, to));

    /// <summary>The same, checked to be given at as many wavelengths as the coefficients.</summary>
    internal CoefficientUncertainty RequireFor(WavelengthGrid grid, string name) =>
        _absorption.Length == grid.Count
            ? this
            : throw new ArgumentException(
                $"Uncertainty of '{name}' has {_absorption.Length} values but the coefficients are given at {grid}.");

    private static bool Moves(double value) => value != 0;

    private static double[] Common(ReadOnlySpan<double> values, int count, string name)
    {
        if (values.IsEmpty)
        {
            return new double[count];
        }

        if (values.Length != count)
        {
            throw new ArgumentException($"{name} has {values.Length} values but there are {count} wavelengths.", name);
        }

        for (int i = 0; i < count; i++)
        {
            Guard.InRange(values[i], -1e6, 1e6, "1/mm", $"{name}[{i}]");
        }

        return values.ToArray();
    }
}
