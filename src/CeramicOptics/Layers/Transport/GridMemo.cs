namespace CeramicOptics.Layers.Transport;

/// <summary>Remembers directions: with constant indices all wavelengths share them.</summary>
internal sealed class GridMemo(int streams)
{
    private readonly List<DirectionGrid> _grids = [];

    public DirectionGrid For(IReadOnlyList<double> indices, double[] instrumentDegrees)
    {
        DirectionGrid? grid = _grids.Find(other => other.IsFor(indices, instrumentDegrees));
        if (grid is null)
        {
            grid = new DirectionGrid(indices, streams, instrumentDegrees);
            _grids.Add(grid);
        }

        return grid;
    }
}
