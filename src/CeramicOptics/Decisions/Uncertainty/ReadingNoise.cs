using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;

namespace CeramicOptics.Decisions.Uncertainty;

/// <summary>
/// What the reading noise of K and S of one material does to the tristimulus values of a zone and its reference.
/// </summary>
/// <remarks>
/// The noise is independent at each wavelength and moves all tristimulus values together; an error of a common cause
/// moves those of all wavelengths together. Their covariance is taken apart into a few directions.
/// </remarks>
internal sealed class ReadingNoise
{
    // Further directions carry less than a thousandth of the variance. Those kept are kept however small: where a
    // reference moves with the restoration the large ones nearly cancel.
    private const int MostDirections = 6;

    private readonly Chebyshev _axis;
    private readonly CoefficientUncertainty _uncertainty;
    private readonly IReadOnlyList<WeightingTable> _tables;
    private readonly double[][] _slopes;
    private readonly int _width;

    /// <param name="axis">Thicknesses at whose points the slopes are given.</param>
    /// <param name="uncertainty">Uncertainty of K and S.</param>
    /// <param name="slopes">
    /// Slopes of the reflectance by K and by S, then those of the reference (empty for one that does not move); by
    /// point, then wavelength.
    /// </param>
    /// <param name="tables">Weights of each light.</param>
    public ReadingNoise(
        Chebyshev axis, CoefficientUncertainty uncertainty, double[][] slopes, IReadOnlyList<WeightingTable> tables)
    {
        (_axis, _uncertainty, _tables, _width) = (axis, uncertainty, tables, 3 * tables.Count);
        _slopes = [.. slopes.Select(values =>
        {
            double[] coefficients = new double[values.Length];
            if (values.Length > 0)
            {
                axis.Transform(values, tables[0].Grid.Count, coefficients);
            }

            return coefficients;
        })];
    }

    /// <summary>Number of directions; some may be zero.</summary>
    public int Directions => Math.Min(2 * _width, MostDirections);

    /// <summary>
    /// Moves of the tristimulus values by each direction, one row each, at one thickness of the wall.
    /// </summary>
    public void SetDirections(double wallMm, Span<double> colors, Span<double> references)
    {
        colors.Clear();
        references.Clear();
        int size = 2 * _width;
        double[][] at = [.. _slopes.Select(coefficients => At(wallMm, coefficients))];
        double[][] directions = NoiseDirections.Of(_uncertainty, size, Directions, Effect);
        for (int row = 0; row < directions.Length; row++)
        {
            directions[row].AsSpan(0, _width).CopyTo(colors.Slice(row * _width));
            directions[row].AsSpan(_width).CopyTo(references.Slice(row * _width));
        }

        void Effect(int i, double byK, double byS, double[] move)
        {
            double color = (byK * at[0][i]) + (byS * at[1][i]), other = (byK * at[2][i]) + (byS * at[3][i]);
            for (int c = 0; c < _tables.Count; c++)
            {
                WeightingTable table = _tables[c];
                int own = 3 * c, from = _width + own;
                move[own] += table.X[i] * color;
                move[own + 1] += table.Y[i] * color;
                move[own + 2] += table.Z[i] * color;
                move[from] += table.X[i] * other;
                move[from + 1] += table.Y[i] * other;
                move[from + 2] += table.Z[i] * other;
            }
        }
    }

    private double[] At(double wallMm, double[] coefficients)
    {
        int n = _tables[0].Grid.Count;
        double[] sum = new double[n], polynomials = new double[_axis.Count];
        Chebyshev.Polynomials(_axis.At(wallMm), polynomials);
        for (int at = 0; at < coefficients.Length; at++)
        {
            sum[at % n] += coefficients[at] * polynomials[at / n];
        }

        return sum;
    }
}
