using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Characterization;

/// <summary>One reading of one disc: reflectance over a backing, or total transmittance of the free disc.</summary>
/// <remarks>Immutable and safe to share.</remarks>
public sealed class DiscReading : IFormattable
{
    private DiscReading(
        string name, double thicknessMm, double thicknessUncertaintyMm, Spectrum values, Backing? backing,
        MeasurementGeometry geometry, double standardUncertainty)
    {
        Name = Guard.NotBlank(name);
        ThicknessMm = Guard.InRange(thicknessMm, 1e-4, 20, "mm");
        ThicknessStandardUncertaintyMm = Guard.InRange(
            thicknessUncertaintyMm, 0, 1, "mm", "thicknessStandardUncertaintyMm");
        Values = Guard.NotNull(values);
        Backing = backing;
        Geometry = Guard.Defined(geometry);
        StandardUncertainty = Guard.InRange(standardUncertainty, 1e-9, 0.1, "");
    }

    /// <summary>Name, for messages.</summary>
    public string Name { get; }

    /// <summary>Thickness of the disc, mm.</summary>
    public double ThicknessMm { get; }

    /// <summary>Standard uncertainty of the thickness, mm.</summary>
    public double ThicknessStandardUncertaintyMm { get; }

    /// <summary>
    /// The values read: a <see cref="ReflectanceSpectrum"/> or a <see cref="TransmittanceSpectrum"/>.
    /// </summary>
    public Spectrum Values { get; }

    /// <summary>What lay under the disc; null for a transmittance.</summary>
    public Backing? Backing { get; }

    /// <summary>
    /// Geometry of a reflectance; a transmittance is for light at normal incidence, all of it collected.
    /// </summary>
    public MeasurementGeometry Geometry { get; }

    /// <summary>Standard uncertainty of one value.</summary>
    public double StandardUncertainty { get; }

    /// <summary>True for a transmittance.</summary>
    public bool IsTransmittance => Backing is null;

    /// <summary>A reflectance over a backing.</summary>
    /// <param name="name">Name, for messages.</param>
    /// <param name="thicknessMm">Thickness of the disc, 0.0001 to 20 mm.</param>
    /// <param name="values">Reflectance factors.</param>
    /// <param name="backing">What lay under the disc.</param>
    /// <param name="geometry">Geometry of the reading.</param>
    /// <param name="standardUncertainty">Standard uncertainty of one value, 1e-9 to 0.1.</param>
    /// <param name="thicknessStandardUncertaintyMm">Standard uncertainty of the thickness, 0 to 1 mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range or NaN.</exception>
    public static DiscReading Reflectance(
        string name, double thicknessMm, ReflectanceSpectrum values, Backing backing,
        MeasurementGeometry geometry = MeasurementGeometry.DiffuseSpecularIncluded, double standardUncertainty = 0.002,
        double thicknessStandardUncertaintyMm = 0.01) =>
        new(name, thicknessMm, thicknessStandardUncertaintyMm, values, Guard.NotNull(backing), geometry,
            standardUncertainty);

    /// <summary>
    /// A total transmittance of the free disc in air, light at normal incidence, all of it collected (0°:d).
    /// </summary>
    /// <param name="name">Name, for messages.</param>
    /// <param name="thicknessMm">Thickness of the disc, 0.0001 to 20 mm.</param>
    /// <param name="values">Transmittances.</param>
    /// <param name="standardUncertainty">Standard uncertainty of one value, 1e-9 to 0.1.</param>
    /// <param name="thicknessStandardUncertaintyMm">Standard uncertainty of the thickness, 0 to 1 mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range or NaN.</exception>
    public static DiscReading Transmittance(
        string name, double thicknessMm, TransmittanceSpectrum values, double standardUncertainty = 0.002,
        double thicknessStandardUncertaintyMm = 0.01) =>
        new(name, thicknessMm, thicknessStandardUncertaintyMm, values, null, MeasurementGeometry.Internal,
            standardUncertainty);

    /// <summary>The same values as if they had been read over another backing.</summary>
    internal DiscReading Over(Backing backing) => new(
        Name, ThicknessMm, ThicknessStandardUncertaintyMm, Values, backing, Geometry, StandardUncertainty);

    /// <inheritdoc/>
    public override string ToString() => ToString(null);

    /// <summary>The same in the language of a culture.</summary>
    /// <param name="provider">A culture or a <see cref="Language"/>; null for English.</param>
    public string ToString(IFormatProvider? provider) => Language.Of(provider).Text("DiscReading", Name, ThicknessMm);

    string IFormattable.ToString(string? format, IFormatProvider? provider) => ToString(provider);

    /// <summary>The same reading with other values.</summary>
    internal DiscReading With(Spectrum values) => new(
        Name, ThicknessMm, ThicknessStandardUncertaintyMm, values, Backing, Geometry, StandardUncertainty);
}
