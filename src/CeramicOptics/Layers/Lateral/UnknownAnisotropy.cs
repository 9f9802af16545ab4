using CeramicOptics.Layers.Transport;

namespace CeramicOptics.Layers.Lateral;

/// <summary>What is assumed of the anisotropy of scattering where only reduced scattering is known.</summary>
/// <remarks>
/// Readings through windows and light around a spot at the usual anisotropy are about half way between those at the
/// ends. A model with anisotropy 0, which is how constants are found where nothing is known, does not state one.
/// </remarks>
internal static class UnknownAnisotropy
{
    /// <summary>Mean cosine of scattering that is assumed, and the range in which it is taken to lie.</summary>
    public const double Usual = 0.4, Least = 0, Most = 0.9;

    /// <summary>Directions that serve the change from one end of the range to the other.</summary>
    public const int CoarseStreams = 8;

    /// <summary>True where the constants of a model come with an anisotropy of their own.</summary>
    public static bool IsStatedBy(IOpticalModel model) => model is TransportModel { Anisotropy: > 0 };

    /// <summary>Solutions with the usual anisotropy where the stack states none.</summary>
    public static LateralSampler SamplerFor(LayerStack stack, MeasurementGeometry geometry) =>
        stack.Model is TransportModel { Anisotropy: 0 } model
            ? new TransportLateralSampler(stack, geometry, model, Usual)
            : stack.Model.LateralSamplerFor(stack, geometry);

    /// <summary>Solutions by radiative transfer with an anisotropy, whatever the theory of the constants.</summary>
    public static LateralSampler SamplerAt(LayerStack stack, MeasurementGeometry geometry, double anisotropy) =>
        new TransportLateralSampler(
            stack, geometry, stack.Model as TransportModel ?? TransportModel.Default, anisotropy, CoarseStreams);
}
