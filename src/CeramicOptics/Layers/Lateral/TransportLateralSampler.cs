using CeramicOptics.Layers.Transport;

namespace CeramicOptics.Layers.Lateral;

/// <summary>
/// Radiative transfer at lateral frequencies, with few directions, scaled to the plane-parallel solution at k = 0.
/// </summary>
internal sealed class TransportLateralSampler : LateralSampler
{
    // Directions in each hemisphere, at least two between neighbouring angles of total reflection; more for very
    // forward scattering.
    private const int FewStreams = 12, MoreStreams = 16, Orders = 4;

    private const double ForwardAnisotropy = 0.8;

    private readonly LayerStack _stack;
    private readonly MeasurementGeometry _geometry;
    private readonly TransportModel _model;
    private readonly StackSampler _planeParallel;
    private readonly LateralColumn?[] _columns;
    private readonly GridMemo _grids;
    private readonly Dictionary<DirectionGrid, LateralDirections> _directions = [];
    private readonly Dictionary<MediumDirections, LateralPhase> _phases = [];
    private readonly Scale?[] _scales;

    public TransportLateralSampler(LayerStack stack, MeasurementGeometry geometry, TransportModel model)
    {
        (_stack, _geometry, _model) = (stack, geometry, model);
        (_columns, _scales) = (new LateralColumn?[stack.Grid.Count], new Scale?[stack.Grid.Count]);
        _grids = new GridMemo(model.Anisotropy > ForwardAnisotropy ? MoreStreams : FewStreams);
        _planeParallel = ((IOpticalModel)model).SamplerFor(stack, geometry);
    }

    public override LateralResponse At(int wavelength, double frequencyPerMm, ReadOnlySpan<double> layersMm)
    {
        LateralColumn column = _columns[wavelength] ??= NewColumn(wavelength);
        if (_scales[wavelength] is not Scale scale || !scale.LayersMm.AsSpan().SequenceEqual(layersMm))
        {
            scale = new Scale(
                layersMm.ToArray(),
                column.At(0, layersMm),
                column.At(double.PositiveInfinity, layersMm),
                _planeParallel.At(wavelength, layersMm));
            _scales[wavelength] = scale;
        }

        LateralResponse response = double.IsInfinity(frequencyPerMm) ? scale.Local
            : frequencyPerMm == 0 ? scale.Coarse : column.At(frequencyPerMm, layersMm);
        return scale.Apply(response);
    }

    private LateralColumn NewColumn(int wavelength)
    {
        double[] indices = [.. _stack.Layers.Select((_, layer) => _stack.IndexOf(layer, wavelength))];
        double film = _stack.Coupling?.RefractiveIndex.At(_stack.Grid[wavelength]) ?? indices[indices.Length - 1];
        double body = _stack.Substrate.BodyUnder(film, wavelength).Index;
        TransportBeam beam = TransportBeam.Of(_geometry, indices[0]);
        DirectionGrid grid = _grids.For([beam.Index, .. indices, film, body], beam.Instruments);
        if (!_directions.TryGetValue(grid, out LateralDirections? directions))
        {
            directions = new LateralDirections(grid, Orders);
            _directions.Add(grid, directions);
        }

        IEnumerable<LateralLayer> layers = _stack.Layers.Select(
            (layer, i) => LayerOf(layer.Material, wavelength, indices[i], directions));
        return new LateralColumn(directions, [.. layers], film, body, beam);
    }

    private LateralLayer LayerOf(Material material, int wavelength, double index, LateralDirections directions)
    {
        MediumDirections medium = directions.Grid.In(index);
        if (!_phases.TryGetValue(medium, out LateralPhase? phase))
        {
            phase = new LateralPhase(_model.Anisotropy, medium, Orders);
            _phases.Add(medium, phase);
        }

        TransportLayer layer = TransportLayer.FromTwoFlux(
            material.Absorption[wavelength], material.Scattering[wavelength], _model.Anisotropy, 0, index);
        return new LateralLayer(directions, layer, phase);
    }

    // Few directions are off by about 1 %, nearly the same share at all frequencies; what returns at once, at infinity,
    // has no such error.
    private sealed class Scale(
        double[] layersMm, LateralResponse coarse, LateralResponse local, SubstrateResponse exact)
    {
        private readonly double _exchange = Ratio(exact.Exchange, coarse.Down * coarse.Up, 0);
        private readonly double _own = Ratio(exact.Own, coarse.Own, local.Own);
        private readonly double _return = Ratio(exact.Return, coarse.Return, local.Return);

        public double[] LayersMm { get; } = layersMm;

        public LateralResponse Coarse { get; } = coarse;

        public LateralResponse Local { get; } = local;

        public LateralResponse Apply(LateralResponse response) => new(
            Local.Own + ((response.Own - Local.Own) * _own),
            response.Down * Math.Sqrt(_exchange),
            response.Up * Math.Sqrt(_exchange),
            Local.Return + ((response.Return - Local.Return) * _return));

        private static double Ratio(double exact, double coarse, double local) =>
            coarse - local > 1e-9 && exact > local ? (exact - local) / (coarse - local) : 1;
    }
}
