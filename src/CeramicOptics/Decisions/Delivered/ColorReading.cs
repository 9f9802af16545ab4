using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Decisions.Delivered;

/// <summary>A colour with its illuminant, observer and geometry, and its spectrum where that is known.</summary>
/// <remarks>Immutable and safe to share.</remarks>
public sealed class ColorReading : Formattable
{
    private ColorReading(
        Lab color, Colorimeter under, MeasurementGeometry geometry, ReflectanceSpectrum? spectrum)
    {
        Guard.InRange(color.L, 0, 110, "", "L*");
        Guard.InRange(color.A, -200, 200, "", "a*");
        Guard.InRange(color.B, -200, 200, "", "b*");
        (Color, Under, Geometry, Spectrum) = (color, under, Guard.Defined(geometry), spectrum);
    }

    /// <summary>The colour.</summary>
    public Lab Color { get; }

    /// <summary>Illuminant and observer of the colour.</summary>
    public Colorimeter Under { get; }

    /// <summary>Geometry of the reading, or that a prediction was made for.</summary>
    public MeasurementGeometry Geometry { get; }

    /// <summary>The reflectance factor; null where only the colour is known.</summary>
    public ReflectanceSpectrum? Spectrum { get; }

    /// <summary>A colour without a spectrum.</summary>
    /// <param name="color">L* 0 to 110, a* and b* -200 to 200.</param>
    /// <param name="under">Illuminant and observer.</param>
    /// <param name="geometry">Geometry.</param>
    /// <exception cref="ArgumentOutOfRangeException">A coordinate is outside its range or NaN.</exception>
    public static ColorReading FromColor(Lab color, Colorimeter under, MeasurementGeometry geometry) =>
        new(color, Guard.NotNull(under), geometry, null);

    /// <summary>A colour known by its reflectance.</summary>
    /// <param name="spectrum">Reflectance factor, at least from 400 to 700 nm.</param>
    /// <param name="under">Illuminant and observer.</param>
    /// <param name="geometry">Geometry.</param>
    /// <exception cref="ArgumentException">The spectrum does not reach from 400 to 700 nm.</exception>
    public static ColorReading FromReflectance(
        ReflectanceSpectrum spectrum, Colorimeter under, MeasurementGeometry geometry) =>
        new(Guard.NotNull(under).ToLab(spectrum), under, geometry, spectrum);

    /// <summary>Colour with its illuminant and observer.</summary>
    private protected override string InWords(Language language) =>
        language.Text("ColorReading", Color.L, Color.A, Color.B, Under);

    /// <summary>The colour under an illuminant and observer; null where it is not known.</summary>
    internal Lab? ColorUnder(Colorimeter under) =>
        under.IsLike(Under) ? Color
        : Spectrum is null ? null
        : under.ToLab(Spectrum);
}
