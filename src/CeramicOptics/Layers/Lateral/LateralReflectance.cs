using CeramicOptics.Spectra;

namespace CeramicOptics.Layers.Lateral;

/// <summary>Spectra of what depends on light that spreads sideways.</summary>
internal static class LateralReflectance
{
    /// <summary>Responses of a stack at one wavelength, its own thicknesses, at all frequencies.</summary>
    public static LateralResponse[] Responses(
        LayerStack stack, LateralSampler sampler, int wavelength, CancellationToken cancellation = default) =>
        sampler.At(wavelength, [.. stack.Layers.Select(layer => layer.ThicknessMm)], cancellation);

    /// <summary>
    /// What an instrument with a round spot and window reads, calibrated on a white that loses no light.
    /// </summary>
    /// <param name="stack">Specimen on its substrate.</param>
    /// <param name="geometry">Light and detector.</param>
    /// <param name="reading">Spot, window and specimen.</param>
    public static ReflectanceSpectrum Read(LayerStack stack, MeasurementGeometry geometry, CircularReading reading) =>
        Read(stack, geometry, _ => reading);

    /// <summary>The same for an area with a window, on a disc where its side matters.</summary>
    /// <param name="stack">Specimen on its substrate; several layers count by their thickness at the side.</param>
    /// <param name="geometry">Light and detector.</param>
    /// <param name="area">Spot and window.</param>
    public static ReflectanceSpectrum Read(LayerStack stack, MeasurementGeometry geometry, ReadingArea area)
    {
        AreaWeights weights = new();
        return Read(stack, geometry, i =>
        {
            (double k, double s, double index) = MeanOf(stack, i);
            return weights.For(area, k, s, index);
        });
    }

    /// <summary>
    /// What is seen above a round spot on the substrate, everything lit, at the distances of <paramref name="below"/>.
    /// </summary>
    /// <param name="stack">Layers over the substrate that surrounds the spot.</param>
    /// <param name="spot">The substrate inside the spot, of the same index.</param>
    /// <param name="geometry">Light and detector.</param>
    /// <param name="below">Radius and distances.</param>
    /// <param name="sampler">Solutions to use; those of the stack's own model when null.</param>
    /// <param name="cancellation">Stops the work between two frequencies.</param>
    /// <exception cref="ArgumentException">The two substrates differ in refractive index.</exception>
    public static IReadOnlyList<ReflectanceSpectrum> AboveSpot(
        LayerStack stack, Substrate spot, MeasurementGeometry geometry, SpotBelow below,
        LateralSampler? sampler = null, CancellationToken cancellation = default)
    {
        if (!stack.Substrate.HasSameIndexAs(spot))
        {
            throw new ArgumentException(
                $"'{spot.Name}' and '{stack.Substrate.Name}' must have the same refractive index.", nameof(spot));
        }

        sampler ??= stack.Model.LateralSamplerFor(stack, geometry);
        double[][] values = [.. Enumerable.Range(0, below.DistancesMm.Count).Select(_ => new double[stack.Grid.Count])];
        for (int i = 0; i < stack.Grid.Count; i++)
        {
            LateralResponse[] responses = Responses(stack, sampler, i, cancellation);
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
            LateralResponse[] responses = Responses(stack, sampler, i);
            values[i] = Math.Max(0, reading.Of(Array.ConvertAll(responses, response => response.Over(body))));
        }

        return new ReflectanceSpectrum(stack.Grid, values);
    }

    // How far sideways an instrument at 8 degrees looks where it sees the body.
    private static double ShiftMm(LayerStack stack, MeasurementGeometry geometry, int wavelength)
    {
        if (geometry is not (MeasurementGeometry.DiffuseSpecularIncluded
            or MeasurementGeometry.DiffuseSpecularExcluded))
        {
            return 0;
        }

        double shiftMm = 0;
        for (int i = 0; i < stack.Layers.Count; i++)
        {
            double sine = Math.Sin(8 * Math.PI / 180) / stack.IndexOf(i, wavelength);
            shiftMm += stack.Layers[i].ThicknessMm * sine / Math.Sqrt(1 - (sine * sine));
        }

        return shiftMm;
    }

    private static (double K, double S, double Index) MeanOf(LayerStack stack, int wavelength)
    {
        double k = 0, s = 0, indices = 0, allMm = 0;
        for (int i = 0; i < stack.Layers.Count; i++)
        {
            Layer layer = stack.Layers[i];
            k += layer.Material.Absorption[wavelength] * layer.ThicknessMm;
            s += layer.Material.Scattering[wavelength] * layer.ThicknessMm;
            indices += stack.IndexOf(i, wavelength) * layer.ThicknessMm;
            allMm += layer.ThicknessMm;
        }

        return allMm > 0 ? (k / allMm, s / allMm, indices / allMm) : (0, 0, stack.IndexOf(0, wavelength));
    }
}
