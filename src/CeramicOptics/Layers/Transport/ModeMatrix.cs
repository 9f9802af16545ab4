using System.Numerics;
using System.Runtime.InteropServices;

namespace CeramicOptics.Layers.Transport;

/// <summary>A square matrix by rows padded to whole SIMD vectors.</summary>
internal sealed class ModeMatrix
{
    private readonly Vector<double>[] _vectors;
    private readonly int _perRow;

    public ModeMatrix(int order)
    {
        Order = order;
        _perRow = FluxNetwork.Padded(order);
        _vectors = new Vector<double>[order * _perRow];
    }

    public int Order { get; }

    public Span<double> Row(int row) => MemoryMarshal.Cast<Vector<double>, double>(Vectors(row));

    public Span<Vector<double>> Vectors(int row) => _vectors.AsSpan(row * _perRow, _perRow);
}
