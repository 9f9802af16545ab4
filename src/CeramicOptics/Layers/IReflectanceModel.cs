using CeramicOptics.Spectra;

namespace CeramicOptics.Layers;

/// <summary>A theory that gives the reflectance of a stack.</summary>
public interface IReflectanceModel
{
    /// <summary>Reflectance factor as an instrument reads it.</summary>
    /// <param name="stack">The stack.</param>
    /// <param name="geometry">Measurement geometry.</param>
    ReflectanceSpectrum Reflectance(LayerStack stack, MeasurementGeometry geometry);
}
