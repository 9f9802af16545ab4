namespace CeramicOptics.Characterization;

/// <summary>A value far from the fit.</summary>
public sealed class ReadingOutlier : Formattable
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
    private protected override string InWords(Language language) => language.Text(
        StudentizedResidual > 0 ? "ReadingOutlier.Above" : "ReadingOutlier.Below", Reading, WavelengthNm,
        Math.Abs(StudentizedResidual));
}
