using CeramicOptics.Layers.Transport;

namespace CeramicOptics.Layers.Lateral;

/// <summary>
/// Radiative transfer at lateral frequencies, with few directions, scaled to the plane-parallel solution at k = 0.
/// </summary>
internal sealed class TransportLateralSampler : LateralSampler
{
    // Directions in each hemisphere, at least two between neighbouring angles of total reflection; more for very
    // forward scattering.
    private const int FewStreams = 12, MoreStreams = 16;

    private const double ForwardAnisotropy = 0.8;

    private readonly LayerStack _stack;
    private readonly MeasurementGeometry _geometry;
    private readonly double _anisotropy;
    private readonly StackSampler _planeParallel;
    private readonly LateralColumn?[] _columns;
    private readonly LateralColumnFactory _factory;
    private readonly LateralScale?[] _scales;
    private readonly double[]?[] _scaledMm;

    /// <param name="stack">The stack.</param>
    /// <param name="geometry">Light and detector.</param>
    /// <param name="model">Theory of the plane-parallel solution.</param>
    /// <param name="anisotropy">
    /// Mean cosine of scattering for light that spreads sideways; the model's when null.
    /// </param>
    /// <param name="streams">Directions in each hemisphere; what the anisotropy asks for when null.</param>
    public TransportLateralSampler(
        LayerStack stack, MeasurementGeometry geometry, TransportModel model, double? anisotropy = null,
        int? streams = null)
    {
        (_stack, _geometry, _anisotropy) = (stack, geometry, anisotropy ?? model.Anisotropy);
        (_columns, _scales) = (new LateralColumn?[stack.Grid.Count], new LateralScale?[stack.Grid.Count]);
        _scaledMm = new double[]?[stack.Grid.Count];
        _factory = new LateralColumnFactory(_anisotropy, streams ?? StreamsFor(_anisotropy));
        _planeParallel = ((IOpticalModel)model).SamplerFor(stack, geometry);
    }

    public override LateralResponse At(int wavelength, double frequencyPerMm, ReadOnlySpan<double> layersMm)
    {
        LateralColumn column = _columns[wavelength] ??= NewColumn(wavelength);
        if (_scales[wavelength] is not LateralScale scale
            || !_scaledMm[wavelength].AsSpan().SequenceEqual(layersMm))
        {
            scale = new LateralScale(
                column.At(0, layersMm),
                column.At(double.PositiveInfinity, layersMm),
                _planeParallel.At(wavelength, layersMm));
            (_scales[wavelength], _scaledMm[wavelength]) = (scale, layersMm.ToArray());
        }

        LateralResponse response = double.IsInfinity(frequencyPerMm) ? scale.Local
            : frequencyPerMm == 0 ? scale.Coarse : column.At(frequencyPerMm, layersMm);
        return scale.Apply(response);
    }

    /// <summary>Directions in each hemisphere that serve scattering of an anisotropy.</summary>
    internal static int StreamsFor(double anisotropy) => anisotropy > ForwardAnisotropy ? MoreStreams : FewStreams;

    private LateralColumn NewColumn(int wavelength)
    {
        (double[] indices, double film, double body) = _stack.IndicesAt(wavelength);
        TransportLayer[] layers = [.. _stack.Layers.Select((layer, i) => TransportLayer.FromTwoFlux(
            layer.Material.Absorption[wavelength], layer.Material.Scattering[wavelength], _anisotropy, 0, indices[i]))];
        return _factory.Of(layers, film, body, TransportBeam.Of(_geometry, indices[0]));
    }
}
