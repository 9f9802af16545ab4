using CeramicOptics.Characterization;
using CeramicOptics.Colorimetry;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Layers;

namespace CeramicOptics.Decisions.Appearance;

/// <summary>How the colours of a stack are seen, and the backings for its translucency.</summary>
/// <remarks>Immutable.</remarks>
public sealed record AppearanceOptions
{
    /// <summary>How colours are seen.</summary>
    /// <param name="under">Illuminant and observer.</param>
    /// <param name="geometry">Geometry of all reflectances.</param>
    public AppearanceOptions(Colorimeter under, MeasurementGeometry geometry)
    {
        Under = Guard.NotNull(under);
        Geometry = Guard.Defined(geometry);
    }

    /// <summary>Illuminant and observer.</summary>
    internal Colorimeter Under { get; }

    /// <summary>Geometry of all reflectances.</summary>
    internal MeasurementGeometry Geometry { get; }

    /// <summary>Black backing; ideal black in optical contact by default.</summary>
    public Backing Black { get; init => field = Guard.NotNull(value, nameof(Black)); } = new(Substrate.Black, null);

    /// <summary>White backing; ideal white in optical contact by default.</summary>
    public Backing White { get; init => field = Guard.NotNull(value, nameof(White)); } = new(Substrate.White, null);

    /// <summary>
    /// Standard uncertainty of the reflectance of each backing, equal at all wavelengths, 0 to 0.2; 0 by default, as
    /// for ideal backings.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double BackingReflectance
    {
        get;
        init => field = Guard.InRange(value, 0, 0.2, "", nameof(BackingReflectance));
    }

    /// <summary>Samples and seed.</summary>
    public SamplingOptions Sampling { get; init => field = Guard.NotNull(value, nameof(Sampling)); } =
        new SamplingOptions();
}
