using CeramicOptics.Layers;
using CeramicOptics.Layers.Lateral;
using CeramicOptics.Layers.Transport;

namespace CeramicOptics.Characterization;

/// <summary>Readings through windows by radiative transfer at lateral frequencies.</summary>
/// <remarks>
/// Readings of one disc in the same media share their responses. They are scaled to plane-parallel readings, of another
/// anisotropy where need be: where light goes straight in and out, reduced scattering is all that matters.
/// </remarks>
/// <param name="set">The readings.</param>
/// <param name="wide">Their plane-parallel values.</param>
/// <param name="anisotropy">Mean cosine of scattering, for light that spreads sideways.</param>
/// <param name="streams">Directions in each hemisphere.</param>
/// <param name="areas">Weights of spots and windows.</param>
/// <param name="cancellation">Stops the work between two frequencies.</param>
internal sealed class LateralDiscModel(
    DiscSet set, TransportDiscModel wide, double anisotropy, int streams, AreaWeights areas,
    CancellationToken cancellation)
{
    private readonly LateralColumnFactory _factory = new(anisotropy, streams);

    /// <summary>Readings through their windows as shares of those of a large area; 1 where the area is large.</summary>
    public double[] SharesAt(int wavelength, double k, double s)
    {
        double nm = set.Grid[wavelength], index = set.RefractiveIndex.At(nm);
        SubstrateResponse[] exact = wide.ResponsesAt(wavelength, k, s);
        TransportLayer layer = TransportLayer.FromTwoFlux(k, s, anisotropy, 0, index);
        Dictionary<(DiscOptics, double), LateralResponse[]> known = [];
        double[] shares = new double[set.Readings.Count];
        for (int r = 0; r < shares.Length; r++)
        {
            DiscReading reading = set.Readings[r];
            shares[r] = 1;
            if (!reading.Area.HasWindow)
            {
                continue;
            }

            DiscOptics optics = DiscOptics.Of(reading, index, nm, wavelength);
            CircularReading weights = areas.For(reading.Area, k, s, index);
            if (!known.TryGetValue((optics, reading.ThicknessMm), out LateralResponse[]? responses))
            {
                responses = ResponsesOf(optics, layer, reading.ThicknessMm, exact[r]);
                known.Add((optics, reading.ThicknessMm), responses);
            }

            double body = reading.Backing?.Substrate.InternalReflectanceAt(wavelength) ?? 0;
            double[] values = Array.ConvertAll(
                responses, response => reading.IsTransmittance ? response.Down : response.Over(body));
            shares[r] = values[0] > 0 ? Math.Max(0, weights.Of(values)) / values[0] : 1;
        }

        return shares;
    }

    private LateralResponse[] ResponsesOf(
        DiscOptics optics, TransportLayer layer, double thicknessMm, SubstrateResponse exact)
    {
        LateralColumn column = _factory.Of([layer], optics.FilmIndex, optics.BodyIndex, optics.Beam);
        LateralResponse[] responses = Array.ConvertAll(LateralFrequencies.PerMm, perMm =>
        {
            cancellation.ThrowIfCancellationRequested();
            return column.At(perMm, [thicknessMm]);
        });
        LateralScale scale = new(responses[0], responses[responses.Length - 1], exact);
        return Array.ConvertAll(responses, scale.Apply);
    }
}
