using CeramicOptics.Layers.Transport;

namespace CeramicOptics.Layers.Lateral;

/// <summary>Directions by cosine and azimuthal order, numbered direction by direction.</summary>
/// <remarks>
/// The light in a direction is a sum over m of c_m cos(m φ), φ from the direction in which the light varies, with c_0 =
/// 1 and otherwise c_m = sqrt(2), each times i^-m, which makes everything real. Even orders carry the sign +1, odd ones
/// -1.
/// </remarks>
internal sealed class LateralDirections
{
    // Up to about 10 degrees in air the way sideways, at most 0.12 mm in 1 mm, is left out: straight light is local.
    private const double NearNormal = 0.98;

    private readonly int[] _first;

    /// <param name="grid">Cosines of all media.</param>
    /// <param name="orders">Azimuthal orders of each direction, m from 0 to this less one; at least 1.</param>
    public LateralDirections(DirectionGrid grid, int orders)
    {
        Grid = grid;
        _first = new int[grid.Count + 1];
        for (int i = 0; i < grid.Count; i++)
        {
            _first[i + 1] = _first[i] + (IsNormal(i) ? 1 : orders);
        }
    }

    public DirectionGrid Grid { get; }

    /// <summary>Unknowns in the densest medium.</summary>
    public int Count => _first[_first.Length - 1];

    public int First(int direction) => _first[direction];

    /// <summary>True for an instrument's direction near the normal, which is taken as the normal.</summary>
    public bool IsNormal(int direction) =>
        Grid.IsOfInstrument(direction) && Grid.Densest.Cosines[direction] > NearNormal;

    public int OrdersOf(int direction) => _first[direction + 1] - _first[direction];
}
