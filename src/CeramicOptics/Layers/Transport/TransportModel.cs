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
            TransportLayer[] layers = [.. stack.Layers.Select(layer => TransportLayer.FromTwoFlux(
                layer.Material.Absorption[i], layer.Material.Scattering[i], Anisotropy, layer.ThicknessMm, layer.Material.RefractiveIndex.At(stack.Grid[i])))];
            values[i] = ReflectanceAt(layers, stack.Substrate, stack.Coupling, stack.Grid[i], i, geometry, solvers);
        }

        return new ReflectanceSpectrum(stack.Grid, values);
    }

    /// <summary>Largest change of a reflectance when twice as many directions are used (half as many, above 64): an estimate of this model's own error.</summary>
    /// <param name="stack">The stack.</param>
    /// <param name="geometry">Measurement geometry.</param>
    public double ErrorEstimate(LayerStack stack, MeasurementGeometry geometry)
    {
        ReflectanceSpectrum own = Reflectance(stack, geometry), other = new TransportModel(Streams <= 64 ? 2 * Streams : Streams / 2, Anisotropy).Reflectance(stack, geometry);
        double largest = 0;
        for (int i = 0; i < own.Grid.Count; i++)
        {
            largest = Math.Max(largest, Math.Abs(own[i] - other[i]));
        }

        return largest;
    }

    /// <summary>Reflectance of layers on a substrate at one wavelength; solvers are kept by their media, since constant indices share one.</summary>
    internal double ReflectanceAt(
        IReadOnlyList<TransportLayer> layers, Substrate substrate, CouplingMedium? coupling, double wavelengthNm, int wavelength,
        MeasurementGeometry geometry, Dictionary<string, TransportSolver> solvers)
    {
        double lowest = coupling?.RefractiveIndex.At(wavelengthNm) ?? layers[layers.Count - 1].RefractiveIndex;
        (double bodyIndex, double body) = substrate.BodyUnder(lowest, wavelength);
        TransportSolver solver = SolverFor([1, .. layers.Select(layer => layer.RefractiveIndex), lowest, bodyIndex], solvers);
        solver.SetLambertian(bodyIndex, body);
        solver.AddBoundary(lowest, bodyIndex);
        double below = lowest;
        for (int j = layers.Count - 1; j >= 0; j--)
        {
            solver.AddBoundary(layers[j].RefractiveIndex, below);
            solver.AddLayer(layers[j]);
            below = layers[j].RefractiveIndex;
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

            // A black body leaves rounding of either sign here.
            _ => Math.Max(0, solver.DiffuseRadianceFactor(1, 8) - Boundary.Fresnel(1, below, 8)),
        };
    }

    /// <summary>Total transmittance of a free layer in air for light at normal incidence.</summary>
    internal double Transmittance(TransportLayer layer, Dictionary<string, TransportSolver> solvers)
    {
        TransportSolver solver = SolverFor([1, layer.RefractiveIndex], solvers);
        solver.SetOpen();
        solver.AddBoundary(layer.RefractiveIndex, 1);
        solver.AddLayer(layer);
        solver.AddBoundary(1, layer.RefractiveIndex);
        return solver.Collimated(0).Transmittance;
    }

    private TransportSolver SolverFor(double[] media, Dictionary<string, TransportSolver> solvers)
    {
        string key = string.Join(" ", media.Select(Guard.Text));
        if (!solvers.TryGetValue(key, out TransportSolver? solver))
        {
            solver = new TransportSolver(new DirectionGrid(media, Streams));
            solvers.Add(key, solver);
        }

        return solver;
    }
}
