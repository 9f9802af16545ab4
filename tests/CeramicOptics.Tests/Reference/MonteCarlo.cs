using CeramicOptics.Layers.Transport;

namespace CeramicOptics.Tests.Reference;

/// <summary>
/// Photon by photon through plane layers: exponential free paths, Henyey-Greenstein scattering, Fresnel reflection
/// decided at random. Shares no formula with the solver but the optical constants. Lower medium open, or a Lambertian
/// body in the index of the lowest medium.
/// </summary>
internal sealed class MonteCarlo(
    IReadOnlyList<TransportLayer> layers, double upperIndex, double lowerIndex, double? body, int seed)
{
    private readonly Random _random = new(seed);

    /// <summary>
    /// Reflected and transmitted shares for Lambertian (or, with cosine given, collimated) light from above.
    /// </summary>
    public (double Reflected, double Transmitted) Run(int photons, double? cosine = null)
    {
        int reflected = 0, transmitted = 0;
        for (int i = 0; i < photons; i++)
        {
            int fate = Trace(cosine ?? Math.Sqrt(1 - _random.NextDouble()));
            reflected += fate == -1 ? 1 : 0;
            transmitted += fate == 1 ? 1 : 0;
        }

        return ((double)reflected / photons, (double)transmitted / photons);
    }

    // -1 out at the top, 1 out at the bottom, 0 absorbed. Layer -1 is above, layers.Count is below.
    private int Trace(double mu)
    {
        int at = -1;
        double depth = 0;
        bool down = true;
        if (!Cross(ref at, ref mu, ref down))
        {
            return -1;
        }

        while (true)
        {
            if (at < 0)
            {
                return -1;
            }

            if (at == layers.Count)
            {
                if (body is null)
                {
                    return 1;
                }

                if (_random.NextDouble() > body)
                {
                    return 0;
                }

                (mu, down) = (Math.Sqrt(1 - _random.NextDouble()), false);
                if (Cross(ref at, ref mu, ref down))
                {
                    depth = at >= 0 ? layers[at].ThicknessMm : 0;
                }

                continue;
            }

            TransportLayer layer = layers[at];
            double extinction = layer.AbsorptionPerMm + layer.ScatteringPerMm;
            double path = extinction == 0 ? double.PositiveInfinity : -Math.Log(1 - _random.NextDouble()) / extinction;
            double toBoundary = (down ? layer.ThicknessMm - depth : depth) / mu;
            if (path >= toBoundary)
            {
                depth = down ? layer.ThicknessMm : 0;
                if (Cross(ref at, ref mu, ref down))
                {
                    depth = down ? 0 : at >= 0 ? layers[at].ThicknessMm : 0;
                }

                continue;
            }

            depth += down ? path * mu : -path * mu;
            if (_random.NextDouble() * extinction < layer.AbsorptionPerMm)
            {
                return 0;
            }

            double signed = Scatter(down ? mu : -mu, layer.Anisotropy);
            (mu, down) = (Math.Abs(signed), signed > 0);
        }
    }

    private double Scatter(double mu, double g)
    {
        double lot = _random.NextDouble();
        double cosine = g == 0
            ? (2 * lot) - 1
            : (1 + (g * g) - Math.Pow((1 - (g * g)) / (1 - g + (2 * g * lot)), 2)) / (2 * g);
        double sine = Math.Sqrt(Math.Max(0, (1 - (cosine * cosine)) * (1 - (mu * mu))));
        double next = (mu * cosine) + (sine * Math.Cos(2 * Math.PI * _random.NextDouble()));
        return Math.Abs(next) < 1e-12 ? 1e-12 : next;
    }

    // Snell and Fresnel at the boundary in the direction of flight; false (and turned round) where reflected.
    private bool Cross(ref int at, ref double mu, ref bool down)
    {
        int to = down ? at + 1 : at - 1;
        double n1 = IndexOf(at), n2 = IndexOf(to), sine = n1 / n2 * Math.Sqrt(Math.Max(0, 1 - (mu * mu)));
        if (sine < 1)
        {
            double refracted = Math.Sqrt(1 - (sine * sine));
            double s = ((n1 * mu) - (n2 * refracted)) / ((n1 * mu) + (n2 * refracted)), p = (
                (n2 * mu) - (n1 * refracted)) / ((n2 * mu) + (n1 * refracted));
            if (_random.NextDouble() >= ((s * s) + (p * p)) / 2)
            {
                (at, mu) = (to, Math.Max(refracted, 1e-12));
                return true;
            }
        }

        down = !down;
        return false;
    }

    private double IndexOf(int layer) =>
        layer < 0 ? upperIndex : layer == layers.Count ? lowerIndex : layers[layer].RefractiveIndex;
}
