namespace CeramicOptics.Mapping;

/// <summary>Functions of two variables as straight lines both ways (bilinear) on square cells that are divided only as
/// far as each needs.</summary>
/// <remarks>Both variables are shares of their range, 0 to 1. Immutable.</remarks>
internal sealed class CellTable
{
    /// <summary>Cells a side.</summary>
    public const int Side = 32;

    private const int FirstShift = 0, MostShift = 6;

    // Values by cell, then row, then column, then function; a cell is where its values begin and the binary logarithm
    // of its parts a side.
    private readonly float[] _values;
    private readonly int[] _cells;
    private readonly int _functions;

    private CellTable(float[] values, int[] cells, int functions, double errorBound) =>
        (_values, _cells, _functions, ErrorBound) = (values, cells, functions, errorBound);

    /// <summary>Values of all functions at one place.</summary>
    public delegate void Sampler(double x, double y, Span<double> values);

    /// <summary>Largest error of any function that the halving of parts has shown, with its margin.</summary>
    public double ErrorBound { get; }

    /// <summary>Parts a side of each cell, row by row.</summary>
    public IEnumerable<int> Parts => _cells.Select(cell => 1 << (cell & 7));

    /// <summary>Values by cell, then row, then column, then function.</summary>
    public ReadOnlySpan<float> Values => _values;

    /// <summary>A table from its parts and values.</summary>
    /// <exception cref="ArgumentException">They do not make a table.</exception>
    public static CellTable Of(int[] parts, float[] values, int functions, double errorBound)
    {
        if (parts.Length != Side * Side)
        {
            throw new ArgumentException(
                $"{Guard.Text(Side * Side)} parts are needed but {Guard.Text(parts.Length)} are given.");
        }

        int[] cells = new int[parts.Length];
        int count = 0;
        for (int i = 0; i < parts.Length; i++)
        {
            int shift = 0;
            while (1 << shift < parts[i] && shift < MostShift)
            {
                shift++;
            }

            if (1 << shift != parts[i])
            {
                throw new ArgumentException(
                    $"parts of cell {Guard.Text(i)} must be a power of two up to {Guard.Text(1 << MostShift)} but "
                        + $"are {Guard.Text(parts[i])}.");
            }

            cells[i] = (count << 3) | shift;
            count += (parts[i] + 1) * (parts[i] + 1) * functions;
        }

        return count == values.Length
            ? new CellTable(values, cells, functions, errorBound)
            : throw new ArgumentException(
                $"{Guard.Text(count)} values are needed but {Guard.Text(values.Length)} are given.");
    }

    /// <summary>Divides each cell until halving its parts has moved no value between them by more than is
    /// wanted.</summary>
    /// <remarks>
    /// The finer values are kept. Where functions are smooth their error is a quarter of what the halving showed, at a
    /// corner a half; the whole of it is the bound.
    /// </remarks>
    public static CellTable Build(
        Sampler sampler, int functions, double wantedError, Action<double>? progress, CancellationToken cancellation)
    {
        const int most = (1 << MostShift) + 1;
        double[] coarse = new double[most * most * functions], fine = new double[most * most * functions];
        List<float> values = [];
        int[] parts = new int[Side * Side];
        double bound = 0;
        for (int cell = 0; cell < parts.Length; cell++)
        {
            cancellation.ThrowIfCancellationRequested();
            int shift = FirstShift;
            Sample(sampler, cell, 1 << shift, functions, fine, default);
            double moved;
            do
            {
                shift++;
                (coarse, fine) = (fine, coarse);
                Sample(sampler, cell, 1 << shift, functions, fine, coarse);
                moved = Moved(coarse, fine, 1 << shift, functions);
            }
            while (moved > wantedError && shift < MostShift);

            bound = Math.Max(bound, moved);
            parts[cell] = 1 << shift;
            int row = parts[cell] + 1;
            for (int i = 0; i < row * row * functions; i++)
            {
                values.Add((float)fine[i]);
            }

            if ((cell + 1) % Side == 0)
            {
                progress?.Invoke((cell + 1) / (double)parts.Length);
            }
        }

        return Of(parts, [.. values], functions, bound);
    }

