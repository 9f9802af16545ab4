namespace CeramicOptics.Layers.Transport;

/// <summary>
/// The directions of one medium: cosines, falling, and weights of the integral over the cosine, 0 to 1.
/// </summary>
internal sealed class MediumDirections(double[] cosines, double[] weights)
{
    private readonly Dictionary<double, PhaseMatrix> _phases = [];

    public int Count => Cosines.Length;

    public double[] Cosines { get; } = cosines;

    public double[] Weights { get; } = weights;

    /// <summary>Scattering between the directions, made once for each anisotropy.</summary>
    public PhaseMatrix Phase(double anisotropy)
    {
        if (!_phases.TryGetValue(anisotropy, out PhaseMatrix? phase))
        {
            phase = new PhaseMatrix(anisotropy, Cosines, Weights);
            _phases.Add(anisotropy, phase);
        }

        return phase;
    }
}
