using CeramicOptics.Layers.Transport;

namespace CeramicOptics.Layers.Lateral;

/// <summary>
/// Henyey-Greenstein scattering between directions for each azimuthal order, with the forward peak taken out.
/// </summary>
/// <remarks>
/// h_m(μ, μ') = sum over l from m of (2 l + 1) χ_l Λ_l^m(μ) Λ_l^m(μ'), with Λ_l^m = sqrt((l - m)! / (l + m)!) P_l^m and
/// χ_l as in <see cref="PhaseMatrix"/>, which gives order 0. Λ has the parity of l + m, so terms even and odd in it
/// stand apart.
/// </remarks>
internal sealed class LateralPhase
{
    private readonly double[][,] _even, _odd;

    public LateralPhase(double anisotropy, MediumDirections medium, int orders)
    {
        PhaseMatrix zero = medium.Phase(anisotropy);
        ForwardPeak = zero.ForwardPeak;
        int n = medium.Count, moments = medium.Weights.Count(DirectionGrid.Integrates);
        (_even, _odd) = (new double[orders][,], new double[orders][,]);
        for (int m = 0; m < orders; m++)
        {
            (_even[m], _odd[m]) = (new double[n, n], new double[n, n]);
            double[,] legendre = Legendre(medium.Cosines, m, moments);
            for (int i = 0; i < n; i++)
            {
                for (int j = 0; j < n; j++)
                {
                    if (m == 0)
                    {
                        _even[m][i, j] = zero.Forward[i, j] + zero.Backward[i, j];
                        _odd[m][i, j] = zero.Forward[i, j] - zero.Backward[i, j];
                    }

                    for (int l = m; m > 0 && anisotropy > 0 && l < moments; l++)
                    {
                        double chi = (Math.Pow(anisotropy, l) - ForwardPeak) / (1 - ForwardPeak);
                        double term = 2 * ((2 * l) + 1) * chi * legendre[l, i] * legendre[l, j];
                        ((l - m) % 2 == 0 ? _even : _odd)[m][i, j] += term;
                    }
                }
            }
        }
    }

    public double ForwardPeak { get; }

    /// <summary>Forward plus backward.</summary>
    public double Even(int order, int i, int j) => _even[order][i, j];

    /// <summary>Forward less backward.</summary>
    public double Odd(int order, int i, int j) => _odd[order][i, j];

    // Upwards in l from Λ_m^m = sqrt((2 m)!) / (2^m m!) sin^m θ: sqrt(l² - m²) Λ_l = (2 l - 1) μ Λ_l-1 - sqrt((l - 1)²
    // - m²) Λ_l-2.
    private static double[,] Legendre(double[] cosines, int m, int moments)
    {
        double[,] legendre = new double[Math.Max(moments, m + 1), cosines.Length];
        for (int i = 0; i < cosines.Length; i++)
        {
            double start = 1, sine = Math.Sqrt(1 - (cosines[i] * cosines[i]));
            for (int step = 1; step <= m; step++)
            {
                start *= sine * Math.Sqrt(((2.0 * step) - 1) / (2 * step));
            }

            legendre[m, i] = start;
            for (int l = m + 1; l < moments; l++)
            {
                double before = l - 2 >= m ? legendre[l - 2, i] * Math.Sqrt(((l - 1) * (l - 1)) - (m * m)) : 0;
                double last = ((2 * l) - 1) * cosines[i] * legendre[l - 1, i];
                legendre[l, i] = (last - before) / Math.Sqrt((l * l) - (m * m));
            }
        }

        return legendre;
    }
}
