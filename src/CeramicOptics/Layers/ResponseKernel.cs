using System.Numerics;
using System.Runtime.InteropServices;
#if NET
using System.Runtime.Intrinsics;
#endif

namespace CeramicOptics.Layers;

/// <summary>Reflectances of a compiled stack from its coefficients, wavelengths side by side in a vector.</summary>
/// <remarks>
/// Coefficients stand in blocks of eight wavelengths. The sums of a block stay in registers, those of four walls
/// together, so that each coefficient that is read serves all of them. The last block begins early enough to be whole
/// and repeats what the one before has; only fewer than eight wavelengths leave room in it. Immutable.
/// </remarks>
internal sealed class ResponseKernel
{
    /// <summary>Walls in one batch.</summary>
    public const int Walls = 8;

    private const int Together = 4, Block = 8, Reflecting = 3;

    // By block, then node, then A, B, C, then wavelength; and what passes by node, then wavelength.
    private readonly double[] _blocks, _passing;
    private readonly int _wavelengths, _size;

    public ResponseKernel(double[] coefficients, int wavelengths)
    {
        int nodes = coefficients.Length / (StackResponse.Functions * wavelengths);
        (_wavelengths, _size) = (wavelengths, nodes * Reflecting * Block);
        _blocks = new double[(wavelengths + Block - 1) / Block * _size];
        _passing = new double[nodes * wavelengths];
        for (int node = 0; node < nodes; node++)
        {
            ReadOnlySpan<double> functions = coefficients.AsSpan(
                node * StackResponse.Functions * wavelengths, StackResponse.Functions * wavelengths);
            for (int block = 0; block < _blocks.Length / _size; block++)
            {
                for (int f = 0; f < Reflecting; f++)
                {
                    functions.Slice((f * wavelengths) + Start(block), Math.Min(Block, wavelengths)).CopyTo(
                        _blocks.AsSpan((block * _size) + (((node * Reflecting) + f) * Block)));
                }
            }

            functions.Slice(Reflecting * wavelengths).CopyTo(_passing.AsSpan(node * wavelengths));
        }
    }

    /// <summary>Length of the reflectances of a substrate, those of all wavelengths and whatever follows.</summary>
    public int SubstrateLength => Math.Max(_wavelengths, Block);

    /// <summary>Light that passes one wall.</summary>
    /// <param name="factors">One factor for each node.</param>
    /// <param name="destination">Receives one share for each wavelength.</param>
    public void Passing(ReadOnlySpan<double> factors, Span<double> destination)
    {
        destination.Clear();
        for (int node = 0; node < factors.Length; node++)
        {
            SpanMath.AddScaled(destination, _passing.AsSpan(node * _wavelengths, _wavelengths), factors[node]);
        }
    }

    /// <summary>Reflectances of one wall.</summary>
    /// <param name="factors">One factor for each node.</param>
    /// <param name="substrate">Internal reflectances of the substrate.</param>
    /// <param name="destination">Receives one reflectance for each wavelength.</param>
    public void One(ReadOnlySpan<double> factors, ReadOnlySpan<double> substrate, Span<double> destination)
    {
        int vectors = Block / Vector<double>.Count;
        for (int block = 0; block * _size < _blocks.Length; block++)
        {
            ReadOnlySpan<Vector<double>> rows = MemoryMarshal.Cast<double, Vector<double>>(
                _blocks.AsSpan(block * _size, _size));
            for (int v = 0; v < vectors; v++)
            {
                // Even and odd nodes apart, so that few sums wait for each other.
                Vector<double> a = default, b = default, c = default, a1 = default, b1 = default, c1 = default;
                int node = 0, at = v;
                for (; node + 1 < factors.Length; node += 2, at += 2 * Reflecting * vectors)
                {
                    Vector<double> f = new(factors[node]), g = new(factors[node + 1]);
                    a = SpanMath.Plus(a, f, rows[at]);
                    b = SpanMath.Plus(b, f, rows[at + vectors]);
                    c = SpanMath.Plus(c, f, rows[at + (2 * vectors)]);
                    a1 = SpanMath.Plus(a1, g, rows[at + (3 * vectors)]);
                    b1 = SpanMath.Plus(b1, g, rows[at + (4 * vectors)]);
                    c1 = SpanMath.Plus(c1, g, rows[at + (5 * vectors)]);
                }

                if (node < factors.Length)
                {
                    Vector<double> f = new(factors[node]);
                    a = SpanMath.Plus(a, f, rows[at]);
                    b = SpanMath.Plus(b, f, rows[at + vectors]);
                    c = SpanMath.Plus(c, f, rows[at + (2 * vectors)]);
                }

                int from = Start(block) + (v * Vector<double>.Count);
                Put(Over(a + a1, b + b1, c + c1, Load(substrate, from)), destination, from);
            }
        }
    }

