using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;

namespace CeramicOptics.Decisions.Comparison;

/// <summary>Tristimulus values under several lights as sums of Chebyshev polynomials over the thickness of the wall.</summary>
/// <remarks>XYZ are linear in the reflectances, so the polynomials of a compiled stack become those of its colours. Immutable.</remarks>
internal sealed class ColorCurve
{
    // By degree, then X, Y, Z of each light.
    private readonly double[] _coefficients;
    private readonly double[] _curvatures;
    private readonly int _width;

    private ColorCurve(Chebyshev axis, double[] coefficients, int width)
    {
        (Axis, _coefficients, _width) = (axis, coefficients, width);
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

    /// <summary>Number of lights.</summary>
    public int Lights => _width / 3;

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
        double before = 1, now = x;
        _coefficients.AsSpan(0, _width).CopyTo(destination);
        for (int k = 1; k < Axis.Count; k++)
        {
            ReadOnlySpan<double> row = _coefficients.AsSpan(k * _width, _width);
            for (int f = 0; f < row.Length; f++)
            {
                destination[f] += now * row[f];
            }

            (before, now) = (now, (2 * x * now) - before);
        }
    }
}
