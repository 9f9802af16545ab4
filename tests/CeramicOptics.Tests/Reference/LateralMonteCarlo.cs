using CeramicOptics.Layers.Transport;

namespace CeramicOptics.Tests.Reference;

/// <summary>
/// Photon packets with positions through plane layers: exponential free paths between scatterings, absorption as a
/// weight along the path, Henyey-Greenstein scattering, Fresnel boundaries, Russian roulette. Air above; below the last
/// layer a Lambertian body whose reflectance may depend on the distance from the axis. Shares no formula with the
/// engine but the optical constants.
/// </summary>
/// <param name="layers">From the surface down; a film is a very thin layer without absorption and scattering.</param>
/// <param name="bodyIndex">Index of the medium in which the body has its reflectance.</param>
/// <param name="body">Reflectance of the body at a distance from the axis, mm.</param>
/// <param name="seed">Equal seeds give equal results.</param>
internal sealed class LateralMonteCarlo(
    IReadOnlyList<TransportLayer> layers, double bodyIndex, Func<double, double> body, ulong seed)
{
    private const int Batches = 40;
    private const double RouletteWeight = 0.05, FarthestMm = 200;

    private ulong _state = seed;
    private double _relative;

    /// <summary>What the side of a finite disc does to light.</summary>
    public enum Rim
    {
        Absorbing,

        /// <summary>A smooth mirror.</summary>
        Mirror,

        /// <summary>Polished, with air around.</summary>
        Polished,
    }

    /// <summary>Radius of the disc; the body below is as wide.</summary>
    public double DiscRadiusMm { get; init; } = double.PositiveInfinity;

    /// <summary>Its side.</summary>
    public Rim Side { get; init; }

    /// <summary>
    /// Cosine of a scattering angle, given a source of uniform numbers, in all layers; Henyey and Greenstein's when
    /// null.
    /// </summary>
    public Func<Func<double>, double>? Phase { get; init; }

    /// <summary>
    /// Reflectance of another body as a share of this one's, at a distance from the axis; 1 when null.
    /// </summary>
    public Func<double, double>? Other { get; init; }

    /// <summary>
    /// A pencil of light on the axis, at an angle; returns where the light comes out. The reading of a spot and a
    /// window over a specimen that is the same everywhere follows for any radii from this one run (<see
    /// cref="RadialShares.Reading"/>). By reciprocity light at 8 degrees with all light collected is di:8°.
    /// </summary>
    /// <param name="photons">Number of packets.</param>
    /// <param name="degrees">Angle in air.</param>
    /// <param name="seen">
    /// Range of the cosine in air of the light that is counted, as a radiance factor; all when null.
    /// </param>
    public RadialShares Pencil(int photons, double degrees, (double From, double To)? seen = null)
    {
        RadialShares shares = new(Batches, photons / Batches);
        double scale = seen is { } range ? 1 / ((range.To * range.To) - (range.From * range.From)) : 1;
        for (int batch = 0; batch < Batches; batch++)
        {
            for (int i = 0; i < photons / Batches; i++)
            {
                Trace(0, 0, degrees, (x, y, cosine, weight) =>
                {
                    if (seen is not { } cosines || (cosine >= cosines.From && cosine <= cosines.To))
                    {
                        shares.Add(batch, Math.Sqrt((x * x) + (y * y)), weight * scale);
                    }
                });
            }
        }

        return shares;
    }

    /// <summary>
    /// A uniform spot around the axis: share of its light that leaves within the window, as a reading of an instrument
    /// calibrated on a white that loses no light.
    /// </summary>
    public Estimate Spot(int photons, double degrees, double spotMm, double windowMm) => Estimate.FromBatches(
        Batches, () =>
    {
        double sum = 0;
        for (int i = 0; i < photons / Batches; i++)
        {
            double r = spotMm * Math.Sqrt(Uniform()), azimuth = 2 * Math.PI * Uniform();
            Trace(r * Math.Cos(azimuth), r * Math.Sin(azimuth), degrees, (x, y, _, weight) =>
                sum += (x * x) + (y * y) <= windowMm * windowMm ? weight : 0);
        }

        return sum / (photons / Batches) / Math.Min(1, windowMm * windowMm / (spotMm * spotMm));
    });

    /// <summary>
    /// Reflectance factor seen under an angle at a distance from the axis, everything lit diffusely: by reciprocity all
    /// that comes out of a pencil there.
    /// </summary>
    public Estimate At(int photons, double degrees, double distanceMm) => Estimate.FromBatches(Batches, () =>
    {
        double sum = 0;
        for (int i = 0; i < photons / Batches; i++)
        {
            Trace(distanceMm, 0, degrees, (_, _, _, weight) => sum += weight);
        }

        return sum / (photons / Batches);
    });

    /// <summary>
    /// How much less is seen there over <see cref="Other"/>: the same paths weighed for both bodies, so that only light
    /// that met the difference scatters the answer.
    /// </summary>
    public Estimate Lowered(int photons, double degrees, double distanceMm) => Estimate.FromBatches(Batches, () =>
    {
        double sum = 0;
        for (int i = 0; i < photons / Batches; i++)
        {
            Trace(distanceMm, 0, degrees, (_, _, _, weight) => sum += weight * (1 - _relative));
        }

        return sum / (photons / Batches);
    });

    private void Trace(double x, double y, double degrees, Action<double, double, double, double> leaves)
    {
        double azimuth = 2 * Math.PI * Uniform(), sine = Math.Sin(degrees * Math.PI / 180) / layers[0].RefractiveIndex;
        double outside = Math.Cos(degrees * Math.PI / 180);
        double weight = 1 - Fresnel(1, layers[0].RefractiveIndex, outside, out double uz);
        double ux = sine * Math.Cos(azimuth), uy = sine * Math.Sin(azimuth), z = 0;
        _relative = 1;
        leaves(x, y, outside, 1 - weight);
        int at = 0;
        while (true)
        {
            if (at == layers.Count)
            {
                // On the body: Lambertian, from just above it in its own medium.
                double r = Math.Sqrt((x * x) + (y * y));
                weight *= body(r);
                _relative *= Other?.Invoke(r) ?? 1;
                double cosine = Math.Sqrt(1 - Uniform()), radial = Math.Sqrt(1 - (cosine * cosine));
                double turn = 2 * Math.PI * Uniform();
                (ux, uy, uz) = (radial * Math.Cos(turn), radial * Math.Sin(turn), -cosine);
                double back = Fresnel(bodyIndex, layers[at - 1].RefractiveIndex, cosine, out double refracted);
                if (Uniform() >= back)
                {
                    (ux, uy, uz) = Refracted(ux, uy, bodyIndex / layers[at - 1].RefractiveIndex, -refracted);
                    at--;
                    z = layers[at].ThicknessMm;
                }
            }
            else
            {
                TransportLayer layer = layers[at];
                double path = layer.ScatteringPerMm > 0
                    ? -Math.Log(1 - Uniform()) / layer.ScatteringPerMm
                    : double.PositiveInfinity;
                double toFace = uz > 0 ? (layer.ThicknessMm - z) / uz : uz < 0 ? -z / uz : double.PositiveInfinity;
                double toRim = ToRim(x, y, ux, uy);
                double step = Math.Min(path, Math.Min(toFace, toRim));
                weight *= Math.Exp(-layer.AbsorptionPerMm * step);
                (x, y, z) = (x + (ux * step), y + (uy * step), z + (uz * step));
                if (step == toRim)
                {
                    weight *= AtRim(layer.RefractiveIndex, ref x, ref y, ref ux, ref uy);
                }
                else if (path < toFace)
                {
                    Scatter(layer.Anisotropy, ref ux, ref uy, ref uz);
                }
                else if (uz < 0 && at == 0)
                {
                    double back = Fresnel(layer.RefractiveIndex, 1, -uz, out double cosine);
                    if (back < 1)
                    {
                        leaves(x, y, cosine, weight * (1 - back));
                    }

                    (weight, z, uz) = (weight * back, 0, -uz);
                }
                else
                {
                    Cross(ref at, ref z, ref ux, ref uy, ref uz);
                }
            }

            if (weight < RouletteWeight)
            {
                if (Uniform() * RouletteWeight >= weight)
                {
                    return;
                }

                weight = RouletteWeight;
            }

            if (Math.Abs(x) + Math.Abs(y) > FarthestMm)
            {
                return;
            }
        }
    }

    // Chance decides at an inner boundary. The body's medium counts as the layer after the last.
    private void Cross(ref int at, ref double z, ref double ux, ref double uy, ref double uz)
    {
        bool down = uz > 0;
        int to = down ? at + 1 : at - 1;
        double n1 = layers[at].RefractiveIndex, n2 = to == layers.Count ? bodyIndex : layers[to].RefractiveIndex;
        double back = Fresnel(n1, n2, Math.Abs(uz), out double refracted);
        if (back > 0 && Uniform() < back)
        {
            (z, uz) = (down ? layers[at].ThicknessMm : 0, -uz);
            return;
        }

        (ux, uy, uz) = Refracted(ux, uy, n1 / n2, down ? refracted : -refracted);
        at = to;
        z = down || at == layers.Count ? 0 : layers[at].ThicknessMm;
    }

    private double ToRim(double x, double y, double ux, double uy)
    {
        double a = (ux * ux) + (uy * uy);
        if (double.IsInfinity(DiscRadiusMm) || a == 0)
        {
            return double.PositiveInfinity;
        }

        double b = (x * ux) + (y * uy), c = Math.Min(0, (x * x) + (y * y) - (DiscRadiusMm * DiscRadiusMm));
        return (Math.Sqrt((b * b) - (a * c)) - b) / a;
    }

    // Share that stays; the direction turned round.
    private double AtRim(double index, ref double x, ref double y, ref double ux, ref double uy)
    {
        double r = Math.Sqrt((x * x) + (y * y)), nx = x / r, ny = y / r, outward = (ux * nx) + (uy * ny);
        (ux, uy) = (ux - (2 * outward * nx), uy - (2 * outward * ny));
        double inside = DiscRadiusMm * (1 - 1e-12);
        (x, y) = (nx * inside, ny * inside);
        return Side switch
        {
            Rim.Absorbing => 0,
            Rim.Mirror => 1,
            _ => Fresnel(index, 1, Math.Abs(outward), out _),
        };
    }

    private void Scatter(double g, ref double ux, ref double uy, ref double uz)
    {
        double cosine = Phase is null ? PhaseFunction.HenyeyGreenstein(g, Uniform()) : Phase(Uniform);
        double sine = Math.Sqrt(Math.Max(0, 1 - (cosine * cosine))), p, q, square;
        do
        {
            (p, q) = ((2 * Uniform()) - 1, (2 * Uniform()) - 1);
            square = (p * p) + (q * q);
        }
        while (square > 1 || square == 0);
        double scale = sine / Math.Sqrt(square), radial = Math.Sqrt((ux * ux) + (uy * uy));
        (p, q) = (p * scale, q * scale);
        (ux, uy, uz) = radial < 1e-7
            ? (p, q, uz > 0 ? cosine : -cosine)
            : ((cosine * ux) + (((p * ux * uz) - (q * uy)) / radial),
                (cosine * uy) + (((p * uy * uz) + (q * ux)) / radial),
                (cosine * uz) - (p * radial));
    }

    private static (double X, double Y, double Z) Refracted(double ux, double uy, double ratio, double uz) =>
        (ux * ratio, uy * ratio, uz);

    private static double Fresnel(double n1, double n2, double cosine, out double refracted)
    {
        double sine = n1 / n2 * Math.Sqrt(Math.Max(0, 1 - (cosine * cosine)));
        refracted = Math.Sqrt(Math.Max(0, 1 - (sine * sine)));
        if (n1 == n2)
        {
            return 0;
        }

        if (sine >= 1)
        {
            return 1;
        }

        double s = ((n1 * cosine) - (n2 * refracted)) / ((n1 * cosine) + (n2 * refracted));
        double p = ((n2 * cosine) - (n1 * refracted)) / ((n2 * cosine) + (n1 * refracted));
        return ((s * s) + (p * p)) / 2;
    }

    // SplitMix64 (Steele, Lea, Flood 2014): 0 included, 1 not.
    private double Uniform()
    {
        ulong z = _state += 0x9E3779B97F4A7C15;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return ((z ^ (z >> 31)) >> 11) * (1.0 / (1UL << 53));
    }
}
