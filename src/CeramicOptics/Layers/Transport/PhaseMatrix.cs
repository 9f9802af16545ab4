namespace CeramicOptics.Layers.Transport;

/// <summary>
/// Henyey-Greenstein scattering between the directions of a medium, averaged over azimuth, with the forward peak taken
/// out.
/// </summary>
/// <remarks>
/// h(μ, μ') = sum (2 l + 1) χ_l P_l(μ) P_l(μ'), with the delta-M moments χ_l = (g^l - g^M)/(1 - g^M), l below M
/// (Wiscombe 1977, J. Atmos. Sci. 34:1408). The matrices are scaled, symmetrically, until each direction scatters
/// exactly all of its light (½ Σ w (h+ + h-) = 1).
/// </remarks>
internal sealed class PhaseMatrix
{
    private const int BalanceIterations = 30;

    public PhaseMatrix(double anisotropy, double[] cosines, double[] weights)
    {
        // Directions of instruments integrate nothing.
        int n = cosines.Length, moments = Math.Max(2, weights.Count(DirectionGrid.Integrates));
        double peak = Math.Pow(anisotropy, moments);
        ForwardPeak = anisotropy == 0 ? 0 : peak;
        Forward = new double[n, n];
        Backward = new double[n, n];
        double[,] legendre = Legendre(cosines, moments);
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                double even = 0, odd = 0;
                for (int l = 0; l < (anisotropy == 0 ? 1 : moments); l++)
                {
                    double chi = (Math.Pow(anisotropy, l) - ForwardPeak) / (1 - ForwardPeak);
                    double term = ((2 * l) + 1) * chi * legendre[l, i] * legendre[l, j];
                    (even, odd) = l % 2 == 0 ? (even + term, odd) : (even, odd + term);
                }

                Forward[i, j] = even + odd;
                Backward[i, j] = even - odd;
            }
        }

        Balance(cosines, weights);
    }

    /// <summary>Share of the scattered light that goes straight on and counts as not scattered.</summary>
    public double ForwardPeak { get; }

    /// <summary>h from direction j to direction i of the same hemisphere.</summary>
    public double[,] Forward { get; }

    /// <summary>h from direction j to direction i of the other hemisphere.</summary>
    public double[,] Backward { get; }

    private void Balance(double[] cosines, double[] weights)
    {
        int n = cosines.Length;
        double[] scale = new double[n];
        for (int iteration = 0; iteration < BalanceIterations; iteration++)
        {
            for (int j = 0; j < n; j++)
            {
                double sum = 0;
                for (int i = 0; i < n; i++)
                {
                    sum += weights[i] * (Forward[i, j] + Backward[i, j]) / 2;
                }

                scale[j] = 1 / Math.Sqrt(sum);
            }

            for (int i = 0; i < n; i++)
            {
                for (int j = 0; j < n; j++)
                {
                    Forward[i, j] *= scale[i] * scale[j];
                    Backward[i, j] *= scale[i] * scale[j];
                }
            }
        }
    }

    private static double[,] Legendre(double[] cosines, int moments)
    {
        double[,] p = new double[moments, cosines.Length];
        for (int i = 0; i < cosines.Length; i++)
        {
            p[0, i] = 1;
            p[1, i] = cosines[i];
            for (int l = 2; l < moments; l++)
            {
                p[l, i] = ((((2 * l) - 1) * cosines[i] * p[l - 1, i]) - ((l - 1) * p[l - 2, i])) / l;
            }
        }

        return p;
    }
}
