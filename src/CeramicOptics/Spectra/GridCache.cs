using System.Collections.Concurrent;

namespace CeramicOptics.Spectra;

/// <summary>
/// What was worked out for a grid, kept for every equal grid; at most <see cref="Capacity"/> grids at a time.
/// </summary>
/// <remarks>
/// Safe to share. When it is full it starts again from empty: a program uses a few grids, and making an entry again is
/// cheap.
/// </remarks>
internal sealed class GridCache<TValue>
    where TValue : class
{
    public const int Capacity = 32;

    private readonly ConcurrentDictionary<WavelengthGrid, TValue> _values = new();

    /// <summary>
    /// The value for a grid, made by <paramref name="make"/> unless an equal grid has one; one instance for all
    /// threads.
    /// </summary>
    public TValue GetOrAdd(WavelengthGrid grid, Func<WavelengthGrid, TValue> make)
    {
        if (_values.TryGetValue(grid, out TValue? known))
        {
            return known;
        }

        if (_values.Count >= Capacity)
        {
            _values.Clear();
        }

        return _values.GetOrAdd(grid, make);
    }
}
