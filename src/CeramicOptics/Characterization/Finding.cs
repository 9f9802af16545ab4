namespace CeramicOptics.Characterization;

/// <summary>A remark of the characterization about one wavelength.</summary>
/// <param name="WavelengthNm">Wavelength, nm.</param>
/// <param name="Kind">What was found.</param>
/// <param name="Message">The same in words, with the values concerned.</param>
public sealed record Finding(double WavelengthNm, FindingKind Kind, string Message)
{
    /// <summary>True when K and S could be given all the same.</summary>
    public bool IsDetermined => Kind is FindingKind.AbsorptionBelowDetection or FindingKind.ScatteringBelowDetection or FindingKind.PoorFit;

    /// <summary>For example "700 nm: reads 0.41 over black and 0.41 over white."</summary>
    public override string ToString() => $"{Guard.Text(WavelengthNm)} nm: {Message}";
}
