using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;

namespace CeramicOptics.Decisions.Comparison;

/// <summary>Tristimulus values under several lights as sums of products of Chebyshev polynomials over two
/// thicknesses.</summary>
/// <remarks>
/// The form of <see cref="ColorCurve"/> for two thicknesses. Polynomials of thicknesses met before are kept, so that
/// values along rows and columns cost little; therefore not for use by two threads at once.
/// </remarks>
internal sealed class ColorSurface
{
    // Lines kept at most; rows are walked one after another.
    private const int MostLines = 256;

    private readonly Chebyshev _first, _second;

    // By degree of the second thickness, then of the first, then X, Y, Z of each light.
    private readonly double[] _coefficients;
    private readonly int _width;
    private readonly Dictionary<double, double[]> _bases = [], _lines = [];

    private ColorSurface(Chebyshev first, Chebyshev second, double[] coefficients, int width) =>
        (_first, _second, _coefficients, _width) = (first, second, coefficients, width);

    /// <summary>From reflectances at the points of both axes, by point (of the second, then of the first), then
    /// wavelength.</summary>
    public static ColorSurface Of(
        Chebyshev[] axes, ReadOnlySpan<double> reflectances, IReadOnlyList<WeightingTable> tables)
    {
        int width = 3 * tables.Count, n = tables[0].Grid.Count, run = axes[0].Count * width;
        double[] values = new double[axes[1].Count * run], along = new double[values.Length];
        for (int node = 0; node < axes[0].Count * axes[1].Count; node++)
        {
            for (int c = 0; c < tables.Count; c++)
            {
                Xyz xyz = tables[c].SumInLanes(reflectances.Slice(node * n, n));
                int at = (node * width) + (3 * c);
                (values[at], values[at + 1], values[at + 2]) = (xyz.X, xyz.Y, xyz.Z);
            }
        }

        for (int at = 0; at < values.Length; at += run)
        {
            axes[0].Transform(values.AsSpan(at, run), width, along.AsSpan(at, run));
        }

        axes[1].Transform(along, run, values);
        return new ColorSurface(axes[0], axes[1], values, width);
    }

    /// <summary>X, Y, Z of each light at two thicknesses of the ranges, mm.</summary>
    public void Evaluate(double firstMm, double secondMm, Span<double> destination)
    {
        double[] line = Line(secondMm), basis = Basis(firstMm);
        Span<double> sums = destination.Slice(0, _width);
        sums.Clear();
        for (int k = 0; k < basis.Length; k++)
        {
            double factor = basis[k];
            ReadOnlySpan<double> row = line.AsSpan(k * _width, _width);
            for (int f = 0; f < row.Length; f++)
            {
                sums[f] += factor * row[f];
            }
        }
    }

    private double[] Basis(double firstMm)
    {
        if (!_bases.TryGetValue(firstMm, out double[]? basis))
        {
            basis = new double[_first.Count];
            Chebyshev.Polynomials(_first.At(firstMm), basis);
            _bases[firstMm] = basis;
        }

        return basis;
    }

    // Coefficients of the functions of the first thickness that remain when the second is fixed.
    private double[] Line(double secondMm)
    {
        if (_lines.TryGetValue(secondMm, out double[]? known))
        {
            return known;
        }

        double[] line = new double[_first.Count * _width], basis = new double[_second.Count];
        Chebyshev.Polynomials(_second.At(secondMm), basis);
        for (int j = 0; j < basis.Length; j++)
        {
            ReadOnlySpan<double> from = _coefficients.AsSpan(j * line.Length, line.Length);
            for (int i = 0; i < line.Length; i++)
            {
                line[i] += basis[j] * from[i];
            }
        }

        if (_lines.Count == MostLines)
        {
            _lines.Clear();
        }

        return _lines[secondMm] = line;
    }
}
