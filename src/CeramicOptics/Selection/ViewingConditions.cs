using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;

namespace CeramicOptics.Selection;

/// <summary>Under which conditions colours are compared, and what is known beside the optics.</summary>
/// <remarks>Immutable. The default is D65 with the 2 degree observer, diffuse/8 with specular included.</remarks>
public sealed record ViewingConditions
{
    /// <summary>The default conditions.</summary>
    public static ViewingConditions Default { get; } = new();

    /// <summary>Illuminants and observers that must all be satisfied; at least one.</summary>
    /// <exception cref="ArgumentException">The list is empty or holds null.</exception>
    public IReadOnlyList<Colorimeter> Colorimeters { get; init => field = Guard.Copy(value, minimumCount: 1, nameof(Colorimeters)); } =
        [Colorimeter.D65TwoDegree];

    /// <summary>Geometry in which colours are seen and compared.</summary>
    public MeasurementGeometry Geometry { get; init => field = Guard.Defined(value, nameof(Geometry)); } =
        MeasurementGeometry.DiffuseSpecularIncluded;

    /// <summary>Smallest thickness that strength allows, mm, decided outside this library; null when not known. It always wins.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside 0 to 100 mm or NaN.</exception>
    public double? StructuralMinimumMm
    {
        get;
        init => field = value is null ? null : Guard.InRange(value.Value, 0, Layer.MaximumThicknessMm, "mm", nameof(StructuralMinimumMm));
    }

    /// <summary>Whether results are held against exact radiative transfer, which takes some milliseconds each; true unless told otherwise.</summary>
    public bool ChecksModel { get; init; } = true;

    /// <summary>Standard uncertainty of the stump's internal reflectance, equal at all wavelengths and fully correlated, 0 to 0.2.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double StumpStandardUncertainty { get; init => field = Guard.InRange(value, 0, 0.2, "", nameof(StumpStandardUncertainty)); } = 0.01;
}
