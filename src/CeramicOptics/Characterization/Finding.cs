namespace CeramicOptics.Characterization;

/// <summary>A remark of the characterization about one wavelength.</summary>
public sealed record Finding
{
    internal Finding(double wavelengthNm, FindingKind kind, string message) =>
        (WavelengthNm, Kind, Message) = (wavelengthNm, kind, message);

    /// <summary>Wavelength, nm.</summary>
    public double WavelengthNm { get; }

    /// <summary>What was found.</summary>
    public FindingKind Kind { get; }

    /// <summary>The same in words, with the values concerned.</summary>
    public string Message { get; }

    /// <summary>True when K and S could be given all the same.</summary>
    public bool IsDetermined =>
        Kind is FindingKind.AbsorptionBelowDetection or FindingKind.ScatteringBelowDetection or FindingKind.PoorFit;

    /// <summary>For example "700 nm: reads 0.41 over black and 0.41 over white."</summary>
    public override string ToString() => $"{Guard.Text(WavelengthNm)} nm: {Message}";
}