    /// <summary>Parts a side of one cell.</summary>
    public int PartsOf(int cell) => 1 << (_cells[cell] & 7);

    /// <summary>The first function inside a cell on one of its rows of values, at a share of the cell's side.</summary>
    public double OnRow(int cell, int row, double share)
    {
        int parts = PartsOf(cell), left = Math.Min((int)(share * parts), parts - 1);
        int at = (_cells[cell] >> 3) + (((row * (parts + 1)) + left) * _functions);
        return _values[at] + (((share * parts) - left) * (_values[at + _functions] - _values[at]));
    }

    /// <summary>The first function at shares that lie in [0, 1].</summary>
    public double At(double x, double y)
    {
        (int at, int below, double u, double v) = Place(x, y);
        return Between(at, below, u, v);
    }

    /// <summary>The first three functions.</summary>
    public (double One, double Two, double Three) ThreeAt(double x, double y)
    {
        (int at, int below, double u, double v) = Place(x, y);
        return (Between(at, below, u, v), Between(at + 1, below + 1, u, v), Between(at + 2, below + 2, u, v));
    }

    private (int At, int Below, double U, double V) Place(double x, double y)
    {
        double u = x * Side, v = y * Side;
        int column = Math.Min((int)u, Side - 1), row = Math.Min((int)v, Side - 1);
        int cell = _cells[(row * Side) + column], parts = 1 << (cell & 7);
        (u, v) = ((u - column) * parts, (v - row) * parts);
        int i = Math.Min((int)u, parts - 1), j = Math.Min((int)v, parts - 1), at = (cell >> 3)
            + (((j * (parts + 1)) + i) * _functions);
        return (at, at + ((parts + 1) * _functions), u - i, v - j);
    }

    private double Between(int at, int below, double u, double v)
    {
        float[] values = _values;
        double one = values[at], other = values[below];
        double upper = one + (u * (values[at + _functions] - one)), lower = other
            + (u * (values[below + _functions] - other));
        return upper + (v * (lower - upper));
    }

    // All places of a cell, row by row; those of half as many parts are taken over.
    private static void Sample(
        Sampler sampler, int cell, int parts, int functions, Span<double> values, ReadOnlySpan<double> coarse)
    {
        for (int j = 0, at = 0; j <= parts; j++)
        {
            double y = ((cell / Side) + (j / (double)parts)) / Side;
            for (int i = 0; i <= parts; i++, at += functions)
            {
                Span<double> place = values.Slice(at, functions);
                if (!coarse.IsEmpty && i % 2 == 0 && j % 2 == 0)
                {
                    coarse.Slice(((j / 2 * ((parts / 2) + 1)) + (i / 2)) * functions, functions).CopyTo(place);
                }
                else
                {
                    sampler(((cell % Side) + (i / (double)parts)) / Side, y, place);
                }
            }
        }
    }

    // Even places are those of the coarser parts; at the others the straight lines of the coarser parts are compared.
    private static double Moved(double[] coarse, double[] fine, int parts, int functions)
    {
        int row = ((parts / 2) + 1) * functions;
        double worst = 0;
        for (int j = 0, at = 0; j <= parts; j++)
        {
            for (int i = 0; i <= parts; i++)
            {
                int upperLeft = (j / 2 * row) + (i / 2 * functions), right = i % 2 * functions, down = j % 2 * row;
                for (int f = 0; f < functions; f++, at++, upperLeft++)
                {
                    double left = coarse[upperLeft] + coarse[upperLeft + down];
                    double straight = (left + coarse[upperLeft + right] + coarse[upperLeft + right + down]) / 4;
                    worst = Math.Max(worst, Math.Abs(fine[at] - straight));
                }
            }
        }

        return worst;
    }
}
