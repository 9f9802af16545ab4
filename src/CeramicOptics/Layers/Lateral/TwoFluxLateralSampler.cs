using CeramicOptics.Layers.TwoFlux;

namespace CeramicOptics.Layers.Lateral;

/// <summary>Two-flux theory at lateral frequencies: the diffusion picture, with diffuse boundaries.</summary>
/// <remarks>
/// γ² = K (K + 2 S) becomes γ² + k². In diffusion K + 2 S stays and K grows by k²/(K + 2 S), which ends at k² = 2 S (K
/// + 2 S), where S would be negative. Here K + 2 S grows too, to sqrt((K + 2 S)² + k²), as the loss of light in one
/// direction does on average: the same for small k, and positive at all. Good where light is diffuse, that is for k
/// well below the scattering and thick layers.
/// </remarks>
internal sealed class TwoFluxLateralSampler(LayerStack stack, MeasurementGeometry geometry) : LateralSampler
{
    private const double LargestPerMm = 1e6;

    private readonly TwoFluxColumn _column = new(stack, geometry);

    public override LateralResponse At(int wavelength, double frequencyPerMm, ReadOnlySpan<double> layersMm)
    {
        TwoFluxColumn.Level level = _column.Bottom(wavelength);
        for (int j = layersMm.Length - 1; j >= 0; j--)
        {
            Material material = stack.Layers[j].Material;
            LayerOptics slab = Slab(
                material.Absorption[wavelength], material.Scattering[wavelength], frequencyPerMm, layersMm[j]);
            level = _column.Add(level, wavelength, j, slab);
        }

        // Light goes in by D and comes out by U; in two-flux theory the surface's share of each does not depend on k.
        SubstrateResponse response = _column.Response(wavelength, level);
        double up = response.Passing > 0 ? response.Exchange / response.Passing : 0;
        return new LateralResponse(response.Own, response.Passing, up, response.Return);
    }

    /// <summary>K and S of the layer that answers to uniform light as this one does at a lateral frequency.</summary>
    public static (double K, double S) EffectiveAt(double k, double s, double frequencyPerMm)
    {
        double sum = k + (2 * s), frequency = Math.Min(frequencyPerMm, LargestPerMm), square = frequency * frequency;
        double raised = Math.Sqrt((sum * sum) + square);
        return raised == 0
            ? (0, 0)
            : (Math.Min(LargestPerMm, ((k * sum) + square) / raised), s * sum / raised);
    }

    private static LayerOptics Slab(double k, double s, double frequencyPerMm, double thicknessMm)
    {
        (double raisedK, double loweredS) = EffectiveAt(k, s, frequencyPerMm);
        return TwoFluxLayer.Slab(raisedK, loweredS, thicknessMm);
    }
}
