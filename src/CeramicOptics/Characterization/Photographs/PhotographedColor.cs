using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Characterization.Photographs;

/// <summary>The colour of a patch of the tooth, with its uncertainty and everything found about it.</summary>
/// <remarks>
/// Under the illuminant and observer of the chart's known colours. The uncertainty holds what the chart shows and the
/// noise of the patch; it does not hold what the chart cannot show: a surface whose spectrum is unlike the chart's,
/// wetness, gloss, uneven light.
/// </remarks>
public sealed class PhotographedColor : Formattable
{
    private readonly Lab _color;
    private readonly ColorDeviation _uncertainty;

    internal PhotographedColor(
        string name, Colorimeter under, Lab color, ColorDeviation uncertainty, IEnumerable<PhotographFinding> findings)
    {
        (Name, Under, _color, _uncertainty) = (name, under, color, uncertainty);
        Findings = Guard.Copy(findings);
    }

    /// <summary>Name of the patch.</summary>
    public string Name { get; }

    /// <summary>Illuminant and observer of the colour.</summary>
    public Colorimeter Under { get; }

    /// <summary>What was found about this patch; empty when there is nothing to report.</summary>
    public IReadOnlyList<PhotographFinding> Findings { get; }

    /// <summary>False when a channel is clipped, so that there is no colour to give.</summary>
    public bool IsDetermined => Findings.All(finding => finding.Kind != PhotographFindingKind.ClippedChannel);

    /// <summary>The colour.</summary>
    /// <exception cref="InvalidOperationException">A channel is clipped (<see cref="IsDetermined"/>).</exception>
    public Lab Color => IsDetermined ? _color : throw Undetermined();

    /// <summary>Standard uncertainties of the colour.</summary>
    /// <exception cref="InvalidOperationException">A channel is clipped (<see cref="IsDetermined"/>).</exception>
    public ColorDeviation StandardUncertainty => IsDetermined ? _uncertainty : throw Undetermined();

    /// <summary>The patch as a stump of which only the colour in air is known.</summary>
    /// <param name="grid">Wavelengths wanted, at least from 400 to 700 nm.</param>
    /// <param name="refractiveIndex">Index of the body, such as 1.54 for dentine (common practice, no source).</param>
    /// <param name="geometry">
    /// Geometry that the photograph comes nearest to. One with the light from the side, or with crossed polarizers, and
    /// no glare on the patch is like <see cref="MeasurementGeometry.FortyFiveZero"/> at best; none is like a sphere
    /// with specular included.
    /// </param>
    /// <remarks>
    /// The spectrum is the smoothest one of this colour (<see cref="Substrate.FromMeasuredColor"/>), and results say
    /// so. A photograph lights far more than the patch, so that no light is lost sideways.
    /// </remarks>
    /// <exception cref="InvalidOperationException">A channel is clipped (<see cref="IsDetermined"/>).</exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// No reflectance has this colour, or it is more than 0.005 below the surface reflection.
    /// </exception>
    public Substrate ToSubstrate(WavelengthGrid grid, RefractiveIndex refractiveIndex, MeasurementGeometry geometry) =>
        Substrate.FromMeasuredColor(Name, Color, Under, grid, refractiveIndex, geometry, ReadingArea.Large);

    /// <summary>
    /// For example "stump: L* 52.1 ± 0.9, a* 8.2 ± 0.6, b* 21.0 ± 1.1 (illuminant D50, 2° observer)".
    /// </summary>
    private protected override string InWords(Language language) => IsDetermined
        ? language.Text(
            "PhotographedColor", Name, _color.L, _uncertainty.L, _color.A, _uncertainty.A, _color.B, _uncertainty.B,
            Under)
        : language.Text("PhotographedColor.Undetermined", Name);

    private InvalidOperationException Undetermined() =>
        new(Findings.First(finding => finding.Kind == PhotographFindingKind.ClippedChannel).ToString());
}
