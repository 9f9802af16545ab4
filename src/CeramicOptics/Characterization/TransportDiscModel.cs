using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;

namespace CeramicOptics.Characterization;

/// <summary>Readings by exact radiative transfer; derivatives by forward differences, good to about 1e-5.</summary>
/// <remarks>
/// Readings of the same media share their directions, and so the modes of a pair of coefficients; each is worked out
/// exactly as <see cref="TransportSampler"/> does. What was computed is kept while the wavelength stays the same.
/// </remarks>
internal sealed class TransportDiscModel(DiscSet set, TransportModel model) : IDiscForwardModel
{
    private const double RelativeStep = 1e-5, SmallestStep = 1e-6;

    private readonly Dictionary<(double K, double S), SubstrateResponse[]> _known = [];
    private readonly GridMemo _grids = new(model.Streams);
    private readonly TransportColumn[] _columns = new TransportColumn[set.Readings.Count];
    private readonly double[] _bodies = new double[set.Readings.Count];
    private readonly Dictionary<DirectionGrid, LayerModes> _modes = [];
    private int _wavelength = -1;

    public double Value(int reading, int wavelength, double k, double s)
    {
        MoveTo(wavelength);
        return ValueOf(reading, Responses(k, s));
    }

    /// <summary>The responses of all readings' discs.</summary>
    public SubstrateResponse[] ResponsesAt(int wavelength, double k, double s)
    {
        MoveTo(wavelength);
        return Responses(k, s);
    }

    public (double Value, double ByAbsorption, double ByScattering) Evaluate(
        int reading, int wavelength, double k, double s)
    {
        MoveTo(wavelength);
        double stepK = Math.Max(SmallestStep, RelativeStep * k), stepS = Math.Max(SmallestStep, RelativeStep * s);
        double value = ValueOf(reading, Responses(k, s));
        return (
            value,
            (ValueOf(reading, Responses(k + stepK, s)) - value) / stepK,
            (ValueOf(reading, Responses(k, s + stepS)) - value) / stepS);
    }

    private double ValueOf(int reading, SubstrateResponse[] responses) =>
        set.Readings[reading].IsTransmittance ? responses[reading].Passing : responses[reading].Over(_bodies[reading]);

    private SubstrateResponse[] Responses(double k, double s)
    {
        if (_known.TryGetValue((k, s), out SubstrateResponse[]? values))
        {
            return values;
        }

        foreach (LayerModes modes in _modes.Values)
        {
            modes.Set(TransportLayer.FromTwoFlux(k, s, model.Anisotropy, 0, 1));
        }

        foreach (TransportColumn column in _columns)
        {
            column.Reset();
        }

        values = new SubstrateResponse[_columns.Length];
        for (int r = 0; r < values.Length; r++)
        {
            values[r] = _columns[r].At([set.Readings[r].ThicknessMm]);
        }

        _known.Add((k, s), values);
        return values;
    }

    private void MoveTo(int wavelength)
    {
        if (wavelength == _wavelength)
        {
            return;
        }

        _wavelength = wavelength;
        _known.Clear();
        _modes.Clear();
        double nm = set.Grid[wavelength], index = set.RefractiveIndex.At(nm);
        DiscOptics[] optics = [.. set.Readings.Select(reading => DiscOptics.Of(reading, index, nm, wavelength))];
        for (int r = 0; r < optics.Length; r++)
        {
            int same = Array.IndexOf(optics, optics[r]);
            _columns[r] = same < r ? _columns[same] : NewColumn(optics[r], index);
            _bodies[r] = set.Readings[r].Backing?.Substrate.InternalReflectanceAt(wavelength) ?? 0;
        }
    }

    private TransportColumn NewColumn(DiscOptics optics, double index)
    {
        DirectionGrid grid = _grids.For(
            [optics.Beam.Index, index, optics.FilmIndex, optics.BodyIndex], optics.Beam.Instruments);
        if (!_modes.TryGetValue(grid, out LayerModes? modes))
        {
            modes = new LayerModes(grid.In(index), model.Anisotropy);
            _modes.Add(grid, modes);
        }

        return new TransportColumn(grid, [modes], [index], optics.FilmIndex, optics.BodyIndex, optics.Beam);
    }
}
