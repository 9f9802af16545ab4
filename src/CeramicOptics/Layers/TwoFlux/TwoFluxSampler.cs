namespace CeramicOptics.Layers.TwoFlux;

/// <summary>Two-flux theory of a whole stack, from the substrate up.</summary>
internal sealed class TwoFluxSampler(LayerStack stack, MeasurementGeometry geometry) : StackSampler
{
    private readonly TwoFluxColumn _column = new(stack, geometry);

    // By layer.
    private readonly double[][] _absorption =
        [.. stack.Layers.Select(layer => layer.Material.Absorption.Values.ToArray())];

    private readonly double[][] _scattering =
        [.. stack.Layers.Select(layer => layer.Material.Scattering.Values.ToArray())];

    /// <summary>24: samples cost next to nothing here.</summary>
    public override int FirstDegree => 24;

    public override SubstrateResponse At(int wavelength, ReadOnlySpan<double> layersMm)
    {
        TwoFluxColumn.Level level = _column.Bottom(wavelength);
        for (int j = layersMm.Length - 1; j >= 0; j--)
        {
            level = _column.Add(level, wavelength, j, Slab(wavelength, j, layersMm[j]));
        }

        return _column.Response(wavelength, level);
    }

    public override void Set(int wavelength, int layer, double absorptionPerMm, double scatteringPerMm) =>
        (_absorption[layer][wavelength], _scattering[layer][wavelength]) = (absorptionPerMm, scatteringPerMm);

    public override double InfiniteAt(int wavelength, int layer, ReadOnlySpan<double> layersMm)
    {
        double k = _absorption[layer][wavelength], s = _scattering[layer][wavelength];
        if (k == 0 && s == 0)
        {
            throw Clear(stack.Layers[layer].Material, stack.Grid[wavelength]);
        }

        double reflectance = TwoFluxLayer.InfiniteReflectance(k, s);
        for (int j = layer - 1; j >= 0; j--)
        {
            reflectance = Slab(wavelength, j, layersMm[j])
                .OnBacking(_column.Below(j, wavelength).OnBacking(reflectance));
        }

        return _column.Surface(wavelength).Measured(reflectance);
    }

    private LayerOptics Slab(int wavelength, int layer, double thicknessMm) => TwoFluxLayer.Slab(
        _absorption[layer][wavelength], _scattering[layer][wavelength], thicknessMm);
}
