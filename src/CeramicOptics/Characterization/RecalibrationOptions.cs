using CeramicOptics.Layers;

namespace CeramicOptics.Characterization;

/// <summary>
/// The simulated readings by which the constants of a material are converted into those of another theory.
/// </summary>
/// <remarks>Immutable, equal by value.</remarks>
public sealed record RecalibrationOptions
{
    /// <summary>
    /// Thickness of the disc, 0.0001 to 20 mm; null: those that the material carries
    /// (<see cref="Material.DiscThicknessesMm"/>).
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double? DiscThicknessMm
    {
        get;
        init => field = value is null ? null : Guard.InRange(value.Value, 1e-4, 20, "mm", nameof(DiscThicknessMm));
    }

    /// <summary>Geometry of the simulated readings; diffuse/8 with specular included by default.</summary>
    public MeasurementGeometry Geometry
    {
        get;
        init => field = Guard.Defined(value, nameof(Geometry));
    } = MeasurementGeometry.DiffuseSpecularIncluded;
}
