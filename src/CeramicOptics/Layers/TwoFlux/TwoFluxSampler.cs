namespace CeramicOptics.Layers.TwoFlux;

/// <summary>Two-flux theory of a whole stack, from the substrate up.</summary>
/// <remarks>
/// Below the current level four numbers are known: the reflectance R over a black body, the share e of the body's light
/// that comes out upwards, the share a of light from above that reaches the body, and the share c of the body's light
/// that returns to it. An element above with reflectances Ra, Rb (from above, from below) and transmittances Td, Tu
/// (down, up) makes of them, with d = 1 / (1 - Rb R): c + a d Rb e, e d Tu, a d Td and Ra + Td Tu R d (Kubelka 1954, J.
/// Opt. Soc. Am. 44:330-335).
/// </remarks>
internal sealed class TwoFluxSampler : StackSampler
{
    private readonly LayerStack _stack;
    private readonly LayerOptics[,] _below;
    private readonly LayerOptics[] _film;
    private readonly SurfaceCorrection[] _surface;

    public TwoFluxSampler(LayerStack stack, MeasurementGeometry geometry)
    {
        _stack = stack;
        int n = stack.Grid.Count, layers = stack.Layers.Count;
        BoundaryCache boundaries = new();
        (_below, _film, _surface) = (new LayerOptics[layers, n], new LayerOptics[n], new SurfaceCorrection[n]);
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < layers - 1; j++)
            {
                _below[j, i] = boundaries.Diffuse(stack.IndexOf(j, i), stack.IndexOf(j + 1, i));
            }

            (_below[layers - 1, i], _film[i], _) = stack.Substrate.BelowMedium(
                stack.IndexOf(layers - 1, i), stack.Coupling, stack.Grid[i], i, boundaries);
            _surface[i] = boundaries.Surface(geometry, stack.IndexOf(0, i));
        }
    }

    /// <summary>24: samples cost next to nothing here.</summary>
    public override int FirstDegree => 24;

    public override SubstrateResponse At(int wavelength, ReadOnlySpan<double> layersMm)
    {
        Level level = new Level(0, 1, 1, 0).Under(_film[wavelength]);
        for (int j = layersMm.Length - 1; j >= 0; j--)
        {
            Material material = _stack.Layers[j].Material;
            level = level.Under(_below[j, wavelength])
                .Under(
                    TwoFluxLayer.SlabUnchecked(material.Absorption[wavelength], material.Scattering[wavelength],
                    layersMm[j]));
        }

        return _surface[wavelength].Over(level.Reflectance, level.Emerging, level.Reaching, level.Returning);
    }

    public override double InfiniteAt(int wavelength, int layer, ReadOnlySpan<double> layersMm)
    {
        Material material = _stack.Layers[layer].Material;
        double k = material.Absorption[wavelength], s = material.Scattering[wavelength];
        if (k == 0 && s == 0)
        {
            throw Clear(material, _stack.Grid[wavelength]);
        }

        double reflectance = TwoFluxLayer.InfiniteReflectance(k, s);
        for (int j = layer - 1; j >= 0; j--)
        {
            material = _stack.Layers[j].Material;
            reflectance = TwoFluxLayer.SlabUnchecked(
                material.Absorption[wavelength], material.Scattering[wavelength], layersMm[j])
                .OnBacking(_below[j, wavelength].OnBacking(reflectance));
        }

        return _surface[wavelength].Measured(reflectance);
    }

    private readonly record struct Level(double Reflectance, double Emerging, double Reaching, double Returning)
    {
        public Level Under(LayerOptics above)
        {
            double between = 1 / (1 - (above.ReflectanceFromBelow * Reflectance));
            return new Level(
                above.ReflectanceFromAbove + (above.TransmittanceDown * above.TransmittanceUp * Reflectance * between),
                Emerging * between * above.TransmittanceUp,
                Reaching * between * above.TransmittanceDown,
                Returning + (Reaching * between * above.ReflectanceFromBelow * Emerging));
        }
    }
}
