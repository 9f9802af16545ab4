namespace CeramicOptics.Tests.Reference;

/// <summary>
/// Radiative transfer through plane layers by doubling and adding, for any phase function and for faces that throw a
/// share of the light diffusely. Shares no formula with the library but the constants of nature: directions are nodes
/// of n sin θ that all media have in common, so that Snell's law is the identity, light is radiance over n² times the
/// root of the node's étendue, so that every operator is symmetric, and a thin layer is one implicit midpoint step.
/// </summary>
internal sealed class PlaneSolver
{
    private const double Step = 0.03, InstrumentWeight = 1e-9;

    private readonly double[] _sine, _etendue;
    private readonly int _n, _seen;

    /// <param name="indices">Indices of all media that will be used, beside air.</param>
    /// <param name="nodes">Directions that leave into air; the others follow in proportion.</param>
    /// <param name="degrees">Direction of the instrument in air.</param>
    public PlaneSolver(IEnumerable<double> indices, int nodes = 9, double degrees = 8)
    {
        double[] ends = [0, 1, .. indices.Where(index => index > 1).Distinct().Order()];
        List<double> sine = [], etendue = [];
        for (int j = 1; j < ends.Length; j++)
        {
            double from = ends[j - 1] * ends[j - 1], to = ends[j] * ends[j];
            int count = j == 1 ? nodes : Math.Max(2, (int)Math.Round(nodes * Math.Min(1, (to - from) / 1.3)));
            foreach ((double at, double weight) in Gauss(count))
            {
                // Nodes gather at both ends, where cosines have roots.
                double square = from + ((to - from) * at * at * (3 - (2 * at)));
                sine.Add(Math.Sqrt(square));
                etendue.Add((to - from) * 6 * at * (1 - at) * weight);
            }
        }

        _seen = sine.Count;
        sine.Add(Math.Sin(degrees * Math.PI / 180));
        etendue.Add(InstrumentWeight);
        (_sine, _etendue, _n) = ([.. sine], [.. etendue], sine.Count);
    }

    /// <summary>Reflected and transmitted light of a homogeneous layer without its faces.</summary>
    public sealed record Slab(double[] R, double[] T);

    /// <summary>A layer.</summary>
    /// <param name="index">Its refractive index, one of the solver's.</param>
    /// <param name="absorption">Absorption, 1/mm.</param>
    /// <param name="scattering">Scattering, 1/mm.</param>
    /// <param name="moments">Legendre moments of the phase function; the first is 1, the last is cut off as a forward
    /// peak.</param>
    /// <param name="mm">Thickness.</param>
    public Slab Layer(double index, double absorption, double scattering, double[] moments, double mm)
    {
        double peak = moments[^1], rest = scattering * (1 - peak), extinction = absorption + rest;
        double[] mu = Cosines(index);
        (double[] forward, double[] backward) = Scattering(index, mu, rest, moments);
        int doublings = Math.Max(0, (int)Math.Ceiling(Math.Log2(extinction * mm / Step)));
        double h = mm / Math.Pow(2, doublings);

        // Light of both faces equal (+) and opposite (-): (2 + h P) out = (2 - h P) in, P = extinction/μ - forward ∓
        // backward.
        double[] even = HalfStep(forward, backward, mu, extinction, h, 1);
        double[] odd = HalfStep(forward, backward, mu, extinction, h, -1);
        double[] r = new double[_n * _n], t = new double[_n * _n];
        for (int i = 0; i < r.Length; i++)
        {
            (r[i], t[i]) = ((even[i] - odd[i]) / 2, (even[i] + odd[i]) / 2);
        }

        for (int i = 0; i < doublings; i++)
        {
            double[] x = PlaneMatrix.SolveOneMinus(PlaneMatrix.Product(r, r, _n), t, _n);
            double[] back = PlaneMatrix.Product(t, PlaneMatrix.Product(r, x, _n), _n);
            (r, t) = (PlaneMatrix.Sum(r, back), PlaneMatrix.Product(t, x, _n));
        }

        return new Slab(r, t);
    }

    /// <summary>A Lambertian body seen from just above it, in its own medium.</summary>
    public double[] Body(double index, double reflectance)
    {
        double[] r = new double[_n * _n];
        for (int k = 0; k < _n; k++)
        {
            for (int l = 0; l < _n; l++)
            {
                r[(k * _n) + l] = _sine[k] < index && _sine[l] < index
                    ? reflectance * Math.Sqrt(_etendue[k] * _etendue[l]) / (index * index)
                    : 0;
            }
        }

        return r;
    }

    /// <summary>What lies below, seen through a layer.</summary>
    public double[] Under(Slab slab, double[] below) => Add(slab.R, slab.R, slab.T, below);

    /// <summary>What lies below, seen through a face.</summary>
    /// <param name="above">Index above.</param>
    /// <param name="under">Index below.</param>
    /// <param name="diffuse">Share of the light of each direction that is reflected and refracted diffusely.</param>
    /// <param name="below">What lies below.</param>
    public double[] Under(double above, double under, double diffuse, double[] below)
    {
        double[] upper = new double[_n], lower = new double[_n], through = new double[_n];
        for (int k = 0; k < _n; k++)
        {
            double f = Fresnel(above, under, _sine[k]);
            (upper[k], lower[k], through[k]) = (
                _sine[k] < above ? f : 0, _sine[k] < under ? f : 0,
                _sine[k] < Math.Min(above, under) ? 1 - f : 0);
        }

        return Add(Face(upper, diffuse), Face(lower, diffuse), Face(through, diffuse), below);
    }