    /// <summary>Reflectances of a batch of walls.</summary>
    /// <param name="factors">By node, then wall.</param>
    /// <param name="substrate">Internal reflectances of the substrate.</param>
    /// <param name="destination">Receives the reflectances by wall, then wavelength.</param>
    public void Batch(ReadOnlySpan<double> factors, ReadOnlySpan<double> substrate, Span<double> destination)
    {
        for (int block = 0; block * _size < _blocks.Length; block++)
        {
            ReadOnlySpan<double> rows = _blocks.AsSpan(block * _size, _size);
            for (int wall = 0; wall < Walls; wall += Together)
            {
                Span<double> four = destination.Slice(wall * _wavelengths, Together * _wavelengths);
#if NET
                if (Vector512.IsHardwareAccelerated)
                {
                    FourWide(rows, factors.Slice(wall), substrate, four, Start(block));
                    continue;
                }
#endif
                for (int v = 0; v < Block / Vector<double>.Count; v++)
                {
                    Four(
                        rows.Slice(v * Vector<double>.Count), factors.Slice(wall), substrate, four,
                        Start(block) + (v * Vector<double>.Count));
                }
            }
        }
    }

    /// <summary>R = A + B g / (1 - C g), never below 0.</summary>
    public static Vector<double> Over(Vector<double> a, Vector<double> b, Vector<double> c, Vector<double> g) =>
        Vector.Max(Vector<double>.Zero, a + (b * g / (Vector<double>.One - (c * g))));

