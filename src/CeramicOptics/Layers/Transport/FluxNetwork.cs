using System.Numerics;
using System.Runtime.InteropServices;

namespace CeramicOptics.Layers.Transport;

/// <summary>
/// What lies below a level of a stack, as a symmetric matrix over its ports and directions, like the admittance matrix
/// of an electric network.
/// </summary>
/// <remarks>
/// Fluxes down and up, divided by the root of the étendue of their direction, f+ and f-, give s = f+ + f- and d = f+ -
/// f-, and what lies below answers d = A s. In this basis reciprocity makes A symmetric; total reflection is 0, a black
/// body is 1. A boundary of reflectance r is a resistance 2 r / (1 - r) in series with its direction. Ports stand
/// before the directions, and directions are removed from the end, where those of total reflection are. Only the lower
/// triangle is kept; rows are padded to whole SIMD vectors.
/// </remarks>
internal sealed class FluxNetwork
{
    /// <summary>
    /// Conductance of a totally reflecting boundary: not quite 0, so that light caught for ever in a clear layer is
    /// finite.
    /// </summary>
    public const double Leak = 5e-15;

    private readonly Vector<double>[] _vectors, _column;
    private readonly int _perRow;

    public FluxNetwork(int capacity)
    {
        _perRow = Padded(capacity);
        _vectors = new Vector<double>[capacity * _perRow];
        _column = new Vector<double>[_perRow];
    }

    /// <summary>Ports and directions in use; entries beyond are zero or unused.</summary>
    public int Order { get; set; }

    /// <summary>An entry with column not above row.</summary>
    public double this[int row, int column]
    {
        get => Row(row)[column];
        set => Row(row)[column] = value;
    }

    /// <summary>Vectors that hold a row of this length.</summary>
    public static int Padded(int length) => (length + Vector<double>.Count - 1) / Vector<double>.Count;

    public Span<double> Row(int row) =>
        MemoryMarshal.Cast<Vector<double>, double>(_vectors.AsSpan(row * _perRow, _perRow));

    public void Clear() => _vectors.AsSpan().Clear();

    public void CopyFrom(FluxNetwork other)
    {
        other._vectors.AsSpan().CopyTo(_vectors);
        Order = other.Order;
    }

    public void Add(FluxNetwork other)
    {
        for (int i = 0; i < Order; i++)
        {
            Span<Vector<double>> row = _vectors.AsSpan(i * _perRow, Padded(i + 1));
            Span<Vector<double>> more = other._vectors.AsSpan(i * _perRow, row.Length);
            for (int j = 0; j < row.Length; j++)
            {
                row[j] += more[j];
            }
        }
    }

    /// <summary>
    /// Puts a resistance, 0 or above, in series with a direction: A - a a' / (A_ii + 1/resistance), a its column.
    /// </summary>
    public void Series(int at, double resistance)
    {
        if (resistance != 0)
        {
            Subtract(at, Order, resistance / (1 + (resistance * Row(at)[at])));
        }
    }

    /// <summary>Directions beyond the new order are totally reflected and take no more part: A - a a' / A_ii.</summary>
    public void CutTo(int order)
    {
        while (Order > order)
        {
            int last = Order - 1;
            Subtract(last, last, 1 / (Math.Max(0, Row(last)[last]) + Leak));
            Row(last).Clear();
            Order = last;
        }
    }

    /// <summary>New directions, which are totally reflected below.</summary>
    public void ExtendTo(int order)
    {
        for (int i = Order; i < order; i++)
        {
            Row(i).Clear();
        }

        Order = Math.Max(Order, order);
    }

    /// <summary>
    /// Each direction's s divided, and its d multiplied, by a factor: rows and columns from <paramref name="first"/> on
    /// are scaled.
    /// </summary>
    public void Scale(int first, ReadOnlySpan<Vector<double>> factors)
    {
        ReadOnlySpan<double> single = MemoryMarshal.Cast<Vector<double>, double>(factors);
        for (int i = first; i < Order; i++)
        {
            Span<Vector<double>> row = _vectors.AsSpan(i * _perRow, Padded(i + 1));
            ReadOnlySpan<Vector<double>> columns = factors.Slice(0, row.Length);
            Vector<double> all = new(single[i]);
            for (int j = 0; j < row.Length; j++)
            {
                row[j] *= all * columns[j];
            }
        }
    }

    /// <summary>
    /// this = modes · other · modes', where modes has one row for each port and direction of the result.
    /// </summary>
    public void Transform(ModeMatrix modes, FluxNetwork other, ModeMatrix work)
    {
        Order = modes.Order;
        for (int i = 0; i < Order; i++)
        {
            Span<double> full = work.Row(i);
            for (int j = 0; j < Order; j++)
            {
                full[j] = j <= i ? other.Row(i)[j] : other.Row(j)[i];
            }
        }

        for (int i = 0; i < Order; i++)
        {
            Span<Vector<double>> product = _column.AsSpan(0, Padded(Order));
            product.Clear();
            ReadOnlySpan<double> factors = modes.Row(i);
            for (int k = 0; k < Order; k++)
            {
                AddScaled(product, work.Vectors(k), factors[k]);
            }

            Span<double> row = Row(i);
            row.Slice(i + 1).Clear();
            for (int j = 0; j <= i; j++)
            {
                row[j] = Dot(product, modes.Vectors(j));
            }
        }
    }

    private static double Dot(ReadOnlySpan<Vector<double>> a, ReadOnlySpan<Vector<double>> b)
    {
        Vector<double> sum = Vector<double>.Zero;
        for (int i = 0; i < a.Length; i++)
        {
            sum += a[i] * b[i];
        }

        return Vector.Dot(sum, Vector<double>.One);
    }

    private static void AddScaled(Span<Vector<double>> target, ReadOnlySpan<Vector<double>> source, double factor)
    {
        Vector<double> all = new(factor);
        for (int j = 0; j < target.Length; j++)
        {
            target[j] += all * source[j];
        }
    }

    // this -= factor a a' in the first rows, with a the column of a direction.
    private void Subtract(int at, int rows, double factor)
    {
        Span<double> column = MemoryMarshal.Cast<Vector<double>, double>(_column.AsSpan());
        Row(at).Slice(0, at + 1).CopyTo(column);
        for (int i = at + 1; i < rows; i++)
        {
            column[i] = _vectors[(i * _perRow) + (at / Vector<double>.Count)][at % Vector<double>.Count];
        }

        for (int i = 0; i < rows; i++)
        {
            if (column[i] != 0)
            {
                AddScaled(_vectors.AsSpan(i * _perRow, Padded(i + 1)), _column, -factor * column[i]);
            }
        }
    }
}
