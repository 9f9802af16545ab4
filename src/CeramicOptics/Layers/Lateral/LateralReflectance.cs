using CeramicOptics.Layers.Transport;
using CeramicOptics.Spectra;

namespace CeramicOptics.Layers.Lateral;

/// <summary>Spectra of what depends on light that goes sideways.</summary>
internal static class LateralReflectance
{
    /// <summary>Responses of a stack at one wavelength, its own thicknesses, at all frequencies.</summary>
    public static LateralResponse[] Responses(
        LayerStack stack, LateralSampler sampler, int wavelength, LateralFrequencies frequencies)
    {
        double[] layersMm = [.. stack.Layers.Select(layer => layer.ThicknessMm)];
        return Array.ConvertAll(frequencies.PerMm, k => sampler.At(wavelength, k, layersMm));
    }

    /// <summary>
    /// What an instrument with a round spot and window reads, calibrated on a white that loses no light.
    /// </summary>
    /// <param name="stack">Specimen on its substrate.</param>
    /// <param name="geometry">Light and detector.</param>
    /// <param name="reading">Spot, window and specimen.</param>
    public static ReflectanceSpectrum Read(LayerStack stack, MeasurementGeometry geometry, CircularReading reading) =>
        Read(stack, geometry, _ => reading);

    /// <summary>The same on a disc of which the side matters.</summary>
    /// <param name="stack">Disc on its substrate.</param>
    /// <param name="geometry">Light and detector.</param>
    /// <param name="spotRadiusMm">Radius of the spot, at most that of the disc, mm.</param>
    /// <param name="windowRadiusMm">Radius of the window, at most that of the disc, mm.</param>
    /// <param name="discRadiusMm">Radius of the disc, mm.</param>
    /// <param name="sideReflectance">
    /// What the side returns of diffuse light from inside, 0 (black) to 1 (a mirror); polished and in air it is that of
    /// <see cref="Boundary.Diffuse"/> from the index of the disc to 1.
    /// </param>
    public static ReflectanceSpectrum ReadDisc(
        LayerStack stack,
        MeasurementGeometry geometry,
        double spotRadiusMm,
        double windowRadiusMm,
        double discRadiusMm,
        double sideReflectance) => Read(stack, geometry, i =>
        CircularReading.OnDisc(spotRadiusMm, windowRadiusMm, discRadiusMm, BeyondSide(stack, i, sideReflectance)));

    /// <summary>
    /// What is seen above a round spot on the substrate, everything lit, at the distances of <paramref name="below"/>.
    /// </summary>
    /// <param name="stack">Layers over the substrate that surrounds the spot.</param>
    /// <param name="spot">The substrate inside the spot, of the same index.</param>
    /// <param name="geometry">Light and detector.</param>
    /// <param name="below">Radius and distances.</param>
    /// <exception cref="ArgumentException">The two substrates differ in refractive index.</exception>
    public static IReadOnlyList<ReflectanceSpectrum> AboveSpot(
        LayerStack stack, Substrate spot, MeasurementGeometry geometry, SpotBelow below)
    {
        if (!stack.Substrate.HasSameIndexAs(spot))
        {
            throw new ArgumentException(
                $"'{spot.Name}' and '{stack.Substrate.Name}' must have the same refractive index.", nameof(spot));
        }

        LateralSampler sampler = stack.Model.LateralSamplerFor(stack, geometry);
        double[][] values = [.. Enumerable.Range(0, below.DistancesMm.Count).Select(_ => new double[stack.Grid.Count])];
        for (int i = 0; i < stack.Grid.Count; i++)
        {
            LateralResponse[] responses = Responses(stack, sampler, i, below.Frequencies);
            double[] seen = below.Reflectance(
                responses,
                spot.InternalReflectanceAt(i),
                stack.Substrate.InternalReflectanceAt(i),
                ShiftMm(stack, geometry, i));
            for (int r = 0; r < seen.Length; r++)
            {
                values[r][i] = Math.Max(0, seen[r]);
            }
        }

        return [.. values.Select(own => new ReflectanceSpectrum(stack.Grid, own))];
    }

    private static ReflectanceSpectrum Read(
        LayerStack stack, MeasurementGeometry geometry, Func<int, CircularReading> at)
    {
        LateralSampler sampler = stack.Model.LateralSamplerFor(stack, geometry);
        double[] values = new double[stack.Grid.Count];
        for (int i = 0; i < values.Length; i++)
        {
            CircularReading reading = at(i);
            double body = stack.Substrate.InternalReflectanceAt(i);
            LateralResponse[] responses = Responses(stack, sampler, i, reading.Frequencies);
            values[i] = Math.Max(0, reading.Of(Array.ConvertAll(responses, response => response.Over(body))));
        }

        return new ReflectanceSpectrum(stack.Grid, values);
    }

    private static double ShiftMm(LayerStack stack, MeasurementGeometry geometry, int wavelength)
    {
        bool isAt8Degrees = geometry is MeasurementGeometry.DiffuseSpecularIncluded
            or MeasurementGeometry.DiffuseSpecularExcluded;
        double shiftMm = 0;
        for (int i = 0; i < stack.Layers.Count && isAt8Degrees; i++)
        {
            double sine = Math.Sin(8 * Math.PI / 180) / stack.IndexOf(i, wavelength);
            shiftMm += stack.Layers[i].ThicknessMm * sine / Math.Sqrt(1 - (sine * sine));
        }

        return shiftMm;
    }

    // Layers count by their thickness.
    private static double BeyondSide(LayerStack stack, int wavelength, double sideReflectance)
    {
        double absorbed = 0, scattered = 0, allMm = 0;
        foreach (Layer layer in stack.Layers)
        {
            Material material = layer.Material;
            TransportLayer own = TransportLayer.FromTwoFlux(
                material.Absorption[wavelength], material.Scattering[wavelength], 0, layer.ThicknessMm, 1);
            absorbed += own.AbsorptionPerMm * layer.ThicknessMm;
            scattered += own.ScatteringPerMm * layer.ThicknessMm;
            allMm += layer.ThicknessMm;
        }

        return absorbed + scattered > 0
            ? CircularReading.BeyondSide(absorbed / allMm, scattered / allMm, sideReflectance)
            : double.PositiveInfinity;
    }
}
