using CeramicOptics.Spectra;

namespace CeramicOptics.Layers.Transport;

/// <summary>Exact radiative transfer for the same stacks: the judge of two-flux theory, and the model for thin or clear layers.</summary>
/// <remarks>
/// K and S of a material are taken as what they are where two-flux theory is exact (<see cref="TransportLayer.FromTwoFlux"/>): absorption
/// K/2 and reduced scattering (4 S + K/2)/3. Substrates are Lambertian inside their own medium. Immutable and safe to share.
/// </remarks>
public sealed class TransportModel : IReflectanceModel
{
    /// <summary>A model.</summary>
    /// <param name="streams">Directions in each hemisphere, 6 to 128; 16 give about 1e-5.</param>
    /// <param name="anisotropy">Mean cosine g of scattering in all layers, 0 to 0.95; only reduced scattering is known, and 0 is usual for it.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range or NaN.</exception>
    public TransportModel(int streams = 16, double anisotropy = 0)
    {
        Streams = Guard.InRange(streams, 6, 128);
        Anisotropy = Guard.InRange(anisotropy, 0, 0.95, "");
    }

    /// <summary>Directions in each hemisphere.</summary>
    public int Streams { get; }

    /// <summary>Mean cosine of scattering.</summary>
    public double Anisotropy { get; }

    /// <inheritdoc/>
    public ReflectanceSpectrum Reflectance(LayerStack stack, MeasurementGeometry geometry)
    {
        Guard.NotNull(stack);
        Guard.Defined(geometry);
        double[] values = new double[stack.Grid.Count];
        Dictionary<string, TransportSolver> solvers = [];
        for (int i = 0; i < values.Length; i++)
        {
            values[i] = ReflectanceAt(stack, geometry, i, solvers);
        }

        return new ReflectanceSpectrum(stack.Grid, values);
    }

    /// <summary>Largest change of a reflectance when twice as many directions are used: an estimate of this model's own error.</summary>
    /// <param name="stack">The stack.</param>
    /// <param name="geometry">Measurement geometry.</param>
    public double ErrorEstimate(LayerStack stack, MeasurementGeometry geometry)
    {
        ReflectanceSpectrum coarse = Reflectance(stack, geometry), fine = new TransportModel(Math.Min(128, 2 * Streams), Anisotropy).Reflectance(stack, geometry);
        double largest = 0;
        for (int i = 0; i < coarse.Grid.Count; i++)
        {
            largest = Math.Max(largest, Math.Abs(coarse[i] - fine[i]));
        }

        return largest;
    }

    private double ReflectanceAt(LayerStack stack, MeasurementGeometry geometry, int wavelength, Dictionary<string, TransportSolver> solvers)
    {
        double nm = stack.Grid[wavelength];
        double[] indices = [.. stack.Layers.Select(layer => layer.Material.RefractiveIndex.At(nm))];
        double lowest = stack.Coupling?.RefractiveIndex.At(nm) ?? indices[indices.Length - 1];
        (double bodyIndex, double body) = stack.Substrate.BodyUnder(lowest, wavelength);

        // With constant indices, which is usual, all wavelengths share one solver with its directions and phase matrices.
        double[] media = [1, .. indices, lowest, bodyIndex];
        string key = string.Join(" ", media.Select(Guard.Text));
        if (!solvers.TryGetValue(key, out TransportSolver? solver))
        {
            solver = new TransportSolver(new DirectionGrid(media, Streams));
            solvers.Add(key, solver);
        }

        solver.SetLambertian(bodyIndex, body);
        solver.AddBoundary(lowest, bodyIndex);
        double below = lowest;
        for (int j = indices.Length - 1; j >= 0; j--)
        {
            Layer layer = stack.Layers[j];
            solver.AddBoundary(indices[j], below);
            solver.AddLayer(TransportLayer.FromTwoFlux(
                layer.Material.Absorption[wavelength], layer.Material.Scattering[wavelength], Anisotropy, layer.ThicknessMm, indices[j]));
            below = indices[j];
        }

        if (geometry == MeasurementGeometry.Internal)
        {
            return solver.Diffuse(below).Reflectance;
        }

        solver.AddBoundary(1, below);
        return geometry switch
        {
            MeasurementGeometry.DiffuseDiffuse => solver.Diffuse(1).Reflectance,
            MeasurementGeometry.FortyFiveZero => solver.RadianceFactor(1, 45, 0),
            MeasurementGeometry.ZeroFortyFive => solver.RadianceFactor(1, 0, 45),
            MeasurementGeometry.DiffuseSpecularIncluded => solver.DiffuseRadianceFactor(1, 8),
            _ => solver.DiffuseRadianceFactor(1, 8) - Boundary.Fresnel(1, below, 8),
        };
    }
}
