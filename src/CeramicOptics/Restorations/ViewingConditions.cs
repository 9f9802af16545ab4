using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;

namespace CeramicOptics.Restorations;

/// <summary>The illuminants, observers and geometry for which colours are compared.</summary>
/// <remarks>
/// Immutable, equal by value; colorimeters are compared by reference. The default is D65 with the 2 degree observer,
/// diffuse/8 with specular included.
/// </remarks>
public sealed record ViewingConditions
{
    internal const int MostColorimeters = 32;

    /// <summary>
    /// Illuminants and observers that must all be satisfied, 1 to 32. Colours are given under the first.
    /// </summary>
    /// <exception cref="ArgumentException">The list is empty, holds more than 32 or holds null.</exception>
    public IReadOnlyList<Colorimeter> Colorimeters
    {
        get;
        init => field = Guard.Copy(value, minimumCount: 1, nameof(Colorimeters), MostColorimeters);
    } = Guard.Copy([Colorimeter.D65TwoDegree]);

    /// <summary>
    /// Geometry in which colours are predicted and compared; a target must have been read in the same one.
    /// </summary>
    public MeasurementGeometry Geometry { get; init => field = Guard.Defined(value, nameof(Geometry)); } =
        MeasurementGeometry.DiffuseSpecularIncluded;
}
