using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;

namespace CeramicOptics.Characterization;

/// <summary>How K and S are found from readings.</summary>
/// <remarks>Immutable, equal by value; theories are compared by reference.</remarks>
public sealed record CharacterizationOptions
{
    /// <summary>
    /// The theory for which K and S are wanted; radiative transfer by default, the more exact theory.
    /// </summary>
    public IOpticalModel Model { get; init => field = Guard.NotNull(value, nameof(Model)); } = TransportModel.Default;

    /// <summary>
    /// Strength of a prior that ln K and ln S are smooth over wavelength, 0 (none) to 1e6: weight of their squared
    /// second differences in units of 1/0.01². 1 means that a bend of 1 % from neighbour to neighbour counts as one
    /// standard uncertainty. 0 by default. Without effect where readings determine so little that even the smoothest
    /// K and S are open.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double Smoothness { get; init => field = Guard.InRange(value, 0, 1e6, "", nameof(Smoothness)); }

    /// <summary>
    /// Mean cosine g of scattering where it is known, 0 to 0.95; null by default. It matters for readings through a
    /// window: where neither this nor <see cref="Model"/> states it, it is taken to lie between 0 and 0.9, and the
    /// effect of this is part of the uncertainty.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double? Anisotropy
    {
        get;
        init => field = value is null ? null : Guard.InRange(value.Value, 0, 0.95, "", nameof(Anisotropy));
    }
}
