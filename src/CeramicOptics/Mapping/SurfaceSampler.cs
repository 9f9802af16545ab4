using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;

namespace CeramicOptics.Mapping;

/// <summary>Colours and largest differences over illuminants on the places of cells, from polynomials; each row and column is prepared once.</summary>
internal sealed class SurfaceSampler(ChebyshevSurface surface, int lights, ColorCriterion criterion)
{
    private readonly Dictionary<double, double[]> _bases = [], _lines = [];
    private Lab[] _colors = [], _references = [];
    private double[] _differences = [];

    /// <summary>L*, a*, b* under the first illuminant.</summary>
    public void Colors(int column, int row, int parts, Span<double> values)
    {
        int at = 0;
        foreach ((double[] line, double[] basis) in Places(column, row, parts))
        {
            Lab color = surface.At(line, basis, 0);
            (values[at], values[at + 1], values[at + 2]) = (color.L, color.A, color.B);
            at += 3;
        }
    }

    /// <summary>Largest difference over illuminants.</summary>
    public void Differences(int column, int row, int parts, Span<double> values)
    {
        int count = (parts + 1) * (parts + 1);
        if (_differences.Length < count)
        {
            (_colors, _references, _differences) = (new Lab[count * lights], new Lab[count * lights], new double[count]);
        }

        int at = 0;
        foreach ((double[] line, double[] basis) in Places(column, row, parts))
        {
            for (int c = 0; c < lights; c++)
            {
                _colors[(c * count) + at] = surface.At(line, basis, 3 * c);
                _references[(c * count) + at] = surface.At(line, basis, 3 * (lights + c));
            }

            at++;
        }

        values.Slice(0, count).Clear();
        for (int c = 0; c < lights; c++)
        {
            criterion.Differences(_references.AsSpan(c * count, count), _colors.AsSpan(c * count, count), _differences.AsSpan(0, count));
            for (int i = 0; i < count; i++)
            {
                values[i] = Math.Max(values[i], _differences[i]);
            }
        }
    }

    private IEnumerable<(double[] Line, double[] Basis)> Places(int column, int row, int parts)
    {
        double[][] bases = [.. Enumerable.Range(0, parts + 1).Select(i => Basis((column + (i / (double)parts)) / CellTable.Side))];
        for (int j = 0; j <= parts; j++)
        {
            double y = (row + (j / (double)parts)) / CellTable.Side;
            if (!_lines.TryGetValue(y, out double[]? line))
            {
                _lines[y] = line = surface.Line(Basis(y));
            }

            foreach (double[] basis in bases)
            {
                yield return (line, basis);
            }
        }
    }

    private double[] Basis(double share)
    {
        if (!_bases.TryGetValue(share, out double[]? basis))
        {
            _bases[share] = basis = surface.Basis(share);
        }

        return basis;
    }
}
