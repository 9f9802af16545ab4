using System.Numerics;
using System.Runtime.InteropServices;

namespace CeramicOptics.Layers.Lateral;

/// <summary>
/// A matrix with rows of whole SIMD vectors, and the one operation that the lateral solver needs: V' K⁻¹ V.
/// </summary>
/// <remarks>
/// K is symmetric and quasi-definite (its even azimuthal orders positive, its odd ones negative definite), so
/// elimination needs no exchange of rows (Vanderbei 1995, SIAM J. Optim. 5:100-113).
/// </remarks>
internal sealed class LateralMatrix
{
    private readonly Vector<double>[] _vectors;
    private readonly int _perRow;

    public LateralMatrix(int rows, int columns)
    {
        _perRow = (columns + Vector<double>.Count - 1) / Vector<double>.Count;
        _vectors = new Vector<double>[rows * _perRow];
    }

    public double this[int row, int column]
    {
        get => Row(row)[column];
        set => Row(row)[column] = value;
    }

    public Span<double> Row(int row) =>
        MemoryMarshal.Cast<Vector<double>, double>(_vectors.AsSpan(row * _perRow, _perRow));

    public void Clear() => _vectors.AsSpan().Clear();

    /// <summary>Takes over the first rows of a matrix that has as many columns.</summary>
    public void CopyFrom(LateralMatrix other, int rows)
    {
        for (int i = 0; i < rows; i++)
        {
            int length = Math.Min(_perRow, other._perRow);
            other._vectors.AsSpan(i * other._perRow, length).CopyTo(_vectors.AsSpan(i * _perRow, length));
        }
    }

    /// <summary>Copies the upper triangle to the lower one.</summary>
    public void Mirror(int order)
    {
        for (int i = 1; i < order; i++)
        {
            Span<double> row = Row(i);
            for (int j = 0; j < i; j++)
            {
                row[j] = Row(j)[i];
            }
        }
    }

    /// <summary>
    /// Row i of this plus factor times a row of another, from a column on; columns just before it may change too.
    /// </summary>
    public void AddRow(int row, double factor, LateralMatrix other, int otherRow, int from, int end)
    {
        int first = from / Vector<double>.Count, last = (end + Vector<double>.Count - 1) / Vector<double>.Count;
        Span<Vector<double>> to = _vectors.AsSpan((row * _perRow) + first, last - first);
        ReadOnlySpan<Vector<double>> add = other._vectors.AsSpan((otherRow * other._perRow) + first, last - first);
        Vector<double> scale = new(factor);
        for (int i = 0; i < to.Length; i++)
        {
            to[i] += scale * add[i];
        }
    }

    /// <summary>
    /// Upper triangle of V' K⁻¹ V into <paramref name="result"/>. Destroys K, of which the upper triangle is read, and
    /// V.
    /// </summary>
    public static void Reduce(LateralMatrix k, LateralMatrix v, int order, int columns, LateralMatrix result)
    {
        for (int i = 0; i < columns; i++)
        {
            result.Row(i).Clear();
        }

        for (int pivot = 0; pivot < order; pivot++)
        {
            ReadOnlySpan<double> row = k.Row(pivot), right = v.Row(pivot);

            // A direction caught for ever in a layer of no thickness takes no part.
            double inverse = row[pivot] == 0 ? 0 : 1 / row[pivot];
            for (int i = pivot + 1; i < order; i++)
            {
                double factor = -row[i] * inverse;
                if (factor != 0)
                {
                    k.AddRow(i, factor, k, pivot, i, order);
                    v.AddRow(i, factor, v, pivot, 0, columns);
                }
            }

            for (int i = 0; i < columns; i++)
            {
                double factor = right[i] * inverse;
                if (factor != 0)
                {
                    result.AddRow(i, factor, v, pivot, i, columns);
                }
            }
        }
    }
}
