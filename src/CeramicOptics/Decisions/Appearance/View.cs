using CeramicOptics.Layers;

namespace CeramicOptics.Decisions.Appearance;

/// <summary>One way to look at the layers of a stack: over a substrate, or through them.</summary>
/// <param name="Stack">The stack.</param>
/// <param name="Under">What lies below; null to look through the layers, free in air.</param>
/// <param name="Coupling">The film between.</param>
/// <param name="SubstrateReflectance">Standard uncertainty of the reflectance of what lies below.</param>
internal sealed record View(
    UncertainStack Stack, Substrate? Under, CouplingMedium? Coupling, double SubstrateReflectance)
{
    public static View Own(UncertainStack stack) =>
        new(stack, stack.Stack.Substrate, stack.Stack.Coupling, stack.Inputs.StumpReflectance);

    public static View Free(UncertainStack stack) => new(stack, null, null, 0);

    /// <summary>Reflectances or transmittances with other layers and another substrate.</summary>
    public double[] Spectrum(
        IEnumerable<Layer> layers, Substrate? under, IOpticalModel model, MeasurementGeometry geometry)
    {
        LayerStack stack = new(layers, under ?? Substrate.Black, Coupling);
        return under is null ? stack.FreeTransmittances(model) : stack.Reflectances(model, geometry);
    }
}
