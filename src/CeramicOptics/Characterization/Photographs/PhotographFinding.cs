using System.Globalization;

namespace CeramicOptics.Characterization.Photographs;

/// <summary>A remark about colours from a photograph, which must be shown with them.</summary>
/// <remarks>Made by the library only; equal by value.</remarks>
public sealed record PhotographFinding
{
    internal PhotographFinding(
        PhotographFindingKind kind, string? subject = null, double? value = null, CameraChannel? channel = null) =>
        (Kind, Subject, Value, Channel) = (kind, subject, value, channel);

    /// <summary>What was found.</summary>
    public PhotographFindingKind Kind { get; }

    /// <summary>Name of the patch it concerns, or of the curve; null where it concerns all.</summary>
    public string? Subject { get; }

    /// <summary>
    /// The number it states: L*a*b* units outside the gamut, CIEDE2000 of errors, mean of a clipped channel, patches
    /// for each term; null for none.
    /// </summary>
    public double? Value { get; }

    /// <summary>The channel it concerns; null for all.</summary>
    public CameraChannel? Channel { get; }

    /// <summary>The same in words.</summary>
    public string Text => Kind switch
    {
        PhotographFindingKind.DisplayValues =>
            $"The values are display values ({Subject}); tone, saturation and local contrast that the camera changed "
            + "are not taken back by that curve. Use raw values where you can.",
        PhotographFindingKind.ClippedChannel =>
            $"{Channel} of '{Subject}' is clipped (mean {Number("0.000")}); its colour is not determined. "
            + "Change the exposure, or choose an area without glare.",
        PhotographFindingKind.ClippedChartPatch =>
            $"{Channel} of chart patch '{Subject}' is clipped (mean {Number("0.000")}); the patch is left out.",
        PhotographFindingKind.OutsideChartGamut =>
            $"'{Subject}' lies {Number("0.0")} outside the colours of the chart (L*a*b* units); "
            + "its colour is extrapolated.",
        PhotographFindingKind.FewPatchesForTerms =>
            $"The chart has {Number("0.0")} patches for each term of the method; at least 1.5 are advised.",
        PhotographFindingKind.LargeChartError =>
            $"The chart is reproduced with a mean leave-one-out error of {Number("0.0")} CIEDE2000, above the "
            + "acceptability threshold; check light, glare, curve and the chart's known colours.",
        PhotographFindingKind.OutlyingChartPatch =>
            $"Chart patch '{Subject}' is {Number("0.0")} CIEDE2000 from what all others predict; "
            + "check it for glare, shadow and dirt; or its colour is beyond the method.",
        _ => $"The spread of the pixels of '{Subject}' is not given; its noise is not part of the uncertainty.",
    };

    /// <inheritdoc/>
    public override string ToString() => Text;

    private string Number(string format) => Value?.ToString(format, CultureInfo.InvariantCulture) ?? "";
}
