namespace CeramicOptics.Layers;

/// <summary>Chebyshev coefficients of a compiled stack, and what they say of its error.</summary>
internal static class ResponseCoefficients
{
    private const double Safety = 3 * 2, Rounding = 1e-11;

    /// <summary>Coefficients of functions side by side from their values at the nodes, along every axis.</summary>
    public static double[] Coefficients(
        Chebyshev[] axes, double[] values, int width, CancellationToken cancellation)
    {
        double[] along = new double[values.Length];
        int run = axes[0].Count * width;
        for (int at = 0; at < values.Length; at += run)
        {
            axes[0].Transform(values.AsSpan(at, run), width, along.AsSpan(at, run), cancellation);
        }

        if (axes.Length == 1)
        {
            return along;
        }

        double[] both = new double[values.Length];
        axes[1].Transform(along, run, both, cancellation);
        return both;
    }

    /// <summary>Bound on the error of a reflectance between the nodes.</summary>
    /// <remarks>
    /// The error of interpolation is at most twice the sum of the coefficients that follow (Trefethen, theorem 7.2).
    /// They go on falling by the ratio r seen between the last two and the two before, so that 2 / (1 - r) times the
    /// larger of the last two bounds it; two, since odd or even ones may be missing, and three times that, since they
    /// fall unevenly where a range begins at 0. Taken over black, over white, and of each function.
    /// </remarks>
    public static double BoundOf(
        Chebyshev[] axes, double[] values, double[] coefficients, int n, CancellationToken cancellation)
    {
        double[] white = new double[values.Length / StackResponse.Functions];
        double bound = 0;
        for (int node = 0; node < white.Length / n; node++)
        {
            for (int i = 0; i < n; i++)
            {
                // Rounding of C shows most where hardly any light is lost between the stack and a white body.
                int at = (node * StackResponse.Functions * n) + i;
                double lost = Math.Max(1 - values[at + (2 * n)], 1e-9);
                white[(node * n) + i] = values[at] + (values[at + n] / lost);
                bound = Math.Max(bound, Rounding * Math.Max(1, values[at + n] / (lost * lost)));
            }
        }

        double[] whiteCoefficients = Coefficients(axes, white, n, cancellation);
        for (int axis = 0; axis < axes.Length; axis++)
        {
            int degree = axes[axis].Degree;
            if (degree == 0)
            {
                continue;
            }

            double Largest(int from, int to) => Math.Max(
                LargestOf(coefficients, StackResponse.Functions * n, axes, axis, from, to),
                LargestOf(whiteCoefficients, n, axes, axis, from, to));
            double last = Largest(degree - 1, degree), before = Largest(degree - 3, degree - 2);
            double ratio = Math.Min(0.95, Math.Sqrt(last / Math.Max(before, double.Epsilon)));
            bound += Safety * last / (1 - ratio);
        }

        return bound;
    }

    // Largest coefficient of some degrees along one axis.
    private static double LargestOf(
        double[] coefficients, int width, Chebyshev[] axes, int axis, int fromDegree, int toDegree)
    {
        double largest = 0;
        for (int node = 0; node < coefficients.Length / width; node++)
        {
            int degree = axis == 0 ? node % axes[0].Count : node / axes[0].Count;
            for (int i = 0; degree >= fromDegree && degree <= toDegree && i < width; i++)
            {
                largest = Math.Max(largest, Math.Abs(coefficients[(node * width) + i]));
            }
        }

        return largest;
    }
}
