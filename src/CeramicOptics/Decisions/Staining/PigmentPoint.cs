namespace CeramicOptics.Decisions.Staining;

/// <summary>The fit of drawdowns at one wavelength, also where it does not determine the pigment.</summary>
/// <remarks>
/// Where <see cref="IsDetermined"/> is false other numbers fit the readings as well; often only K/S is known. Use them
/// to inspect a fit, not to predict.
/// </remarks>
public sealed class PigmentPoint : Formattable
{
    internal PigmentPoint(
        double wavelengthNm, PigmentFit fit, (double K, double S) carrier, bool isDetermined)
    {
        (WavelengthNm, ChiSquare, IsDetermined) = (wavelengthNm, fit.ChiSquare, isDetermined);
        (Absorption, Scattering) = (fit.Values[0], fit.Values[1]);
        (CarrierAbsorption, CarrierScattering) = carrier;
    }

    /// <summary>Wavelength, nm.</summary>
    public double WavelengthNm { get; }

    /// <summary>K of the pigment for one unit of load that fits best, 1/mm.</summary>
    public double Absorption { get; }

    /// <summary>S of the pigment for one unit of load that fits best, 1/mm.</summary>
    public double Scattering { get; }

    /// <summary>K of the carrier, as given or fitted with it, 1/mm.</summary>
    public double CarrierAbsorption { get; }

    /// <summary>S of the carrier, as given or fitted with it, 1/mm.</summary>
    public double CarrierScattering { get; }

    /// <summary>Sum of squared residuals in units of their standard uncertainty.</summary>
    public double ChiSquare { get; }

    /// <summary>True when the readings determine the pigment here.</summary>
    public bool IsDetermined { get; }

    /// <summary>For example "550 nm: K 1.2, S 0.3 1/mm, chi-square 2.1".</summary>
    private protected override string InWords(Language language) => language.Text(
        IsDetermined ? "PigmentPoint" : "PigmentPoint.NotDetermined", WavelengthNm, Absorption, Scattering, ChiSquare);
}