    private void Four(
        ReadOnlySpan<double> rows, ReadOnlySpan<double> factors, ReadOnlySpan<double> substrate,
        Span<double> destination, int from)
    {
        ReadOnlySpan<double> g = substrate.Slice(from);
        Vector<double> a0 = default, a1 = default, a2 = default, a3 = default;
        Vector<double> b0 = default, b1 = default, b2 = default, b3 = default;
        Vector<double> c0 = default, c1 = default, c2 = default, c3 = default;
        for (; factors.Length >= Together; factors = Next(factors, Walls), rows = Next(rows, Reflecting * Block))
        {
            Vector<double> a = Load(rows, 0), b = Load(rows, Block), c = Load(rows, 2 * Block), f = new(factors[0]);
            (a0, b0, c0) = (SpanMath.Plus(a0, f, a), SpanMath.Plus(b0, f, b), SpanMath.Plus(c0, f, c));
            f = new(factors[1]);
            (a1, b1, c1) = (SpanMath.Plus(a1, f, a), SpanMath.Plus(b1, f, b), SpanMath.Plus(c1, f, c));
            f = new(factors[2]);
            (a2, b2, c2) = (SpanMath.Plus(a2, f, a), SpanMath.Plus(b2, f, b), SpanMath.Plus(c2, f, c));
            f = new(factors[3]);
            (a3, b3, c3) = (SpanMath.Plus(a3, f, a), SpanMath.Plus(b3, f, b), SpanMath.Plus(c3, f, c));
        }

        Put(Over(a0, b0, c0, Load(g, 0)), destination, from);
        Put(Over(a1, b1, c1, Load(g, 0)), destination.Slice(_wavelengths), from);
        Put(Over(a2, b2, c2, Load(g, 0)), destination.Slice(2 * _wavelengths), from);
        Put(Over(a3, b3, c3, Load(g, 0)), destination.Slice(3 * _wavelengths), from);
    }

#if NET
    // The same with a whole block in one vector.
    private void FourWide(
        ReadOnlySpan<double> rows, ReadOnlySpan<double> factors, ReadOnlySpan<double> substrate,
        Span<double> destination, int from)
    {
        Vector512<double> g = Vector512.Create(substrate.Slice(from));
        Vector512<double> a0 = default, a1 = default, a2 = default, a3 = default;
        Vector512<double> b0 = default, b1 = default, b2 = default, b3 = default;
        Vector512<double> c0 = default, c1 = default, c2 = default, c3 = default;
        ReadOnlySpan<Vector512<double>> wide = MemoryMarshal.Cast<double, Vector512<double>>(rows);
        for (; factors.Length >= Together && wide.Length >= Reflecting;
            factors = Next(factors, Walls), wide = wide.Slice(Reflecting))
        {
            Vector512<double> a = wide[0], b = wide[1], c = wide[2], f = Vector512.Create(factors[0]);
            (a0, b0, c0) = (Plus(a0, f, a), Plus(b0, f, b), Plus(c0, f, c));
            f = Vector512.Create(factors[1]);
            (a1, b1, c1) = (Plus(a1, f, a), Plus(b1, f, b), Plus(c1, f, c));
            f = Vector512.Create(factors[2]);
            (a2, b2, c2) = (Plus(a2, f, a), Plus(b2, f, b), Plus(c2, f, c));
            f = Vector512.Create(factors[3]);
            (a3, b3, c3) = (Plus(a3, f, a), Plus(b3, f, b), Plus(c3, f, c));
        }

        Put(Over(a0, b0, c0, g), destination, from);
        Put(Over(a1, b1, c1, g), destination.Slice(_wavelengths), from);
        Put(Over(a2, b2, c2, g), destination.Slice(2 * _wavelengths), from);
        Put(Over(a3, b3, c3, g), destination.Slice(3 * _wavelengths), from);
    }

    private static Vector512<double> Plus(Vector512<double> sum, Vector512<double> x, Vector512<double> y) =>
        Vector512.MultiplyAddEstimate(x, y, sum);

    private static Vector512<double> Over(
        Vector512<double> a, Vector512<double> b, Vector512<double> c, Vector512<double> g) =>
        Vector512.MaxNative(Vector512<double>.Zero, a + (b * g / (Vector512<double>.One - (c * g))));

    private void Put(Vector512<double> lanes, Span<double> destination, int at)
    {
        if (at + Block <= _wavelengths)
        {
            lanes.CopyTo(destination.Slice(at));
            return;
        }

        for (int i = at; i < _wavelengths; i++)
        {
            destination[i] = lanes[i - at];
        }
    }
#endif

    private static ReadOnlySpan<double> Next(ReadOnlySpan<double> values, int by) =>
        values.Length > by ? values.Slice(by) : default;

    private static Vector<double> Load(ReadOnlySpan<double> values, int at) =>
        MemoryMarshal.Cast<double, Vector<double>>(values.Slice(at, Vector<double>.Count))[0];

    private int Start(int block) => Math.Max(0, Math.Min(block * Block, _wavelengths - Block));

    // Writes as many lanes as there are wavelengths.
    private void Put(Vector<double> lanes, Span<double> destination, int at)
    {
        if (at + Vector<double>.Count <= _wavelengths)
        {
            MemoryMarshal.Cast<double, Vector<double>>(destination.Slice(at, Vector<double>.Count))[0] = lanes;
            return;
        }

        for (int i = at; i < _wavelengths; i++)
        {
            destination[i] = lanes[i - at];
        }
    }
}
