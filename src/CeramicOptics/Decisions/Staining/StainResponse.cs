using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Staining;

/// <summary>
/// Reflectance of one zone with a stain layer, as a smooth function of the layer's K and S at each wavelength.
/// </summary>
/// <remarks>
/// K runs from the carrier's to that with the largest loads, S likewise. A layer of thickness t dies away as exp(-K t)
/// and saturates as S t / (1 + S t), so the sums of Chebyshev polynomials are in u = ln(1 + 4 t k) and v = ln(1 + 2 t
/// s), k and s counted from the carrier. At each wavelength their degrees in u and in v are raised until the last
/// coefficients bound the error of a reflectance below 1e-5 of the coarse form of the theory, in which the search goes
/// on. Immutable once made.
/// </remarks>
internal sealed class StainResponse
{
    private const double WantedError = 1e-5, PerAbsorption = 4, PerScattering = 2;

    // From the lowest degree to the highest, each twice the one before.
    private static readonly Chebyshev[] Axes =
        [.. ((int[])[6, 12, 24, 48]).Select(degree => new Chebyshev(new ThicknessRange(0, 1), degree))];

    private readonly StainLayer _layer;
    private readonly double[] _scaleK, _scaleS;
    private readonly Sum[] _sums;

    private StainResponse(StainLayer layer, double[] scaleK, double[] scaleS, Sum[] sums)
    {
        (_layer, _scaleK, _scaleS, _sums) = (layer, scaleK, scaleS, sums);
        ErrorBound = sums.Max(sum => sum.ErrorBound);
    }

    /// <summary>Bound on the error of a reflectance, from the decay of the coefficients.</summary>
    public double ErrorBound { get; }

    /// <summary>Samples stacks with the stain layer in place.</summary>
    /// <param name="stackWith">The stack of the zone with a stain layer.</param>
    /// <param name="layer">The layer.</param>
    /// <param name="mostK">Largest K that pigments add after firing, at each wavelength, 1/mm.</param>
    /// <param name="mostS">Largest S, likewise.</param>
    /// <param name="geometry">Measurement geometry.</param>
    /// <param name="cancellation">Stops the work between two samples.</param>
    public static StainResponse Of(
        Func<Layer, LayerStack> stackWith, StainLayer layer, double[] mostK, double[] mostS,
        MeasurementGeometry geometry, CancellationToken cancellation)
    {
        double t = layer.FiredThicknessMm;
        double[] scaleK = Array.ConvertAll(mostK, k => ScaleOf(PerAbsorption * t * k)), scaleS =
            Array.ConvertAll(mostS, s => ScaleOf(PerScattering * t * s));
        Layer carrier = layer.Fired([]);
        LayerStack stack = stackWith(carrier);
        int at = stack.Layers.Select((item, i) => ReferenceEquals(item, carrier) ? i : 0).Sum();
        StackSampler sampler = stack.Model.Coarse.SamplerFor(stack, geometry);
        double[] layersMm = [.. stack.Layers.Select(item => item.ThicknessMm)];
        return new StainResponse(layer, scaleK, scaleS, [.. mostK.Select((_, i) => SumOf((x, y) => At(i, x, y)))]);

        double At(int i, double x, double y)
        {
            cancellation.ThrowIfCancellationRequested();
            double k = Math.Min(mostK[i], (Math.Exp((x + 1) / 2 * scaleK[i]) - 1) / (PerAbsorption * t));
            double s = Math.Min(mostS[i], (Math.Exp((y + 1) / 2 * scaleS[i]) - 1) / (PerScattering * t));
            sampler.Set(i, at, carrier.Material.Absorption[i] + k, carrier.Material.Scattering[i] + s);
            return Math.Max(0, sampler.At(i, layersMm).Over(stack.Substrate.InternalReflectanceAt(i)));
        }
    }

    /// <summary>
    /// Reflectance at one wavelength with what pigments add to K and S after firing, 1/mm, and its slopes.
    /// </summary>
    public double At(int wavelength, double k, double s, out double byK, out double byS)
    {
        double t = _layer.FiredThicknessMm, perK = 2 / _scaleK[wavelength], perS = 2 / _scaleS[wavelength];
        (double[] all, int columns) = (_sums[wavelength].Coefficients, _sums[wavelength].Columns);
        int rows = all.Length / columns;
        Span<double> px = stackalloc double[columns], qx = stackalloc double[columns], py = stackalloc double[rows],
            qy = stackalloc double[rows];
        double x = Position((Math.Log(1 + (PerAbsorption * t * k)) * perK) - 1), y =
            Position((Math.Log(1 + (PerScattering * t * s)) * perS) - 1);
        Polynomials(x, px, qx);
        Polynomials(y, py, qy);
        double sum = 0, byX = 0, byY = 0;
        for (int row = 0; row < rows; row++)
        {
            double value = 0, slope = 0;
            ReadOnlySpan<double> coefficients = all.AsSpan(row * columns, columns);
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

    // A function of x and y, -1 to 1, of degrees raised until it is right.
    private static Sum SumOf(Func<double, double, double> function)
    {
        int last = Axes.Length - 1, most = Axes[last].Count, x = 0, y = 0;
        double[] known = new double[most * most];
        known.AsSpan().Fill(double.NaN);
        while (true)
        {
            int columns = Axes[x].Count, rows = Axes[y].Count;
            double[] values = new double[columns * rows], along = new double[values.Length], both =
                new double[values.Length];
            for (int node = 0; node < values.Length; node++)
            {
                int k = (node % columns) << (last - x), l = (node / columns) << (last - y);
                ref double value = ref known[(l * most) + k];
                value = double.IsNaN(value) ? function(PositionOf(k), PositionOf(l)) : value;
                values[node] = value;
            }

            for (int row = 0; row < rows; row++)
            {
                Axes[x].Transform(values.AsSpan(row * columns, columns), 1, along.AsSpan(row * columns, columns));
            }

            Axes[y].Transform(along, columns, both);
            (double tailX, double tailY) = Tails(both, columns);
            bool isShortX = tailX > WantedError && x < last, isShortY = tailY > WantedError && y < last;
            if (!isShortX && !isShortY)
            {
                return new Sum(both, columns, Math.Max(tailX, tailY));
            }

            (x, y) = (isShortX ? x + 1 : x, isShortY ? y + 1 : y);
        }
    }

    private static double PositionOf(int node) => Math.Cos(Math.PI * node / Axes[Axes.Length - 1].Degree);

    // The largest of the last two coefficients of each direction, eight times for what follows.
    private static (double X, double Y) Tails(double[] coefficients, int columns)
    {
        (double x, double y) = (0, 0);
        int rows = coefficients.Length / columns;
        for (int node = 0; node < coefficients.Length; node++)
        {
            double size = 8 * Math.Abs(coefficients[node]);
            x = node % columns >= columns - 2 ? Math.Max(x, size) : x;
            y = node / columns >= rows - 2 ? Math.Max(y, size) : y;
        }

        return (x, y);
    }

    /// <summary>A sum of polynomials; coefficients by that in v, then that in u.</summary>
    private readonly record struct Sum(double[] Coefficients, int Columns, double ErrorBound);
}
