using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Decisions.Staining;

/// <summary>A stain: what one unit of it adds to the K and S of the layer it is mixed into.</summary>
/// <remarks>
/// Coefficients add by load (Ma, Johnston, Koran 1987, J. Dent. Res. 66:1438). The unit of load is the caller's, such
/// as percent by mass, and the same for coefficients and limits. <see cref="PigmentCharacterization"/> finds a pigment
/// from layers of known load. Immutable.
/// </remarks>
public sealed class Pigment
{
    /// <summary>A pigment.</summary>
    /// <param name="name">Name to show in results.</param>
    /// <param name="model">The theory to which K and S belong.</param>
    /// <param name="absorption">K for one unit of load, 1/mm, in the layer as applied (before firing).</param>
    /// <param name="scattering">S for one unit of load, 1/mm, likewise, on the same grid.</param>
    /// <param name="uncertainty">Uncertainty of both, on the same grid; null where it is not known.</param>
    /// <exception cref="ArgumentException">The grids differ.</exception>
    public Pigment(
        string name, IOpticalModel model, AbsorptionSpectrum absorption, ScatteringSpectrum scattering,
        CoefficientUncertainty? uncertainty = null)
    {
        Name = Guard.NotBlank(name);
        Model = Guard.NotNull(model);
        Absorption = Guard.NotNull(absorption);
        Scattering = Guard.NotNull(scattering);
        absorption.Grid.RequireSame(scattering.Grid, $"Scattering of '{name}'");
        Uncertainty = uncertainty?.RequireFor(absorption.Grid, name);
    }

    /// <summary>Name.</summary>
    public string Name { get; }

    /// <summary>The theory to which K and S belong.</summary>
    public IOpticalModel Model { get; }

    /// <summary>K for one unit of load, 1/mm.</summary>
    public AbsorptionSpectrum Absorption { get; }

    /// <summary>S for one unit of load, 1/mm.</summary>
    public ScatteringSpectrum Scattering { get; }

    /// <summary>Uncertainty of K and S for one unit of load; null where it is not known.</summary>
    public CoefficientUncertainty? Uncertainty { get; }

    /// <inheritdoc/>
    public override string ToString() => Name;
}
