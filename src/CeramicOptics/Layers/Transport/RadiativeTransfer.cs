namespace CeramicOptics.Layers.Transport;

/// <summary>
/// Exact plane-parallel radiative transfer with Fresnel boundaries: absorption, anisotropic scattering, any number of
/// layers.
/// </summary>
/// <remarks>
/// Discrete directions that refract into each other (cut at every angle of total reflection), eigenmodes within a
/// layer, layers joined like the parts of an electric network. Polarisation, surface roughness and light lost at the
/// sides are left out. Media whose indices differ by less than 1e-6 count as one. Sources: Chandrasekhar 1950,
/// Radiative Transfer; van de Hulst 1980, Multiple Light Scattering; Prahl, van Gemert, Welch 1993, Appl. Opt.
/// 32:559-568.
/// </remarks>
public static class RadiativeTransfer
{
    private const int FirstStreams = 8, LastStreams = 128;
    private const double Rounding = 1e-9;

    /// <summary>Reflectance and transmittance of layers between two clear media.</summary>
    /// <param name="layers">Layers from the top down, at least one.</param>
    /// <param name="upperIndex">Index of the medium above, 1 to 4.</param>
    /// <param name="lowerIndex">Index of the medium below, 1 to 4.</param>
    /// <param name="tolerance">
    /// Streams are doubled from 8, at least twice, up to 128 until the error of no result is estimated at more than
    /// this, 1e-8 to 0.1.
    /// </param>
    /// <returns>
    /// Results with an upper estimate of their error; judge <see cref="TransportResult.ErrorEstimate"/> where 128
    /// streams did not suffice.
    /// </returns>
    /// <exception cref="ArgumentException">No layer.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range or NaN.</exception>
    public static TransportResult Solve(
        IEnumerable<TransportLayer> layers, double upperIndex, double lowerIndex, double tolerance = 1e-5)
    {
        IReadOnlyList<TransportLayer> stack = Guard.Copy(layers, minimumCount: 1);
        Guard.InRange(upperIndex, RefractiveIndex.Minimum, RefractiveIndex.Maximum, "");
        Guard.InRange(lowerIndex, RefractiveIndex.Minimum, RefractiveIndex.Maximum, "");
        Guard.InRange(tolerance, 1e-8, 0.1, "");
        foreach (TransportLayer layer in stack)
        {
            Guard.InRange(
                layer.RefractiveIndex, RefractiveIndex.Minimum, RefractiveIndex.Maximum, "",
                "refractive index of a layer");
        }

        TransportResult result = Solve(stack, upperIndex, lowerIndex, FirstStreams);
        double last = double.PositiveInfinity;
        for (int streams = 2 * FirstStreams;
            streams <= LastStreams && !(result.ErrorEstimate <= tolerance);
            streams *= 2)
        {
            // A change can be small by chance, so the one before counts too, and the first alone says nothing.
            TransportResult finer = Solve(stack, upperIndex, lowerIndex, streams);
            double change = finer.LargestChangeFrom(result);
            result = finer with { ErrorEstimate = Math.Max(3 * change, last / 10) + Rounding };
            last = change;
        }

        return result;
    }

    internal static TransportResult Solve(
        IReadOnlyList<TransportLayer> layers, double upperIndex, double lowerIndex, int streams)
    {
        double[] indices = [.. layers.Select(layer => layer.RefractiveIndex)];
        double[] thicknesses = [.. layers.Select(layer => layer.ThicknessMm)];
        DirectionGrid grid = new([upperIndex, .. indices, lowerIndex], streams, 0);
        LayerModes[] modes = [.. layers.Select(layer => ModesOf(layer, grid))];
        SubstrateResponse Under(TransportBeam beam) =>
            new TransportColumn(grid, modes, indices, indices[indices.Length - 1], lowerIndex, beam).At(thicknesses);

        // A black body gets all light that leaves below.
        SubstrateResponse diffuse = Under(new TransportBeam(upperIndex, null, null));
        SubstrateResponse normal = Under(new TransportBeam(upperIndex, 0, null));
        return new TransportResult(diffuse.Own, diffuse.Passing, normal.Own, normal.Passing, double.PositiveInfinity);
    }

    private static LayerModes ModesOf(TransportLayer layer, DirectionGrid grid)
    {
        LayerModes modes = new(grid.In(layer.RefractiveIndex), layer.Anisotropy);
        modes.Set(layer);
        return modes;
    }
}