    /// <summary>Reflectance factor in the direction of the instrument, lit diffusely from air.</summary>
    public double Reading(double[] all)
    {
        double sum = 0;
        for (int l = 0; l < _n; l++)
        {
            sum += _sine[l] < 1 ? all[(_seen * _n) + l] * Math.Sqrt(_etendue[l]) : 0;
        }

        return sum / Math.Sqrt(InstrumentWeight);
    }

    private double[] Add(double[] r, double[] fromBelow, double[] t, double[] below)
    {
        double[] x = PlaneMatrix.SolveOneMinus(
            PlaneMatrix.Product(below, fromBelow, _n), PlaneMatrix.Product(below, t, _n), _n);
        return PlaneMatrix.Sum(r, PlaneMatrix.Product(t, x, _n));
    }

    // Energies stay those of each direction; the diffuse part goes where diffuse light of the same energies would.
    private double[] Face(double[] energy, double diffuse)
    {
        double[] face = new double[_n * _n];
        double sum = energy.Zip(_etendue, (e, a) => e * a).Sum();
        for (int k = 0; k < _n; k++)
        {
            face[k * (_n + 1)] = (1 - diffuse) * energy[k];
            for (int l = 0; l < _n && diffuse > 0 && sum > 0; l++)
            {
                face[(k * _n) + l] += diffuse * energy[k] * energy[l] * Math.Sqrt(_etendue[k] * _etendue[l]) / sum;
            }
        }

        return face;
    }

    private double[] HalfStep(
        double[] forward, double[] backward, double[] mu, double extinction, double h, double sign)
    {
        double[] left = new double[_n * _n], right = new double[_n * _n];
        for (int k = 0; k < _n; k++)
        {
            for (int l = 0; l < _n; l++)
            {
                int at = (k * _n) + l;
                double p = -h * (forward[at] + (sign * backward[at]));
                p += k == l && mu[k] > 0 ? h * extinction / mu[k] : 0;
                (left[at], right[at]) = ((k == l ? 2 : 0) + p, (k == l ? 2 : 0) - p);
            }
        }

        double[] half = PlaneMatrix.Solve(left, right, _n);
        for (int k = 0; k < _n; k++)
        {
            half[k * (_n + 1)] = mu[k] > 0 ? half[k * (_n + 1)] : 0;
        }

        return half;
    }

    // Rates of scattering between nodes, without the peak; light is neither lost nor won.
    private (double[] Forward, double[] Backward) Scattering(double index, double[] mu, double rest, double[] moments)
    {
        int last = moments.Length - 1;
        double peak = moments[last];
        double[] forward = new double[_n * _n], backward = new double[_n * _n];
        double[][] polynomials = [.. mu.Select(cosine => Legendre(cosine, last))];
        for (int k = 0; k < _n; k++)
        {
            for (int l = 0; l < _n && mu[k] > 0; l++)
            {
                if (mu[l] == 0)
                {
                    continue;
                }

                double ahead = 0, back = 0;
                for (int m = 0; m < last; m++)
                {
                    double term = ((2 * m) + 1) * (moments[m] - peak) / (1 - peak) * polynomials[k][m]
                        * polynomials[l][m];
                    (ahead, back) = (ahead + term, back + (m % 2 == 0 ? term : -term));
                }

                double scale = rest * Math.Sqrt(_etendue[k] * _etendue[l]) / (4 * index * index * mu[k] * mu[l]);
                (forward[(k * _n) + l], backward[(k * _n) + l]) = (scale * ahead, scale * back);
            }
        }

        for (int l = 0; l < _n; l++)
        {
            double sum = 0;
            for (int k = 0; k < _n; k++)
            {
                sum += (forward[(k * _n) + l] + backward[(k * _n) + l]) * Math.Sqrt(_etendue[k] / _etendue[l]);
            }

            forward[l * (_n + 1)] += mu[l] > 0 ? (rest / mu[l]) - sum : 0;
        }

        return (forward, backward);
    }

    private double[] Cosines(double index) =>
        [.. _sine.Select(sine => sine < index ? Math.Sqrt(1 - (sine * sine / index / index)) : 0)];

    private static double Fresnel(double above, double under, double sine)
    {
        if (sine >= above || sine >= under)
        {
            return 1;
        }

        double c1 = Math.Sqrt((above * above) - (sine * sine)) / above;
        double c2 = Math.Sqrt((under * under) - (sine * sine)) / under;
        double s = ((above * c1) - (under * c2)) / ((above * c1) + (under * c2));
        double p = ((under * c1) - (above * c2)) / ((under * c1) + (above * c2));
        return ((s * s) + (p * p)) / 2;
    }

    private static double[] Legendre(double x, int count)
    {
        double[] p = new double[Math.Max(2, count)];
        (p[0], p[1]) = (1, x);
        for (int m = 2; m < count; m++)
        {
            p[m] = ((((2 * m) - 1) * x * p[m - 1]) - ((m - 1) * p[m - 2])) / m;
        }

        return p;
    }

    // Gauss-Legendre nodes and weights on 0 to 1, by Newton's method.
    private static IEnumerable<(double At, double Weight)> Gauss(int count)
    {
        for (int i = 0; i < count; i++)
        {
            double x = Math.Cos(Math.PI * (i + 0.75) / (count + 0.5)), slope = 0;
            for (int turn = 0; turn < 50; turn++)
            {
                double[] p = Legendre(x, count + 1);
                slope = count * ((x * p[count]) - p[count - 1]) / ((x * x) - 1);
                x -= p[count] / slope;
            }

            yield return ((1 - x) / 2, 1 / ((1 - (x * x)) * slope * slope));
        }
    }
}
