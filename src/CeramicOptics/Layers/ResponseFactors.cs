namespace CeramicOptics.Layers;

/// <summary>
/// Factors of the coefficients of a compiled stack: the product of the polynomials of every axis, by node.
/// </summary>
internal static class ResponseFactors
{
    private const int Walls = ResponseKernel.Walls;

    /// <summary>Of one wall.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A thickness is outside its range or NaN.</exception>
    public static void One(Chebyshev[] axes, ReadOnlySpan<double> thicknessesMm, Span<double> factors)
    {
        int first = axes[0].Count;
        Chebyshev.Polynomials(PositionAt(axes[0], thicknessesMm[0]), factors.Slice(0, first));
        if (axes.Length > 1)
        {
            Span<double> other = stackalloc double[axes[1].Count];
            Chebyshev.Polynomials(PositionAt(axes[1], thicknessesMm[1]), other);
            for (int node = factors.Length - 1; node >= 0; node--)
            {
                factors[node] = factors[node % first] * other[node / first];
            }
        }
    }

    /// <summary>Of a batch of walls, by node, then wall.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A thickness is outside its range or NaN.</exception>
    public static void Batch(Chebyshev[] axes, ReadOnlySpan<double> thicknessesMm, Span<double> factors)
    {
        int first = axes[0].Count * Walls;
        Polynomials(0, thicknessesMm, factors.Slice(0, first));
        if (axes.Length > 1)
        {
            Span<double> other = stackalloc double[axes[1].Count * Walls];
            Polynomials(1, thicknessesMm, other);
            for (int at = factors.Length - 1; at >= 0; at--)
            {
                factors[at] = factors[at % first] * other[(at / first * Walls) + (at % Walls)];
            }
        }

        void Polynomials(int axis, ReadOnlySpan<double> mm, Span<double> destination)
        {
            Span<double> positions = stackalloc double[Walls];
            for (int wall = 0; wall < Walls; wall++)
            {
                positions[wall] = PositionAt(axes[axis], mm[(wall * axes.Length) + axis]);
            }

            Chebyshev.Polynomials(positions, destination);
        }
    }

    private static double PositionAt(Chebyshev axis, double mm) =>
        axis.At(Guard.InRange(mm, axis.Range.MinMm, axis.Range.MaxMm, "mm", "thicknessMm"));
}
