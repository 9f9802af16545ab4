using CeramicOptics.Spectra;

namespace CeramicOptics.Mapping.Spreading;

/// <summary>
/// Four wavelengths at which light that spreads sideways is followed; between them what it does is interpolated.
/// </summary>
internal sealed class SpreadBands
{
    /// <summary>Number of bands: the components of one vector.</summary>
    public const int Count = 4;

    private readonly int[] _centers;

    public SpreadBands(WavelengthGrid grid)
    {
        Grid = grid;
        _centers = [.. Enumerable.Range(0, Count).Select(b => (int)Math.Round((grid.Count - 1) * ((2 * b) + 1) / 8.0))];
    }

    public WavelengthGrid Grid { get; }

    /// <summary>Position of a band in the grid.</summary>
    public int CenterOf(int band) => _centers[band];

    /// <summary>Share of a wavelength that a band stands for; 1 over all bands.</summary>
    public double Share(int band, int wavelength)
    {
        int left = 0;
        while (left < Count - 2 && _centers[left + 1] < wavelength)
        {
            left++;
        }

        int from = _centers[left], to = _centers[left + 1];
        double along = to > from ? Math.Min(1, Math.Max(0, (wavelength - from) / (double)(to - from))) : 0;
        return band == left ? 1 - along : band == left + 1 ? along : 0;
    }
}
