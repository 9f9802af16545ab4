using CeramicOptics.Spectra;

namespace CeramicOptics.Layers;

/// <summary>Two-flux theory with diffuse boundaries, as <see cref="LayerStack.Reflectance"/> uses it: fast, good for thick scattering layers.</summary>
public sealed class TwoFluxModel : IReflectanceModel
{
    private TwoFluxModel()
    {
    }

    /// <summary>The model; it has no settings.</summary>
    public static TwoFluxModel Instance { get; } = new();

    /// <inheritdoc/>
    public ReflectanceSpectrum Reflectance(LayerStack stack, MeasurementGeometry geometry) => Guard.NotNull(stack).Reflectance(geometry);
}
