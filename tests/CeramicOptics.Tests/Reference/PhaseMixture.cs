namespace CeramicOptics.Tests.Reference;

/// <summary>Two Henyey-Greenstein functions and an isotropic part.</summary>
/// <param name="Forward">Anisotropy of the forward lobe, which has the rest of the light.</param>
/// <param name="Backward">Anisotropy of the backward lobe.</param>
/// <param name="BackwardShare">Its share.</param>
/// <param name="IsotropicShare">Share of the isotropic part.</param>
internal sealed record PhaseMixture(double Forward, double Backward, double BackwardShare, double IsotropicShare)
{
    /// <summary>Legendre moments 0 to the last.</summary>
    public double[] Moments(int last) => [.. Enumerable.Range(0, last + 1).Select(m =>
        ((1 - BackwardShare - IsotropicShare) * Math.Pow(Forward, m)) + (BackwardShare * Math.Pow(Backward, m))
            + (m == 0 ? IsotropicShare : 0))];

    /// <summary>A cosine drawn from a source of uniform numbers.</summary>
    public double Draw(Func<double> uniform)
    {
        double which = uniform(), chance = uniform();
        return which < IsotropicShare ? (2 * chance) - 1 : PhaseFunction.HenyeyGreenstein(
            which < IsotropicShare + BackwardShare ? Backward : Forward, chance);
    }
}
