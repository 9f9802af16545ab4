using System.Text.Json.Serialization;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Decisions.Appearance;

/// <summary>Reflected and transmitted colour, translucency and opalescence of a stack, with uncertainties.</summary>
[JsonConverter(typeof(ReportConverter))]
public sealed class AppearanceResult : Answer
{
    internal AppearanceResult(
        UncertainStack stack, AppearanceOptions options, TransmittanceSpectrum transmittance, UncertainColor[] colors,
        UncertainValue[] values)
        : base(StackCautions.Of(options, [stack], options.Black.Substrate, options.White.Substrate))
    {
        (Stack, Options, Transmittance) = (stack, options, transmittance);
        (Color, OverBlack, OverWhite, Transmitted) = (colors[0], colors[1], colors[2], colors[3]);
        (TranslucencyParameter, TranslucencyParameter00, ContrastRatio, Opalescence, LuminousTransmittance) = (
            values[0], values[1], values[2], values[3], values[4]);
    }

    /// <summary>The stack.</summary>
    internal UncertainStack Stack { get; }

    /// <summary>How it was seen, and over which backings.</summary>
    public AppearanceOptions Options { get; }

    /// <summary>Colour over the stack's own substrate.</summary>
    public UncertainColor Color { get; }

    /// <summary>Colour of the layers over the black backing.</summary>
    public UncertainColor OverBlack { get; }

    /// <summary>Colour of the layers over the white backing.</summary>
    public UncertainColor OverWhite { get; }

    /// <summary>Colour of the light that passes the layers, free in air.</summary>
    public UncertainColor Transmitted { get; }

    /// <summary>Total transmittance of the layers, free in air (0°:d).</summary>
    public TransmittanceSpectrum Transmittance { get; }

    /// <summary>Luminous transmittance: Y of the transmitted light, 0 to 1.</summary>
    public UncertainValue LuminousTransmittance { get; }

    /// <summary>Translucency parameter TP (CIELAB) between black and white backing.</summary>
    public UncertainValue TranslucencyParameter { get; }

    /// <summary>Translucency parameter TP00 (CIEDE2000).</summary>
    public UncertainValue TranslucencyParameter00 { get; }

    /// <summary>Contrast ratio: Y over black divided by Y over white, 0 (clear) to 1 (opaque).</summary>
    public UncertainValue ContrastRatio { get; }

    /// <summary>
    /// Opalescence parameter OP: chromatic difference of transmitted light and reflectance over the black backing.
    /// </summary>
    /// <remarks>Lee 2016, Dent. Mater. J., doi 10.4012/dmj.2016-091.</remarks>
    public UncertainValue Opalescence { get; }

    /// <summary>For example "TP 18.21 ± 0.52, TP00 14.10 ± 0.41, CR 0.61 ± 0.01, OP 12.03 ± 0.55".</summary>
    private protected override string InWords(Language language) => language.Text(
        "AppearanceResult", TranslucencyParameter, TranslucencyParameter00, ContrastRatio, Opalescence);
}
