using CeramicOptics.Layers.Transport;

namespace CeramicOptics.Layers.Lateral;

/// <summary>Makes columns; with constant indices all wavelengths share their directions and scattering.</summary>
/// <param name="anisotropy">Mean cosine of scattering.</param>
/// <param name="streams">Directions in each hemisphere.</param>
internal sealed class LateralColumnFactory(double anisotropy, int streams)
{
    // Azimuthal orders of each direction.
    private const int Orders = 4;

    private readonly GridMemo _grids = new(streams);
    private readonly Dictionary<DirectionGrid, LateralDirections> _directions = [];
    private readonly Dictionary<MediumDirections, LateralPhase> _phases = [];

    /// <summary>A column of substances, from the surface down.</summary>
    /// <param name="layers">The substances; their thicknesses do not matter.</param>
    /// <param name="film">Index between lowest layer and body.</param>
    /// <param name="body">Index of the body.</param>
    /// <param name="beam">Light and detector.</param>
    public LateralColumn Of(IReadOnlyList<TransportLayer> layers, double film, double body, TransportBeam beam)
    {
        DirectionGrid grid = _grids.For(
            [beam.Index, .. layers.Select(layer => layer.RefractiveIndex), film, body], beam.Instruments);
        if (!_directions.TryGetValue(grid, out LateralDirections? directions))
        {
            directions = new LateralDirections(grid, Orders);
            _directions.Add(grid, directions);
        }

        IEnumerable<LateralLayer> own = layers.Select(
            layer => new LateralLayer(directions, layer, PhaseOf(grid.In(layer.RefractiveIndex))));
        return new LateralColumn(directions, [.. own], film, body, beam);
    }

    private LateralPhase PhaseOf(MediumDirections medium)
    {
        if (!_phases.TryGetValue(medium, out LateralPhase? phase))
        {
            phase = new LateralPhase(anisotropy, medium, Orders);
            _phases.Add(medium, phase);
        }

        return phase;
    }
}
