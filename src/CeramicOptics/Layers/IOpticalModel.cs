using CeramicOptics.Layers.Lateral;

namespace CeramicOptics.Layers;

/// <summary>A theory of light in layers. K and S belong to the theory with which they were found.</summary>
/// <remarks>
/// There are two: <see cref="TwoFlux.TwoFluxModel"/> and <see cref="Transport.TransportModel"/>. Used in the other
/// theory, constants shift colours by 1 to 4 CIEDE2000, so every <see cref="Material"/> carries its model and a stack
/// of different models is refused.
/// </remarks>
public interface IOpticalModel
{
    /// <summary>Name to show in results, such as "two-flux theory".</summary>
    string Name { get; }

    /// <summary>
    /// True when constants of one model are good for the other; numerical settings such as the number of directions do
    /// not count.
    /// </summary>
    /// <param name="other">The other model.</param>
    internal bool IsSameTheoryAs(IOpticalModel other);

    /// <summary>
    /// What the theory itself adds to the uncertainty of a predicted colour, with constants found by it from discs.
    /// </summary>
    internal OwnErrorLaw OwnError { get; }

    /// <summary>
    /// The same theory at less cost, right to about 1e-3, for slopes and searches whose outcome is evaluated again.
    /// </summary>
    internal IOpticalModel Coarse { get; }

    /// <summary>Solutions for one stack in one geometry.</summary>
    internal StackSampler SamplerFor(LayerStack stack, MeasurementGeometry geometry);

    /// <summary>Solutions for light that varies sideways.</summary>
    internal LateralSampler LateralSamplerFor(LayerStack stack, MeasurementGeometry geometry);
}
