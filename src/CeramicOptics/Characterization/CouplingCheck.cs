namespace CeramicOptics.Characterization;

/// <summary>The readings fitted once more as if the film between disc and backing had been the other one.</summary>
/// <remarks>
/// A disc that lay dry but is recorded as in contact, or the other way round, gives wrong constants without a residual
/// when there are only two readings: two numbers always fit. Readings of two thicknesses or more backings can tell. Up
/// to seven wavelengths are used, without those at which the loss through a window cannot be determined with the other
/// film.
/// </remarks>
public sealed class CouplingCheck : Formattable
{
    internal CouplingCheck(
        string stated, string other, double chiSquare, double otherChiSquare, int degreesOfFreedom,
        (double K, double S)? coefficients, (double K, double S) otherCoefficients)
    {
        (Stated, Other, ChiSquare, OtherChiSquare) = (stated, other, chiSquare, otherChiSquare);
        DegreesOfFreedom = degreesOfFreedom;
        (AbsorptionPerMm, ScatteringPerMm) = (coefficients?.K, coefficients?.S);
        (OtherAbsorptionPerMm, OtherScatteringPerMm) = otherCoefficients;
        Verdict = IsMuchBetter(otherChiSquare, chiSquare) ? CouplingVerdict.Doubtful
            : IsMuchBetter(chiSquare, otherChiSquare) ? CouplingVerdict.Supported : CouplingVerdict.Open;
    }

    /// <summary>The film as stated: "air", "glycerine", "contact" and so on.</summary>
    public string Stated { get; }

    /// <summary>The film it was compared with: air for a wet disc, glycerine for a dry one.</summary>
    public string Other { get; }

    /// <summary>Chi-square with the film stated, summed over the wavelengths looked at.</summary>
    public double ChiSquare { get; }

    /// <summary>The same with the other film.</summary>
    public double OtherChiSquare { get; }

    /// <summary>Degrees of freedom of both sums; 0 when there are as many readings as coefficients.</summary>
    public int DegreesOfFreedom { get; }

    /// <summary>
    /// K with the film stated, mean of the wavelengths looked at where it is determined, 1/mm; null where it is
    /// nowhere.
    /// </summary>
    public double? AbsorptionPerMm { get; }

    /// <summary>
    /// S with the film stated, mean of the wavelengths looked at where it is determined, 1/mm; null where it is
    /// nowhere.
    /// </summary>
    public double? ScatteringPerMm { get; }

    /// <summary>K with the other film, mean of the wavelengths looked at, 1/mm.</summary>
    public double OtherAbsorptionPerMm { get; }

    /// <summary>S with the other film, mean of the wavelengths looked at, 1/mm.</summary>
    public double OtherScatteringPerMm { get; }

    /// <summary>What the readings tell.</summary>
    public CouplingVerdict Verdict { get; }

    /// <summary>What the readings tell, and K and S with either film.</summary>
    private protected override string InWords(Language language) => language.Text(
        $"CouplingCheck.{Verdict}{(ScatteringPerMm is null ? ".Bare" : "")}", Stated, Other, ChiSquare,
        OtherChiSquare, DegreesOfFreedom, ScatteringPerMm, OtherScatteringPerMm, AbsorptionPerMm,
        OtherAbsorptionPerMm);

    // The bad one is a poor fit (four times what noise explains) and four times worse than the good one.
    private bool IsMuchBetter(double good, double bad) =>
        bad > 4 * Math.Max(DegreesOfFreedom, 9) && bad > 4 * good;
}
