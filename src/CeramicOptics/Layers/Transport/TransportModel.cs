using CeramicOptics.Layers.Lateral;

namespace CeramicOptics.Layers.Transport;

/// <summary>Exact radiative transfer (adding-doubling in effect, solved by eigenmodes) for stacks of layers.</summary>
/// <remarks>
/// K and S of a material are taken as what they are where two-flux theory is exact (<see cref="TransportLayer.FromTwoFlux"/>): absorption
/// K/2 and reduced scattering (4 S + K/2)/3. Substrates are Lambertian inside their own medium. Immutable and safe to share.
/// </remarks>
public sealed class TransportModel : IOpticalModel
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

    /// <summary>For example "radiative transfer (g = 0)".</summary>
    public string Name => $"radiative transfer (g = {Guard.Text(Anisotropy)})";

    /// <summary>0.15: from 0.2 CIEDE2000 on average in the simulated instrument of docs/validation.md.</summary>
    public double ColorStandardUncertainty => 0.15;

    /// <summary>The model with default directions and isotropic scattering.</summary>
    public static TransportModel Default { get; } = new();

    /// <inheritdoc/>
    public bool IsSameTheoryAs(IOpticalModel other) => other is TransportModel transport && transport.Anisotropy == Anisotropy;

    /// <summary>Largest change of a reflectance when twice as many directions are used (half as many, above 64): an estimate of this model's own error.</summary>
    /// <param name="stack">The stack.</param>
    /// <param name="geometry">Measurement geometry.</param>
    public double ErrorEstimate(LayerStack stack, MeasurementGeometry geometry)
    {
        TransportModel other = new(Streams <= 64 ? 2 * Streams : Streams / 2, Anisotropy);
        double[] own = Reflectances(Guard.NotNull(stack), geometry), others = other.Reflectances(stack, geometry);
        double largest = 0;
        for (int i = 0; i < own.Length; i++)
        {
            largest = Math.Max(largest, Math.Abs(own[i] - others[i]));
        }

        return largest;
    }

    /// <inheritdoc/>
    public override string ToString() => Name;

    StackSampler IOpticalModel.SamplerFor(LayerStack stack, MeasurementGeometry geometry) => new TransportSampler(stack, geometry, this);

    LateralSampler IOpticalModel.LateralSamplerFor(LayerStack stack, MeasurementGeometry geometry) => new TransportLateralSampler(stack, geometry, this);

    private double[] Reflectances(LayerStack stack, MeasurementGeometry geometry)
    {
        TransportSampler sampler = new(stack, Guard.Defined(geometry), this);
        double[] layersMm = [.. stack.Layers.Select(layer => layer.ThicknessMm)];
        return [.. Enumerable.Range(0, stack.Grid.Count).Select(i => sampler.At(i, layersMm).Over(stack.Substrate.InternalReflectanceAt(i)))];
    }
}
