using System.Numerics;
using System.Runtime.InteropServices;
using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;

namespace CeramicOptics.Decisions.Comparison;

/// <summary>
/// Tristimulus values under several lights as sums of Chebyshev polynomials over the thickness of the wall.
/// </summary>
/// <remarks>
/// XYZ are linear in the reflectances, so the polynomials of a compiled stack become those of its colours. Immutable.
/// </remarks>
internal sealed class ColorCurve
{
    // By degree, then X, Y, Z of each light, each run padded to whole vectors.
    private readonly Vector<double>[] _coefficients;
    private readonly double[] _curvatures;
    private readonly int _width, _vectors;

    private ColorCurve(Chebyshev axis, double[] coefficients, int width)
    {
        (Axis, _width, _vectors) = (axis, width, (width + Vector<double>.Count - 1) / Vector<double>.Count);
        _coefficients = new Vector<double>[axis.Count * _vectors];
        for (int k = 0; k < axis.Count; k++)
        {
            coefficients.AsSpan(k * width, width)
                .CopyTo(MemoryMarshal.Cast<Vector<double>, double>(_coefficients.AsSpan(k * _vectors, _vectors)));
        }

        _curvatures = new double[width];
        for (int k = 2; k < axis.Count; k++)
        {
            // |T_k''| is at most k² (k² - 1) / 3, at the ends.
            double steepest = (double)k * k * (((double)k * k) - 1) / 3;
            for (int f = 0; f < width; f++)
            {
                _curvatures[f] += steepest * Math.Abs(coefficients[(k * width) + f]);
            }
        }
    }

    public Chebyshev Axis { get; }

    /// <summary>Bound on the second derivative of each function by the position on the axis.</summary>
    public ReadOnlySpan<double> Curvatures => _curvatures;

    /// <summary>From reflectances (or changes of them) at the points of an axis, by point, then wavelength.</summary>
    public static ColorCurve Of(Chebyshev axis, ReadOnlySpan<double> reflectances, IReadOnlyList<WeightingTable> tables)
    {
        int width = 3 * tables.Count, n = tables[0].Grid.Count;
        double[] values = new double[axis.Count * width], coefficients = new double[axis.Count * width];
        for (int node = 0; node < axis.Count; node++)
        {
            for (int c = 0; c < tables.Count; c++)
            {
                Xyz xyz = tables[c].SumInLanes(reflectances.Slice(node * n, n));
                int at = (node * width) + (3 * c);
                (values[at], values[at + 1], values[at + 2]) = (xyz.X, xyz.Y, xyz.Z);
            }
        }

        axis.Transform(values, width, coefficients);
        return new ColorCurve(axis, coefficients, width);
    }

    /// <summary>X, Y, Z of each light at a position on the axis, -1 to 1.</summary>
    public void Evaluate(double x, Span<double> destination)
    {
        Span<Vector<double>> sums = stackalloc Vector<double>[_vectors];
        for (int v = 0; v < sums.Length; v++)
        {
            // Clenshaw's recurrence, from the highest degree down.
            Vector<double> later = Vector<double>.Zero, now = Vector<double>.Zero, twice = new(2 * x);
            for (int k = Axis.Degree; k > 0; k--)
            {
                (now, later) = (_coefficients[(k * _vectors) + v] + (twice * now) - later, now);
            }

            sums[v] = _coefficients[v] + (new Vector<double>(x) * now) - later;
        }

        MemoryMarshal.Cast<Vector<double>, double>(sums).Slice(0, _width).CopyTo(destination);
    }
}
