using CeramicOptics.Layers;

namespace CeramicOptics.Characterization;

/// <summary>What lay under a disc while it was read: a tile or trap, and the film between.</summary>
public sealed record Backing
{
    /// <summary>A backing.</summary>
    /// <param name="substrate">
    /// The tile, from its own reading in air; <see cref="Substrate.Black"/> for an open port or light trap.
    /// </param>
    /// <param name="coupling">The film between disc and tile; air for a dry disc, null for optical contact.</param>
    public Backing(Substrate substrate, CouplingMedium? coupling)
    {
        Substrate = Guard.NotNull(substrate);
        Coupling = coupling;
    }

    /// <summary>The tile.</summary>
    public Substrate Substrate { get; }

    /// <summary>The film between disc and tile; null for optical contact.</summary>
    public CouplingMedium? Coupling { get; }

    /// <summary>Reflectance of film and tile, seen from inside a disc of the given index.</summary>
    internal double SeenFrom(double index, double wavelengthNm, int wavelength, BoundaryCache boundaries) =>
        Substrate.SeenFrom(index, Coupling, wavelengthNm, wavelength, boundaries);
}
