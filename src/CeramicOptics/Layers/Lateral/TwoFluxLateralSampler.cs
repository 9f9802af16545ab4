using CeramicOptics.Layers.TwoFlux;

namespace CeramicOptics.Layers.Lateral;

/// <summary>Two-flux theory at lateral frequencies: the diffusion picture, with diffuse boundaries.</summary>
/// <remarks>
/// γ² = K (K + 2 S) becomes γ² + k². In diffusion K + 2 S stays and K grows by k²/(K + 2 S), which ends at k² = 2 S (K
/// + 2 S), where S would be negative. Here K + 2 S grows too, to sqrt((K + 2 S)² + k²), as the loss of light in one
/// direction does on average: the same for small k, and positive at all. Good where light is diffuse, that is for k
/// well below the scattering and thick layers.
/// </remarks>
internal sealed class TwoFluxLateralSampler : LateralSampler
{
    private const double LargestPerMm = 1e6;

    private readonly LayerStack _stack;
    private readonly LayerOptics[,] _below;
    private readonly LayerOptics[] _film;
    private readonly SurfaceCorrection[] _surface;

    public TwoFluxLateralSampler(LayerStack stack, MeasurementGeometry geometry)
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

    public override LateralResponse At(int wavelength, double frequencyPerMm, ReadOnlySpan<double> layersMm)
    {
        // Reflectance over a black body, share of the body's light that comes out, share that reaches it, share that
        // returns to it.
        double reflectance = 0, emerging = 1, reaching = 1, returning = 0;
        void Under(LayerOptics above)
        {
            double between = 1 / (1 - (above.ReflectanceFromBelow * reflectance));
            returning += reaching * between * above.ReflectanceFromBelow * emerging;
            emerging *= between * above.TransmittanceUp;
            reaching *= between * above.TransmittanceDown;
            reflectance *= above.TransmittanceDown * above.TransmittanceUp * between;
            reflectance += above.ReflectanceFromAbove;
        }

        Under(_film[wavelength]);
        for (int j = layersMm.Length - 1; j >= 0; j--)
        {
            Material material = _stack.Layers[j].Material;
            Under(_below[j, wavelength]);
            Under(Slab(material.Absorption[wavelength], material.Scattering[wavelength], frequencyPerMm, layersMm[j]));
        }

        // Light goes in by D and comes out by U; in two-flux theory the surface's share of each does not depend on k.
        SubstrateResponse response = _surface[wavelength].Over(reflectance, emerging, reaching, returning);
        double up = response.Passing > 0 ? response.Exchange / response.Passing : 0;
        return new LateralResponse(response.Own, response.Passing, up, response.Return);
    }

    private static LayerOptics Slab(double k, double s, double frequencyPerMm, double thicknessMm)
    {
        double sum = k + (2 * s), frequency = Math.Min(frequencyPerMm, LargestPerMm), square = frequency * frequency;
        double raised = Math.Sqrt((sum * sum) + square);
        return raised == 0
            ? LayerOptics.Clear
            : TwoFluxLayer.SlabUnchecked(((k * sum) + square) / raised, s * sum / raised, thicknessMm);
    }
}
