using CeramicOptics.Spectra;

namespace CeramicOptics.Layers.Transport;

/// <summary>
/// Exact radiative transfer for the same stacks: the judge of two-flux theory, and the model for thin or clear layers.
/// </summary>
/// <remarks>
/// K and S of a material are taken as what they are where two-flux theory is exact (<see
/// cref="TransportLayer.FromTwoFlux"/>): absorption K/2 and reduced scattering (4 S + K/2)/3. Substrates are Lambertian
/// inside their own medium. Immutable and safe to share.
/// </remarks>
public sealed class TransportModel : IReflectanceModel
{
    private const double Rounding = 3e-8;

    /// <summary>A model.</summary>
    /// <param name="streams">
    /// Directions in each hemisphere, 6 to 128; 24 give a reflectance to 1e-5 (K up to 0.5/mm, S 0.3 to 15/mm, index
    /// 1.33 to 2.2, 0.05 to 3 mm).
    /// </param>
    /// <param name="anisotropy">
    /// Mean cosine g of scattering in all layers, 0 to 0.95; only reduced scattering is known, and 0 is usual for it.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range or NaN.</exception>
    public TransportModel(int streams = 24, double anisotropy = 0)
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
        TransportSampler sampler = new(stack, geometry, this);
        double[] values = new double[stack.Grid.Count], thicknesses = [.. stack.Layers.Select(layer => layer.ThicknessMm)];
        for (int i = 0; i < values.Length; i++)
        {
            values[i] = sampler.At(i, thicknesses).Over(stack.Substrate.BodyUnder(1, i).Reflectance);
        }

        return new ReflectanceSpectrum(stack.Grid, values);
    }

    /// <summary>An upper estimate of this model's own error: three times the largest change with other numbers of directions.</summary>
    /// <param name="stack">The stack.</param>
    /// <param name="geometry">Measurement geometry.</param>
    /// <remarks>
    /// Two other numbers, since one change can be small by chance: half as many more and twice as many, above 64 streams three quarters and
    /// half. Rounding, about 1e-8, is included.
    /// </remarks>
    public double ErrorEstimate(LayerStack stack, MeasurementGeometry geometry)
    {
        int[] others = Streams <= 64 ? [Streams * 3 / 2, Streams * 2] : [Streams * 3 / 4, Streams / 2];
        ReflectanceSpectrum own = Reflectance(stack, geometry);
        double largest = 0;
        foreach (int streams in others)
        {
            ReflectanceSpectrum other = new TransportModel(streams, Anisotropy).Reflectance(stack, geometry);
            for (int i = 0; i < own.Grid.Count; i++)
            {
                largest = Math.Max(largest, Math.Abs(own[i] - other[i]));
            }
        }

        return (3 * largest) + Rounding;
    }
}
