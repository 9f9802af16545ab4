namespace CeramicOptics.Tests.Reference;

/// <summary>A cement, alike at all wavelengths, with forward scattering of which the library is not told.</summary>
/// <param name="AbsorptionPerMm">Absorption.</param>
/// <param name="ReducedPerMm">Reduced scattering.</param>
internal sealed record SimulatedCement(double AbsorptionPerMm, double ReducedPerMm)
{
    private static readonly PhaseMixture Phase = new(0.8, 0, 0, 0.2);

    public static SimulatedCement Translucent { get; } = new(0.03, 0.98);

    public static SimulatedCement Opaque { get; } = new(0.05, 8);

    public PlaneSolver.Slab Layer(PlaneSolver solver, double mm)
    {
        double[] moments = Phase.Moments(12);
        return solver.Layer(
            SimulatedBench.CementIndex, AbsorptionPerMm, ReducedPerMm / (1 - moments[1]), moments, mm);
    }

    /// <summary>
    /// The same as the library is told, in K and S (absorption K/2, reduced scattering (4 S + K/2)/3).
    /// </summary>
    public Material ToMaterial(IOpticalModel model, CoefficientUncertainty? uncertainty = null) => new(
        "cement", model, AbsorptionSpectrum.Uniform(SimulatedCeramic.Grid, 2 * AbsorptionPerMm),
        ScatteringSpectrum.Uniform(SimulatedCeramic.Grid, ((3 * ReducedPerMm) - AbsorptionPerMm) / 4),
        SimulatedBench.CementIndex, uncertainty);
}
