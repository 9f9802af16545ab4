namespace CeramicOptics.Layers.Transport;

/// <summary>Light and detector of a reading, and the medium in which they are.</summary>
/// <param name="Index">Index of the medium above the surface; that of the top layer when there is no surface.</param>
/// <param name="LightDegrees">Angle of the light; null for Lambertian light.</param>
/// <param name="ViewDegrees">Angle of the detector; null when all returning light is collected.</param>
/// <param name="IsSpecularTrapped">True when light reflected by the upper face itself is lost.</param>
internal readonly record struct TransportBeam(
    double Index, double? LightDegrees, double? ViewDegrees, bool IsSpecularTrapped = false)
{
    /// <summary>Angles that the directions must contain, in air.</summary>
    public double[] Instruments => [.. ((double?[])[LightDegrees, ViewDegrees]).OfType<double>().Distinct()];

    /// <summary>The beam of an instrument over a layer of the given index.</summary>
    public static TransportBeam Of(MeasurementGeometry geometry, double layerIndex) => geometry switch
    {
        MeasurementGeometry.DiffuseSpecularIncluded => new TransportBeam(1, null, 8),
        MeasurementGeometry.DiffuseSpecularExcluded => new TransportBeam(1, null, 8, IsSpecularTrapped: true),
        MeasurementGeometry.FortyFiveZero => new TransportBeam(1, 45, 0),
        MeasurementGeometry.ZeroFortyFive => new TransportBeam(1, 0, 45),
        MeasurementGeometry.DiffuseDiffuse => new TransportBeam(1, null, null),
        _ => new TransportBeam(layerIndex, null, null),
    };
}
