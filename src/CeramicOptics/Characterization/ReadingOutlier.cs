namespace CeramicOptics.Characterization;

/// <summary>A value far from the fit.</summary>
public sealed record ReadingOutlier : IFormattable
{
    internal ReadingOutlier(string reading, double wavelengthNm, double studentizedResidual) =>
        (Reading, WavelengthNm, StudentizedResidual) = (reading, wavelengthNm, studentizedResidual);

    /// <summary>Name of the reading.</summary>
    public string Reading { get; }

    /// <summary>Wavelength, nm.</summary>
    public double WavelengthNm { get; }

    /// <summary>
    /// Residual (measured less fitted) in units of its own standard uncertainty; beyond 4 either way.
    /// </summary>
    public double StudentizedResidual { get; }

    /// <summary>For example "thin over white at 450 nm: 6.1 standard uncertainties above the fit".</summary>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider) => Language.Of(provider).Text(
        StudentizedResidual > 0 ? "ReadingOutlier.Above" : "ReadingOutlier.Below", Reading, WavelengthNm,
        Math.Abs(StudentizedResidual));
}
