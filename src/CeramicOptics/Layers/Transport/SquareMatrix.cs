using System.Numerics;
using System.Runtime.InteropServices;

namespace CeramicOptics.Layers.Transport;

/// <summary>A small dense matrix with rows padded to whole SIMD vectors; operations write into matrices the caller owns.</summary>
/// <remarks>
/// Inversion does not pivot: all matrices inverted here are E plus a positive semidefinite one (in the basis of reciprocity), or E minus
/// a non-negative one of spectral radius below 1, for which elimination in the given order is stable.
/// </remarks>
internal sealed class SquareMatrix
{
    private readonly Vector<double>[] _vectors;
    private readonly int _perRow;

    public SquareMatrix(int size)
    {
        Size = size;
        _perRow = (size + Vector<double>.Count - 1) / Vector<double>.Count;
        _vectors = new Vector<double>[size * _perRow];
    }

    public int Size { get; }

    public double this[int row, int column]
    {
        get => Row(row)[column];
        set => Row(row)[column] = value;
    }

    public Span<double> Row(int row) => MemoryMarshal.Cast<Vector<double>, double>(RowVectors(row));

    public void Clear() => _vectors.AsSpan().Clear();

    public void CopyFrom(SquareMatrix other) => other._vectors.AsSpan().CopyTo(_vectors);

    /// <summary>this = a b.</summary>
    public void Product(SquareMatrix a, SquareMatrix b)
    {
        for (int i = 0; i < Size; i++)
        {
            Span<Vector<double>> target = RowVectors(i);
            target.Clear();
            ReadOnlySpan<double> factors = a.Row(i);
            for (int k = 0; k < Size; k++)
            {
                if (factors[k] != 0)
                {
                    AddScaled(target, b.RowVectors(k), factors[k]);
                }
            }
        }
    }

    /// <summary>this = E + factor · this.</summary>
    public void ScaleAndAddIdentity(double factor)
    {
        Scale(factor);
        for (int i = 0; i < Size; i++)
        {
            Row(i)[i] += 1;
        }
    }

    public void Scale(double factor)
    {
        Vector<double> all = new(factor);
        for (int i = 0; i < _vectors.Length; i++)
        {
            _vectors[i] *= all;
        }
    }

    /// <summary>this += factor · other.</summary>
    public void Add(SquareMatrix other, double factor) => AddScaled(_vectors, other._vectors, factor);

    /// <summary>Each column j multiplied by factors[j].</summary>
    public void ScaleColumns(ReadOnlySpan<double> factors)
    {
        for (int i = 0; i < Size; i++)
        {
            Span<double> row = Row(i);
            for (int j = 0; j < Size; j++)
            {
                row[j] *= factors[j];
            }
        }
    }

    /// <summary>Each row i multiplied by factors[i].</summary>
    public void ScaleRows(ReadOnlySpan<double> factors)
    {
        for (int i = 0; i < Size; i++)
        {
            Span<Vector<double>> row = RowVectors(i);
            Vector<double> all = new(factors[i]);
            for (int j = 0; j < row.Length; j++)
            {
                row[j] *= all;
            }
        }
    }

    /// <summary>Replaced by its inverse (Gauss-Jordan, in place).</summary>
    public void Invert()
    {
        for (int p = 0; p < Size; p++)
        {
            Span<double> pivotRow = Row(p);
            double inverse = 1 / pivotRow[p];
            pivotRow[p] = 1;
            Span<Vector<double>> pivot = RowVectors(p);
            Vector<double> all = new(inverse);
            for (int j = 0; j < pivot.Length; j++)
            {
                pivot[j] *= all;
            }

            for (int i = 0; i < Size; i++)
            {
                double factor = i == p ? 0 : Row(i)[p];
                if (factor != 0)
                {
                    Row(i)[p] = 0;
                    AddScaled(RowVectors(i), pivot, -factor);
                }
            }
        }
    }

    private static void AddScaled(Span<Vector<double>> target, ReadOnlySpan<Vector<double>> source, double factor)
    {
        Vector<double> all = new(factor);
        for (int j = 0; j < target.Length; j++)
        {
            target[j] += all * source[j];
        }
    }

    private Span<Vector<double>> RowVectors(int row) => _vectors.AsSpan(row * _perRow, _perRow);
}
