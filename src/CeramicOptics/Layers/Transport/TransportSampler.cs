namespace CeramicOptics.Layers.Transport;

/// <summary>
/// Responses of a stack by exact radiative transfer: each substance is solved once a wavelength, for all thicknesses.
/// </summary>
internal sealed class TransportSampler : StackSampler
{
    private readonly LayerStack _stack;
    private readonly MeasurementGeometry _geometry;
    private readonly TransportModel _model;
    private readonly TransportColumn?[] _columns;
    private readonly GridMemo _grids;

    public TransportSampler(LayerStack stack, MeasurementGeometry geometry, TransportModel model)
    {
        (_stack, _geometry, _model) = (stack, geometry, model);
        (_columns, _grids) = (new TransportColumn?[stack.Grid.Count], new GridMemo(model.Streams));
    }

    public override SubstrateResponse At(int wavelength, ReadOnlySpan<double> layersMm) =>
        ColumnAt(wavelength).At(layersMm);

    public override void Set(int wavelength, int layer, double absorptionPerMm, double scatteringPerMm) =>
        ColumnAt(wavelength).Set(layer, Substance(absorptionPerMm, scatteringPerMm));

    public override double InfiniteAt(int wavelength, int layer, ReadOnlySpan<double> layersMm)
    {
        Material material = _stack.Layers[layer].Material;
        if (material.Absorption[wavelength] == 0 && material.Scattering[wavelength] == 0)
        {
            throw Clear(material, _stack.Grid[wavelength]);
        }

        return ColumnAt(wavelength).InfiniteAt(layer, layersMm);
    }

    private TransportColumn ColumnAt(int wavelength) => _columns[wavelength] ??= NewColumn(wavelength);

    private TransportColumn NewColumn(int wavelength)
    {
        (double[] indices, double film, double body) = _stack.IndicesAt(wavelength);
        TransportBeam beam = TransportBeam.Of(_geometry, indices[0]);
        DirectionGrid grid = _grids.For([beam.Index, .. indices, film, body], beam.Instruments);
        LayerModes[] modes = [.. _stack.Layers.Select(
            (layer, i) => ModesOf(layer.Material, wavelength, grid.In(indices[i])))];
        return new TransportColumn(grid, modes, indices, film, body, beam);
    }

    private LayerModes ModesOf(Material material, int wavelength, MediumDirections medium)
    {
        LayerModes modes = new(medium, _model.Anisotropy);
        modes.Set(Substance(material.Absorption[wavelength], material.Scattering[wavelength]));
        return modes;
    }

    private TransportLayer Substance(double absorptionPerMm, double scatteringPerMm) =>
        TransportLayer.FromTwoFlux(absorptionPerMm, scatteringPerMm, _model.Anisotropy, 0, 1);
}
