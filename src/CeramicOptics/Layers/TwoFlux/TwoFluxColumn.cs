namespace CeramicOptics.Layers.TwoFlux;

/// <summary>The boundaries of a stack for diffuse light, and the layers that go between them.</summary>
/// <remarks>
/// Below the current level four numbers are known: the reflectance R over a black body, the share e of the body's light
/// that comes out upwards, the share a of light from above that reaches the body, and the share c of the body's light
/// that returns to it. An element above with reflectances Ra, Rb (from above, from below) and transmittances Td, Tu
/// (down, up) makes of them, with d = 1 / (1 - Rb R): c + a d Rb e, e d Tu, a d Td and Ra + Td Tu R d (Kubelka 1954, J.
/// Opt. Soc. Am. 44:330-335).
/// </remarks>
internal sealed class TwoFluxColumn
{
    private readonly LayerOptics[,] _below;
    private readonly LayerOptics[] _film;
    private readonly SurfaceCorrection[] _surface;

    public TwoFluxColumn(LayerStack stack, MeasurementGeometry geometry)
    {
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

    /// <summary>The surface as the instrument sees it.</summary>
    public SurfaceCorrection Surface(int wavelength) => _surface[wavelength];

    /// <summary>The boundary under a layer.</summary>
    public LayerOptics Below(int layer, int wavelength) => _below[layer, wavelength];

    /// <summary>The substrate with its film, before any layer.</summary>
    public Level Bottom(int wavelength) => new Level(0, 1, 1, 0).Under(_film[wavelength]);

    /// <summary>The level above a layer, from that below it.</summary>
    public Level Add(Level below, int wavelength, int layer, LayerOptics optics) =>
        below.Under(_below[layer, wavelength]).Under(optics);

    /// <summary>What the instrument sees of the level above all layers.</summary>
    public SubstrateResponse Response(int wavelength, Level top) =>
        _surface[wavelength].Over(top.Reflectance, top.Emerging, top.Reaching, top.Returning);

    /// <summary>R, e, a and c.</summary>
    public readonly record struct Level(double Reflectance, double Emerging, double Reaching, double Returning)
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
