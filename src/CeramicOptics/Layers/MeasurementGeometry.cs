namespace CeramicOptics.Layers;

/// <summary>How a specimen is lit and seen by the instrument (or that no surface is in the way).</summary>
public enum MeasurementGeometry
{
    /// <summary>Diffuse light, seen at 8 degrees, surface reflection included (di:8°).</summary>
    DiffuseSpecularIncluded,

    /// <summary>Diffuse light, seen at 8 degrees, surface reflection caught by a trap (de:8°).</summary>
    DiffuseSpecularExcluded,

    /// <summary>Lit at 45 degrees, seen at 0 degrees; surface reflection misses the detector.</summary>
    FortyFiveZero,

    /// <summary>Lit at 0 degrees, seen at 45 degrees; the reverse path of 45:0 and equal to it.</summary>
    ZeroFortyFive,

    /// <summary>Diffuse light, all returning light collected (d:d).</summary>
    DiffuseDiffuse,

    /// <summary>Inside the specimen, below its surface: no surface reflection at all.</summary>
    Internal,
}
