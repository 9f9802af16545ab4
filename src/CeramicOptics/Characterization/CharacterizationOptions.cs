using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;

namespace CeramicOptics.Characterization;

/// <summary>How K and S are found from readings.</summary>
/// <remarks>Immutable, equal by value.</remarks>
public sealed record CharacterizationOptions
{
    /// <summary>The default options.</summary>
    public static CharacterizationOptions Default { get; } = new();

    /// <summary>
    /// The theory that K and S shall be good for; radiative transfer unless told otherwise, which is the more exact
    /// one.
    /// </summary>
    public IOpticalModel Model { get; init => field = Guard.NotNull(value, nameof(Model)); } = TransportModel.Default;

    /// <summary>
    /// Strength of a prior that ln K and ln S are smooth over wavelength, 0 (none) to 1e6: weight of their squared
    /// second differences in units of 1/0.01². 1 means that a bend of 1 % from neighbour to neighbour counts as one
    /// standard uncertainty. 0 unless told otherwise.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double Smoothness { get; init => field = Guard.InRange(value, 0, 1e6, "", nameof(Smoothness)); }
}
