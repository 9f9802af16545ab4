using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Characterization;

/// <summary>One reading of one disc: reflectance over a backing, or total transmittance of the free disc.</summary>
/// <remarks>Immutable and safe to share.</remarks>
public sealed class DiscReading : Formattable
{
    private DiscReading(
        string name, double thicknessMm, double thicknessUncertaintyMm, Spectrum values, Backing? backing,
        MeasurementGeometry geometry, ReadingArea area, double standardUncertainty)
    {
        Name = Guard.NotBlank(name);
        ThicknessMm = Guard.InRange(thicknessMm, 1e-4, 20, "mm");
        ThicknessStandardUncertaintyMm = Guard.InRange(
            thicknessUncertaintyMm, 0, 1, "mm", "thicknessStandardUncertaintyMm");
        Values = Guard.NotNull(values);
        Backing = backing;
        Geometry = Guard.Defined(geometry);
        Area = Guard.NotNull(area);
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
    /// Geometry of a reflectance; a transmittance is for light at normal incidence, all directions collected.
    /// </summary>
    public MeasurementGeometry Geometry { get; }

    /// <summary>The area that the instrument illuminated and measured of the disc.</summary>
    public ReadingArea Area { get; }

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
    /// <param name="area">The area that the instrument illuminated and measured of the disc.</param>
    /// <param name="standardUncertainty">Standard uncertainty of one value, 1e-9 to 0.1.</param>
    /// <param name="thicknessStandardUncertaintyMm">Standard uncertainty of the thickness, 0 to 1 mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range or NaN.</exception>
    public static DiscReading Reflectance(
        string name, double thicknessMm, ReflectanceSpectrum values, Backing backing,
        MeasurementGeometry geometry, ReadingArea area, double standardUncertainty = 0.002,
        double thicknessStandardUncertaintyMm = 0.01) =>
        new(name, thicknessMm, thicknessStandardUncertaintyMm, values, Guard.NotNull(backing), geometry, area,
            standardUncertainty);

    /// <summary>
    /// A total transmittance of the free disc in air, light at normal incidence, all that leaves within the port
    /// collected (0°:d).
    /// </summary>
    /// <param name="name">Name, for messages.</param>
    /// <param name="thicknessMm">Thickness of the disc, 0.0001 to 20 mm.</param>
    /// <param name="values">Transmittances, relative to the open port.</param>
    /// <param name="area">Spot on the upper face and port at the lower one.</param>
    /// <param name="standardUncertainty">Standard uncertainty of one value, 1e-9 to 0.1.</param>
    /// <param name="thicknessStandardUncertaintyMm">Standard uncertainty of the thickness, 0 to 1 mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range or NaN.</exception>
    public static DiscReading Transmittance(
        string name, double thicknessMm, TransmittanceSpectrum values, ReadingArea area,
        double standardUncertainty = 0.002, double thicknessStandardUncertaintyMm = 0.01) =>
        new(name, thicknessMm, thicknessStandardUncertaintyMm, values, null, MeasurementGeometry.Internal, area,
            standardUncertainty);

    /// <summary>The same values as if they had been read over another backing.</summary>
    internal DiscReading Over(Backing backing) => new(
        Name, ThicknessMm, ThicknessStandardUncertaintyMm, Values, backing, Geometry, Area, StandardUncertainty);

    /// <summary>The same values as if they had been read of a disc of another thickness.</summary>
    internal DiscReading With(double thicknessMm) => new(
        Name, thicknessMm, ThicknessStandardUncertaintyMm, Values, Backing, Geometry, Area, StandardUncertainty);

    /// <summary>The same values, taken as read over another area.</summary>
    internal DiscReading With(ReadingArea area) => new(
        Name, ThicknessMm, ThicknessStandardUncertaintyMm, Values, Backing, Geometry, area, StandardUncertainty);

    private protected override string InWords(Language language) => language.Text("DiscReading", Name, ThicknessMm);

    /// <summary>Refuses a reading through a window, for fits that cannot count what it loses.</summary>
    internal void RequireLargeArea(string fit)
    {
        if (Area.HasWindow)
        {
            throw new ArgumentException(
                $"{fit} takes readings of a large area; '{Name}' was read through a window of radius "
                    + $"{Guard.Text(Area.WindowRadiusMm!.Value)} mm.");
        }
    }

    /// <summary>The same reading with other values.</summary>
    internal DiscReading With(Spectrum values) => new(
        Name, ThicknessMm, ThicknessStandardUncertaintyMm, values, Backing, Geometry, Area, StandardUncertainty);
}
