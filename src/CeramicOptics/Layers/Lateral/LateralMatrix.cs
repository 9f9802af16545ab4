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
    private const int Pivots = 4;

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
    /// Upper triangle of V' K⁻¹ V into <paramref name="result"/>. Destroys K, of which the upper triangle is read, and
    /// V.
    /// </summary>
    /// <remarks>Four pivots at a time, so that a row that changes is read and written once for all of them.</remarks>
    public static void Reduce(LateralMatrix k, LateralMatrix v, int order, int columns, LateralMatrix result)
    {
        for (int i = 0; i < columns; i++)
        {
            result.Row(i).Clear();
        }

        Span<double> inverses = stackalloc double[Pivots], factors = stackalloc double[Pivots];
        for (int first = 0; first < order; first += Pivots)
        {
            int end = Math.Min(order, first + Pivots);
            for (int i = first; i < order; i++)
            {
                Span<double> own = factors.Slice(0, Math.Min(i, end) - first);
                for (int q = 0; q < own.Length; q++)
                {
                    own[q] = -k[first + q, i] * inverses[q];
                }

                k.AddRows(i, own, k, first, i, order);
                v.AddRows(i, own, v, first, 0, columns);
                if (i < end)
                {
                    // A direction caught for ever in a layer of no thickness takes no part.
                    double pivot = k[i, i];
                    inverses[i - first] = pivot == 0 ? 0 : 1 / pivot;
                }
            }

            for (int i = 0; i < columns; i++)
            {
                Span<double> own = factors.Slice(0, end - first);
                for (int q = 0; q < own.Length; q++)
                {
                    own[q] = v[first + q, i] * inverses[q];
                }

                result.AddRows(i, own, v, first, i, columns);
            }
        }
    }

    // To a row the rows of another matrix, each times a factor, from a column on; columns just before it may change
    // too.
    private void AddRows(int row, ReadOnlySpan<double> factors, LateralMatrix other, int firstRow, int from, int end)
    {
        int first = from / Vector<double>.Count, last = (end + Vector<double>.Count - 1) / Vector<double>.Count;
        Span<Vector<double>> to = _vectors.AsSpan((row * _perRow) + first, last - first);
        if (factors.Length == Pivots && !(factors[0] == 0 && factors[1] == 0 && factors[2] == 0 && factors[3] == 0))
        {
            ReadOnlySpan<Vector<double>> a = other.Part(firstRow, first, to.Length);
            ReadOnlySpan<Vector<double>> b = other.Part(firstRow + 1, first, to.Length);
            ReadOnlySpan<Vector<double>> c = other.Part(firstRow + 2, first, to.Length);
            ReadOnlySpan<Vector<double>> d = other.Part(firstRow + 3, first, to.Length);
            Vector<double> fa = new(factors[0]), fb = new(factors[1]), fc = new(factors[2]), fd = new(factors[3]);
            for (int i = 0; i < to.Length; i++)
            {
                to[i] += (fa * a[i]) + (fb * b[i]) + ((fc * c[i]) + (fd * d[i]));
            }

            return;
        }

        for (int q = 0; q < factors.Length; q++)
        {
            if (factors[q] != 0)
            {
                ReadOnlySpan<Vector<double>> add = other.Part(firstRow + q, first, to.Length);
                Vector<double> factor = new(factors[q]);
                for (int i = 0; i < to.Length; i++)
                {
                    to[i] += factor * add[i];
                }
            }
        }
    }

    private ReadOnlySpan<Vector<double>> Part(int row, int first, int length) =>
        _vectors.AsSpan((row * _perRow) + first, length);
}
