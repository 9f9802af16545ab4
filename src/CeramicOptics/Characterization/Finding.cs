namespace CeramicOptics.Characterization;

/// <summary>
/// A remark of the characterization about one wavelength, about all where it stands at the most telling one, or about
/// the readings as a whole.
/// </summary>
/// <remarks>Created by the library only; equal by value.</remarks>
public sealed record Finding : IFormattable
{
    internal Finding(double? wavelengthNm, FindingKind kind, params double[] values) =>
        (WavelengthNm, Kind, Values) = (wavelengthNm, kind, Guard.Copy(values));

    /// <summary>Wavelength, nm; null for a remark about the readings as a whole.</summary>
    public double? WavelengthNm { get; }

    /// <summary>What was found.</summary>
    public FindingKind Kind { get; }

    /// <summary>The values concerned, in the order that each <see cref="FindingKind"/> states.</summary>
    public IReadOnlyList<double> Values { get; }

    /// <summary>Whose words to use where they are not those of discs; null for a disc.</summary>
    internal string? Case { get; init; }

    /// <summary>True when K and S could be given all the same.</summary>
    public bool IsDetermined =>
        Kind is FindingKind.AbsorptionBelowDetection or FindingKind.ScatteringBelowDetection or FindingKind.PoorFit
            or FindingKind.CouplingDoubtful or FindingKind.LightLostSideways or FindingKind.OutsideTestedWindows
            or FindingKind.AreaNotStated or FindingKind.ThickDisc or FindingKind.ThinDisc or FindingKind.AtLimit;

    /// <summary>For example "700 nm: reads 0.41 over black and 0.41 over white."</summary>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider)
    {
        Language language = Language.Of(provider);
        return WavelengthNm is { } nm ? language.Text("Finding", nm, Words(language)) : Words(language);
    }

    /// <summary>The same without its wavelength.</summary>
    internal string Words(Language language)
    {
        string form = Case is not null ? $".{Case}" : IsBare ? ".Bare" : "";
        return language.Text($"Finding.{Kind}{form}", [.. Values.Cast<object>()]);
    }

    // Kinds that may have fewer values, where nothing more could be found.
    private bool IsBare =>
        (Kind == FindingKind.LightLostSideways && Values.Count == 1)
        || (Kind == FindingKind.CouplingDoubtful && Values.Count == 4)
        || (Kind is FindingKind.AreaNotStated or FindingKind.Undetermined && Values.Count == 0);
}
