namespace CeramicOptics.Layers.Transport;

/// <summary>One substance's own modes of light at one wavelength: they serve layers of every thickness.</summary>
/// <remarks>
/// With s and d as in <see cref="FluxNetwork"/> and depth τ in mean free paths, transfer reads s' = -P d, d' = -M s,
/// with the symmetric P = 1/μ - ω/2 (h+ - h-) and M = 1/μ - ω/2 (h+ + h-), each h scaled by the roots of w/μ on both
/// sides. With P = L L' and L' M L = Q Λ Q', s = L Q u and d = (L')^-1 Q v, every mode goes alone: u' = -v, v' = -Λ u.
/// Regular without absorption (λ = 0) and without scattering.
/// </remarks>
internal sealed class LayerModes
{
    // Below this albedo scattering is not seen in any digit.
    private const double SmallestAlbedo = 1e-18;

    private readonly MediumDirections _medium;
    private readonly double _anisotropy;
    private readonly SecularEquation? _secular;
    private readonly AnisotropicModes? _general;
    private readonly double[] _eigenvalues;
    private readonly double[,] _vectors;

    public LayerModes(MediumDirections medium, double anisotropy)
    {
        int n = medium.Count;
        (_medium, _anisotropy, _eigenvalues, _vectors) = (medium, anisotropy, new double[n], new double[n, n]);
        (Roots, Into, OutOf) = (
            new double[n], new ModeMatrix(n + TransportColumn.Ports), new ModeMatrix(n + TransportColumn.Ports));
        if (anisotropy == 0)
        {
            double sum = medium.Weights.Sum();
            _secular = new SecularEquation(
                Array.ConvertAll(medium.Cosines, cosine => 1 / (cosine * cosine)),
                Array.ConvertAll(medium.Weights, weight => weight / sum));
        }
        else
        {
            _general = new AnisotropicModes(medium, medium.Phase(anisotropy));
        }

        for (int port = 0; port < TransportColumn.Ports; port++)
        {
            (Into.Row(port)[port], OutOf.Row(port)[port]) = (1, 1);
        }
    }

    /// <summary>
    /// Mean free paths in 1 mm, forward peak not counted; 0 for a clear substance, which has no modes but its
    /// directions.
    /// </summary>
    public double ExtinctionPerMm { get; private set; }

    /// <summary>Roots of λ: each mode falls as exp(-root τ).</summary>
    public double[] Roots { get; }

    /// <summary>
    /// From directions to modes: u = (L Q)^-1 s, d = (L')^-1 Q v turn A into (L Q)' A (L Q); rows are modes, after the
    /// ports.
    /// </summary>
    public ModeMatrix Into { get; }

    /// <summary>And back: (L')^-1 Q; rows are directions.</summary>
    public ModeMatrix OutOf { get; }

    /// <summary>Takes the coefficients of a layer; its thickness does not matter.</summary>
    public void Set(TransportLayer layer)
    {
        double peak = _general is null ? 0 : _medium.Phase(_anisotropy).ForwardPeak;
        double scattering = layer.ScatteringPerMm * (1 - peak);
        ExtinctionPerMm = layer.AbsorptionPerMm + scattering;
        double albedo = ExtinctionPerMm == 0 ? 0 : scattering / ExtinctionPerMm;
        if (albedo < SmallestAlbedo)
        {
            SetWithoutScattering();
        }
        else if (_secular is not null)
        {
            _secular.Solve(albedo, layer.AbsorptionPerMm / ExtinctionPerMm, _eigenvalues, _vectors);
            SetIsotropic();
        }
        else
        {
            _general!.Solve(albedo, _eigenvalues, Into, OutOf);
        }

        for (int i = 0; i < Roots.Length; i++)
        {
            Roots[i] = Math.Sqrt(Math.Max(0, _eigenvalues[i]));
        }
    }

    private void SetWithoutScattering()
    {
        double[] cosines = _medium.Cosines;
        for (int i = 0; i < cosines.Length; i++)
        {
            _eigenvalues[i] = 1 / (cosines[i] * cosines[i]);
            for (int j = 0; j < cosines.Length; j++)
            {
                _vectors[i, j] = i == j ? 1 : 0;
            }
        }

        SetIsotropic();
    }

    private void SetIsotropic()
    {
        double[] cosines = _medium.Cosines;
        for (int i = 0; i < cosines.Length; i++)
        {
            double root = Math.Sqrt(cosines[i]);
            Span<double> outOf = OutOf.Row(TransportColumn.Ports + i).Slice(TransportColumn.Ports);
            for (int j = 0; j < cosines.Length; j++)
            {
                Into.Row(TransportColumn.Ports + j)[TransportColumn.Ports + i] = _vectors[j, i] / root;
                outOf[j] = _vectors[j, i] * root;
            }
        }
    }
}
