using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;

namespace CeramicOptics.Characterization;

/// <summary>Readings by exact radiative transfer; derivatives by forward differences, good to about 1e-5.</summary>
/// <remarks>
/// Readings of the same media share their directions, and so the modes of a pair of coefficients; each is worked out
/// exactly as <see cref="TransportSampler"/> does. What was computed is kept while the wavelength stays the
/// same.
/// </remarks>
internal sealed class TransportDiscModel(DiscSet set, TransportModel model) : IDiscForwardModel
{
    private const double RelativeStep = 1e-5, SmallestStep = 1e-6;

    private readonly Dictionary<(double K, double S), double[]> _known = [];
    private readonly GridMemo _grids = new(model.Streams);
    private readonly TransportColumn[] _columns = new TransportColumn[set.Readings.Count];
    private readonly double[] _bodies = new double[set.Readings.Count];
    private readonly Dictionary<DirectionGrid, LayerModes> _modes = [];
    private int _wavelength = -1;

    public double Value(int reading, int wavelength, double k, double s)
    {
        MoveTo(wavelength);
        return Readings(k, s)[reading];
    }

    public (double Value, double ByAbsorption, double ByScattering) Evaluate(
        int reading, int wavelength, double k, double s)
    {
        MoveTo(wavelength);
        double stepK = Math.Max(SmallestStep, RelativeStep * k), stepS = Math.Max(SmallestStep, RelativeStep * s);
        double value = Readings(k, s)[reading];
        return (
            value,
            (Readings(k + stepK, s)[reading] - value) / stepK,
            (Readings(k, s + stepS)[reading] - value) / stepS);
    }

    private double[] Readings(double k, double s)
    {
        if (_known.TryGetValue((k, s), out double[]? values))
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

        values = new double[_columns.Length];
        for (int r = 0; r < values.Length; r++)
        {
            SubstrateResponse response = _columns[r].At([set.Readings[r].ThicknessMm]);
            values[r] = set.Readings[r].IsTransmittance ? response.Passing : response.Over(_bodies[r]);
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
        double index = set.RefractiveIndex.At(set.Grid[wavelength]);
        Optics[] optics = [.. set.Readings.Select(reading => OpticsOf(reading, index))];
        for (int r = 0; r < optics.Length; r++)
        {
            int same = Array.IndexOf(optics, optics[r]);
            _columns[r] = same < r ? _columns[same] : NewColumn(optics[r], index);
            _bodies[r] = set.Readings[r].Backing?.Substrate.BodyUnder(optics[r].FilmIndex, wavelength).Reflectance ?? 0;
        }
    }

    private TransportColumn NewColumn(Optics optics, double index)
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

    // A transmittance is what reaches a black body in the air below.
    private Optics OpticsOf(DiscReading reading, double index)
    {
        if (reading.Backing is not { } backing)
        {
            return new Optics(index, 1, new TransportBeam(1, 0, null));
        }

        double film = backing.Coupling?.RefractiveIndex.At(set.Grid[_wavelength]) ?? index;
        return new Optics(
            film, backing.Substrate.BodyUnder(film, _wavelength).Index, TransportBeam.Of(reading.Geometry, index));
    }

    private readonly record struct Optics(double FilmIndex, double BodyIndex, TransportBeam Beam);
}
