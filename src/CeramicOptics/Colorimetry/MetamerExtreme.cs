using CeramicOptics.Spectra;

namespace CeramicOptics.Colorimetry;

/// <summary>A body of the given colour, and its colour under the second light.</summary>
public sealed class MetamerExtreme
{
    internal MetamerExtreme(Lab color, ReflectanceSpectrum reflectance) => (Color, Reflectance) = (color, reflectance);

    /// <summary>Colour under the second light.</summary>
    public Lab Color { get; }

    /// <summary>Reflectance of the body, 0 to 1.</summary>
    public ReflectanceSpectrum Reflectance { get; }
}
