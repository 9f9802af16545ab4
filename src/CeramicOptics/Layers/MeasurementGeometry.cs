namespace CeramicOptics.Layers;

/// <summary>How the instrument illuminates and measures a specimen (or that no surface lies between).</summary>
public enum MeasurementGeometry
{
    /// <summary>Diffuse illumination, measured at 8 degrees, surface reflection included (di:8°).</summary>
    DiffuseSpecularIncluded,

    /// <summary>Diffuse illumination, measured at 8 degrees, surface reflection caught by a trap (de:8°).</summary>
    DiffuseSpecularExcluded,

    /// <summary>Illuminated at 45 degrees, measured at 0 degrees; surface reflection misses the detector.</summary>
    FortyFiveZero,

    /// <summary>Illuminated at 0 degrees, measured at 45 degrees; the reverse path of 45:0 and equal to it.</summary>
    ZeroFortyFive,

    /// <summary>Diffuse illumination, all returning light collected (d:d).</summary>
    DiffuseDiffuse,

    /// <summary>Inside the specimen, below its surface: no surface reflection at all.</summary>
    Internal,
}
