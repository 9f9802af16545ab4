namespace CeramicOptics.Layers;

/// <summary>
/// Remembers boundaries while one stack is compiled: with constant indices each is integrated once, not once a
/// wavelength.
/// </summary>
internal sealed class BoundaryCache
{
    private readonly Dictionary<(double, double), LayerOptics> _diffuse = [];
    private readonly Dictionary<(MeasurementGeometry, double), SurfaceCorrection> _surfaces = [];

    public LayerOptics Diffuse(double upperIndex, double lowerIndex)
    {
        if (!_diffuse.TryGetValue((upperIndex, lowerIndex), out LayerOptics boundary))
        {
            boundary = Boundary.Diffuse(upperIndex, lowerIndex);
            _diffuse.Add((upperIndex, lowerIndex), boundary);
        }

        return boundary;
    }

    public SurfaceCorrection Surface(MeasurementGeometry geometry, double index)
    {
        if (!_surfaces.TryGetValue((geometry, index), out SurfaceCorrection surface))
        {
            surface = new SurfaceCorrection(geometry, index);
            _surfaces.Add((geometry, index), surface);
        }

        return surface;
    }
}
