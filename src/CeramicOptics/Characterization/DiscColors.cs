using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Characterization;

/// <summary>
/// Colours of one disc over a black and over a white backing, as papers and chairside readings give them.
/// </summary>
/// <remarks>Immutable.</remarks>
public sealed record DiscColors
{
    /// <summary>Colours of a disc.</summary>
    /// <param name="name">Name of the material.</param>
    /// <param name="refractiveIndex">Index of the material.</param>
    /// <param name="thicknessMm">Thickness of the disc, 0.0001 to 20 mm.</param>
    /// <param name="overBlack">Colour over the black backing.</param>
    /// <param name="overWhite">Colour over the white backing.</param>
    /// <param name="under">Illuminant and observer of both colours.</param>
    /// <param name="blackBacking">The black backing.</param>
    /// <param name="whiteBacking">The white backing.</param>
    /// <param name="geometry">Geometry of both colours.</param>
    /// <param name="area">The area that the instrument illuminated and measured of the disc, for both colours.</param>
    /// <exception cref="ArgumentException">Over white is not lighter than over black.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range or NaN.</exception>
    public DiscColors(
        string name,
        RefractiveIndex refractiveIndex,
        double thicknessMm,
        Lab overBlack,
        Lab overWhite,
        Colorimeter under,
        Backing blackBacking,
        Backing whiteBacking,
        MeasurementGeometry geometry,
        ReadingArea area)
    {
        Name = Guard.NotBlank(name);
        RefractiveIndex = refractiveIndex;
        ThicknessMm = Guard.InRange(thicknessMm, 1e-4, 20, "mm");
        (OverBlack, OverWhite) = (overBlack, overWhite);
        Under = Guard.NotNull(under);
        BlackBacking = Guard.NotNull(blackBacking);
        WhiteBacking = Guard.NotNull(whiteBacking);
        Geometry = Guard.Defined(geometry);
        Area = Guard.NotNull(area);
        if (!(overWhite.L > overBlack.L))
        {
            throw new ArgumentException(
                $"'{name}' has L* {Guard.Text(overWhite.L)} over white and {Guard.Text(overBlack.L)} over black; "
                    + "white must be lighter.");
        }
    }

    /// <summary>Name of the material.</summary>
    internal string Name { get; }

    /// <summary>Index of the material.</summary>
    internal RefractiveIndex RefractiveIndex { get; }

    /// <summary>Thickness of the disc, mm.</summary>
    internal double ThicknessMm { get; }

    /// <summary>Colour over the black backing.</summary>
    internal Lab OverBlack { get; init; }

    /// <summary>Colour over the white backing.</summary>
    internal Lab OverWhite { get; init; }

    /// <summary>Illuminant and observer of both colours.</summary>
    internal Colorimeter Under { get; }

    /// <summary>The black backing.</summary>
    internal Backing BlackBacking { get; }

    /// <summary>The white backing.</summary>
    internal Backing WhiteBacking { get; }

    /// <summary>Geometry of both colours.</summary>
    internal MeasurementGeometry Geometry { get; }

    /// <summary>The area that the instrument illuminated and measured of the disc.</summary>
    internal ReadingArea Area { get; }

    /// <summary>Standard uncertainty of each of L*, a*, b*, 0.01 to 5; 0.3 by default.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double StandardUncertainty { get; init => field = Guard.InRange(
        value, 0.01, 5, "", nameof(StandardUncertainty)); } = 0.3;

    /// <summary>L*, a*, b* over black, then over white.</summary>
    internal double[] Values => [OverBlack.L, OverBlack.A, OverBlack.B, OverWhite.L, OverWhite.A, OverWhite.B];

    /// <summary>Readings that have these colours: the smoothest ones.</summary>
    internal DiscSet SmoothestReadings(WavelengthGrid grid) => DiscSet.OverBlackAndWhite(
        Name, RefractiveIndex, ThicknessMm, Under.SmoothestReflectance(OverBlack, grid),
        Under.SmoothestReflectance(OverWhite, grid),
        BlackBacking, WhiteBacking, Geometry, Area, readingStandardUncertainty: 0.001 * StandardUncertainty);
}
