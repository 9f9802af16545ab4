using CeramicOptics.Spectra;

namespace CeramicOptics.Colorimetry;

/// <summary>A body of the one colour, and the colour that it takes under the second light.</summary>
/// <param name="Color">Colour under the second light.</param>
/// <param name="Reflectance">Reflectance of the body, 0 to 1.</param>
public sealed record MetamerExtreme(Lab Color, ReflectanceSpectrum Reflectance);
