using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Characterization;

/// <summary>Readings of one plane disc of a material over a black and over a white backing.</summary>
/// <remarks>Immutable and safe to share.</remarks>
public sealed class DiscMeasurement
{
    /// <summary>A measurement.</summary>
    /// <param name="name">Name of the material.</param>
    /// <param name="refractiveIndex">Index of the material.</param>
    /// <param name="thicknessMm">Thickness of the disc, above 0 to 20 mm.</param>
    /// <param name="overBlack">Reading over the black backing.</param>
    /// <param name="overWhite">Reading over the white backing, on the same grid.</param>
    /// <param name="blackBacking">The black backing.</param>
    /// <param name="whiteBacking">The white backing.</param>
    /// <param name="geometry">Geometry of both readings.</param>
    /// <param name="readingStandardUncertainty">Standard uncertainty of one reading at one wavelength, 0 to 0.1.</param>
    /// <param name="thicknessStandardUncertaintyMm">Standard uncertainty of the thickness, 0 to 1 mm.</param>
    /// <exception cref="ArgumentException">Grids differ; shows both.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range or NaN.</exception>
    public DiscMeasurement(
        string name,
        RefractiveIndex refractiveIndex,
        double thicknessMm,
        ReflectanceSpectrum overBlack,
        ReflectanceSpectrum overWhite,
        Backing blackBacking,
        Backing whiteBacking,
        MeasurementGeometry geometry = MeasurementGeometry.DiffuseSpecularIncluded,
        double readingStandardUncertainty = 0.002,
        double thicknessStandardUncertaintyMm = 0.01)
    {
        Name = Guard.NotBlank(name);
        RefractiveIndex = refractiveIndex;
        ThicknessMm = Guard.InRange(thicknessMm, 1e-4, 20, "mm");
        OverBlack = Guard.NotNull(overBlack);
        OverWhite = Guard.NotNull(overWhite);
        BlackBacking = Guard.NotNull(blackBacking);
        WhiteBacking = Guard.NotNull(whiteBacking);
        Geometry = Guard.Defined(geometry);
        ReadingStandardUncertainty = Guard.InRange(readingStandardUncertainty, 0, 0.1, "");
        ThicknessStandardUncertaintyMm = Guard.InRange(thicknessStandardUncertaintyMm, 0, 1, "mm");
        overBlack.Grid.RequireSame(overWhite.Grid, $"Reading of '{name}' over white");
        foreach (Backing backing in (Backing[])[blackBacking, whiteBacking])
        {
            if (backing.Substrate.Grid is not null)
            {
                overBlack.Grid.RequireSame(backing.Substrate.Grid, $"Backing '{backing.Substrate.Name}'");
            }
        }
    }

    /// <summary>Name of the material.</summary>
    public string Name { get; }

    /// <summary>Index of the material.</summary>
    public RefractiveIndex RefractiveIndex { get; }

    /// <summary>Thickness of the disc, mm.</summary>
    public double ThicknessMm { get; }

    /// <summary>Reading over the black backing.</summary>
    public ReflectanceSpectrum OverBlack { get; }

    /// <summary>Reading over the white backing.</summary>
    public ReflectanceSpectrum OverWhite { get; }

    /// <summary>The black backing.</summary>
    public Backing BlackBacking { get; }

    /// <summary>The white backing.</summary>
    public Backing WhiteBacking { get; }

    /// <summary>Geometry of both readings.</summary>
    public MeasurementGeometry Geometry { get; }

    /// <summary>Standard uncertainty of one reading at one wavelength.</summary>
    public double ReadingStandardUncertainty { get; }

    /// <summary>Standard uncertainty of the thickness, mm.</summary>
    public double ThicknessStandardUncertaintyMm { get; }

    /// <summary>Wavelengths of the readings.</summary>
    public WavelengthGrid Grid => OverBlack.Grid;

    /// <inheritdoc/>
    public override string ToString() => $"{Name}, disc of {Guard.Text(ThicknessMm)} mm";
}
