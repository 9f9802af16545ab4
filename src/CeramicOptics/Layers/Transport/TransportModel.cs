using CeramicOptics.Layers.Lateral;

namespace CeramicOptics.Layers.Transport;

/// <summary>
/// Exact radiative transfer for stacks of layers, solved by eigenmodes (equivalent to adding-doubling).
/// </summary>
/// <remarks>
/// K and S of a material have the meaning that they have where two-flux theory is exact: absorption K/2 and reduced
/// scattering (4 S + K/2)/3. Substrates are Lambertian inside their own medium. Media whose indices differ by less than
/// 1e-6 count as one. Immutable and safe to share.
/// </remarks>
public sealed class TransportModel : Formattable, IOpticalModel
{
    private const double Rounding = 3e-8;
    private const int CoarseStreams = 12;

    private static readonly OwnErrorLaw Law = new()
    {
        Floor = 0.005, Clear = 0.035, ThinnestDisc = 0.8,
        Thin = 0.283, ThinPower = 0.777, ThinFall = 1.089, ThinIndex = 0.246,
        Thick = 0.249, ThickReach = 0.353, ThickFall = 1.985, ThickIndex = 1.134,
        Axes = new OwnError(1.41, 0.35, 0.9, 0.64, 5),
    };

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
    internal int Streams { get; }

    /// <summary>Mean cosine of scattering.</summary>
    public double Anisotropy { get; }

    string IOpticalModel.Name => ToString();

    /// <summary>The model with default directions and isotropic scattering.</summary>
    public static TransportModel Default { get; } = new();

    bool IOpticalModel.IsSameTheoryAs(IOpticalModel other) =>
        other is TransportModel transport && transport.Anisotropy == Anisotropy;

    /// <summary>
    /// An upper estimate of this model's own error: three times the largest change with other numbers of directions.
    /// </summary>
    /// <param name="stack">The stack.</param>
    /// <param name="geometry">Measurement geometry.</param>
    /// <remarks>
    /// Two other numbers, since one change can be small by chance: half as many more and twice as many, above 64
    /// streams three quarters and half. Rounding, about 1e-8, is included.
    /// </remarks>
    public double ErrorEstimate(LayerStack stack, MeasurementGeometry geometry)
    {
        int[] others = Streams <= 64 ? [Streams * 3 / 2, Streams * 2] : [Streams * 3 / 4, Streams / 2];
        double[] own = Guard.NotNull(stack).Reflectances(this, geometry);
        double largest = 0;
        foreach (int streams in others)
        {
            double[] other = stack.Reflectances(new TransportModel(streams, Anisotropy), geometry);
            for (int i = 0; i < own.Length; i++)
            {
                largest = Math.Max(largest, Math.Abs(own[i] - other[i]));
            }
        }

        return (3 * largest) + Rounding;
    }

    private protected override string InWords(Language language) => language.Text("TransportModel", Anisotropy);

    OwnErrorLaw IOpticalModel.OwnError => Law;

    IOpticalModel IOpticalModel.Coarse =>
        Streams <= CoarseStreams ? this : new TransportModel(CoarseStreams, Anisotropy);

    StackSampler IOpticalModel.SamplerFor(LayerStack stack, MeasurementGeometry geometry) =>
        new TransportSampler(stack, geometry, this);

    LateralSampler IOpticalModel.LateralSamplerFor(LayerStack stack, MeasurementGeometry geometry) =>
        new TransportLateralSampler(stack, geometry, this);
}
