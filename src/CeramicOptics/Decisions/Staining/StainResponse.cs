using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Staining;

/// <summary>
/// Reflectance of one zone with a stain layer, as a smooth function of the layer's K and S at each wavelength.
/// </summary>
/// <remarks>
/// K runs from the carrier's to that with the largest loads, S likewise. A layer of thickness t dies away as exp(-K t)
/// and saturates as S t / (1 + S t), so the sums of Chebyshev polynomials are in u = ln(1 + 4 t k) and v = ln(1 + 2 t
/// s), k and s counted from the carrier. Their degree is raised until the last coefficients bound the error of a
/// reflectance below 1e-5 of the coarse form of the theory, in which the search goes on. Immutable once made.
/// </remarks>
internal sealed class StainResponse
{
    private const int FirstDegree = 6, LastDegree = 24;
    private const double WantedError = 1e-5, PerAbsorption = 4, PerScattering = 2;

    private readonly StainLayer _layer;
    private readonly double[] _scaleK, _scaleS;

    // By wavelength, then the polynomial in v, then that in u.
    private readonly double[] _coefficients;

    private StainResponse(
        StainLayer layer, double[] scaleK, double[] scaleS, double[] coefficients, int degree, double bound)
    {
        (_layer, _scaleK, _scaleS, _coefficients) = (layer, scaleK, scaleS, coefficients);
        (Degree, ErrorBound) = (degree, bound);
    }

    public int Degree { get; }

    /// <summary>Bound on the error of a reflectance, from the decay of the coefficients.</summary>
    public double ErrorBound { get; }

    /// <summary>Samples stacks with the stain layer in place.</summary>
    /// <param name="stackWith">The stack of the zone with a stain layer.</param>
    /// <param name="layer">The layer.</param>
    /// <param name="mostK">Largest K that pigments add after firing, at each wavelength, 1/mm.</param>
    /// <param name="mostS">Largest S, likewise.</param>
    /// <param name="geometry">Measurement geometry.</param>
    /// <param name="cancellation">Stops the work between two stacks.</param>
    public static StainResponse Of(
        Func<Layer, LayerStack> stackWith, StainLayer layer, double[] mostK, double[] mostS,
        MeasurementGeometry geometry, CancellationToken cancellation)
    {
        double t = layer.FiredThicknessMm;
        double[] scaleK = Array.ConvertAll(mostK, k => ScaleOf(PerAbsorption * t * k)), scaleS =
            Array.ConvertAll(mostS, s => ScaleOf(PerScattering * t * s));
        Dictionary<(double, double), double[]> known = [];
        for (int degree = FirstDegree; ; degree *= 2)
        {
            Chebyshev axis = new(new ThicknessRange(0, 1), degree);
            int count = axis.Count, n = mostK.Length;
            double[] values = new double[count * count * n];
            for (int node = 0; node < count * count; node++)
            {
                double x = Math.Cos(Math.PI * (node % count) / degree), y = Math.Cos(Math.PI * (node / count) / degree);
                if (!known.TryGetValue((x, y), out double[]? spectrum))
                {
                    cancellation.ThrowIfCancellationRequested();
                    spectrum = Sample(x, y);
                    known.Add((x, y), spectrum);
                }

                spectrum.CopyTo(values, node * n);
            }

            double[] along = new double[values.Length], both = new double[values.Length];
            for (int row = 0; row < count; row++)
            {
                int at = row * count * n;
                axis.Transform(values.AsSpan(at, count * n), n, along.AsSpan(at, count * n), cancellation);
            }

            axis.Transform(along, count * n, both, cancellation);
            double bound = Tail(both, count, n);
            if (bound <= WantedError || 2 * degree > LastDegree)
            {
                return new StainResponse(layer, scaleK, scaleS, ByWavelength(both, count * count, n), degree, bound);
            }
        }

        double[] Sample(double x, double y)
        {
            double[] k = layer.Carrier.Absorption.Values.ToArray(), s = layer.Carrier.Scattering.Values.ToArray();
            for (int i = 0; i < k.Length; i++)
            {
                k[i] += Math.Min(mostK[i], (Math.Exp((x + 1) / 2 * scaleK[i]) - 1) / (PerAbsorption * t));
                s[i] += Math.Min(mostS[i], (Math.Exp((y + 1) / 2 * scaleS[i]) - 1) / (PerScattering * t));
            }

            LayerStack stack = stackWith(layer.Fired(layer.Carrier.Name, k, s));
            return stack.Reflectances(stack.Model.Coarse, geometry);
        }
    }

    /// <summary>
    /// Reflectance at one wavelength with what pigments add to K and S after firing, 1/mm, and its slopes.
    /// </summary>
    public double At(int wavelength, double k, double s, out double byK, out double byS)
    {
        double t = _layer.FiredThicknessMm, perK = 2 / _scaleK[wavelength], perS = 2 / _scaleS[wavelength];
        int count = Degree + 1;
        Span<double> px = stackalloc double[count], qx = stackalloc double[count], py = stackalloc double[count], qy =
            stackalloc double[count];
        double x = Position((Math.Log(1 + (PerAbsorption * t * k)) * perK) - 1), y =
            Position((Math.Log(1 + (PerScattering * t * s)) * perS) - 1);
        Polynomials(x, px, qx);
        Polynomials(y, py, qy);
        double sum = 0, byX = 0, byY = 0;
        ReadOnlySpan<double> rows = _coefficients.AsSpan(wavelength * count * count, count * count);
        for (int row = 0; row < count; row++)
        {
            double value = 0, slope = 0;
            ReadOnlySpan<double> coefficients = rows.Slice(row * count, count);
            for (int j = 0; j < coefficients.Length; j++)
            {
                value += coefficients[j] * px[j];
                slope += coefficients[j] * qx[j];
            }

            sum += value * py[row];
            byX += slope * py[row];
            byY += value * qy[row];
        }

        byK = byX * perK * PerAbsorption * t / (1 + (PerAbsorption * t * k));
        byS = byY * perS * PerScattering * t / (1 + (PerScattering * t * s));
        return sum;
    }

    // Where nothing is added the axis has no length; any scale will do.
    private static double ScaleOf(double most) => Math.Max(Math.Log(1 + most), 1e-6);

    private static double Position(double x) => Math.Min(1, Math.Max(-1, x));

    // T_k and its derivative T_k' = k U_(k-1).
    private static void Polynomials(double x, Span<double> values, Span<double> slopes)
    {
        Chebyshev.Polynomials(x, values);
        (double before, double now) = (0, 1);
        slopes[0] = 0;
        for (int k = 1; k < slopes.Length; k++)
        {
            slopes[k] = k * now;
            (before, now) = (now, (2 * x * now) - before);
        }
    }

    // The largest of the last two coefficients of each direction, eight times for what follows.
    private static double Tail(double[] coefficients, int count, int n)
    {
        double largest = 0;
        for (int node = 0; node < count * count; node++)
        {
            bool isLast = node % count >= count - 2 || node / count >= count - 2;
            for (int i = 0; isLast && i < n; i++)
            {
                largest = Math.Max(largest, Math.Abs(coefficients[(node * n) + i]));
            }
        }

        return 8 * largest;
    }

    private static double[] ByWavelength(double[] byNode, int nodes, int n)
    {
        double[] turned = new double[byNode.Length];
        for (int node = 0; node < nodes; node++)
        {
            for (int i = 0; i < n; i++)
            {
                turned[(i * nodes) + node] = byNode[(node * n) + i];
            }
        }

        return turned;
    }
}
