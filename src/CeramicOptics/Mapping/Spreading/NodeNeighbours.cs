using System.Numerics;

namespace CeramicOptics.Mapping.Spreading;

/// <summary>The nodes that the kernel of a level reaches from one of them, with their weights.</summary>
/// <remarks>
/// Weights are area times (1 - r²/c²)² times min(1, 2 n·n'), none where normals are 90 degrees or more apart: light
/// does not pass from one face of a thin wall to the other, nor from a crown to its neighbour. Not for two threads at
/// once.
/// </remarks>
internal sealed class NodeNeighbours
{
    private int[] _nodes = new int[512];
    private Vector4[] _weights = new Vector4[512];
    private int _count;
    private Vector4 _sum;

    /// <summary>Finds the neighbours of a node, itself among them.</summary>
    public void Find(SurfaceLevel level, int node)
    {
        (_count, _sum) = (0, Vector4.Zero);
        SurfaceNode[] nodes = level.Nodes;
        SurfaceNode own = nodes[node];
        float perSquare = 1 / (level.ReachMm * level.ReachMm);
        foreach (int bucket in level.Around(level.BucketOf[node]))
        {
            if (bucket < 0)
            {
                continue;
            }

            int end = level.FirstOf(bucket + 1);
            for (int q = level.FirstOf(bucket); q < end; q++)
            {
                ref readonly SurfaceNode other = ref nodes[q];
                Vector3 away = other.Position - own.Position;
                float inside = 1 - (away.LengthSquared() * perSquare);
                if (inside <= 0)
                {
                    continue;
                }

                float alike = Vector3.Dot(other.Normal, own.Normal);
                if (alike > 0)
                {
                    Add(q, other.AreaMm2 * Math.Min(1, 2 * alike) * inside, inside, 4 * perSquare * away);
                }
            }
        }
    }

    /// <summary>Mean of a field over the neighbours and its gradient; the field itself where there are none.</summary>
    public SpreadTerm Of(Vector4[] field, int node)
    {
        if (!(_sum.W > 0))
        {
            return new SpreadTerm(field[node], Vector4.Zero, Vector4.Zero, Vector4.Zero);
        }

        Vector4 x = Vector4.Zero, y = Vector4.Zero, z = Vector4.Zero, value = Vector4.Zero;
        ReadOnlySpan<Vector4> weights = _weights.AsSpan(0, _count);
        ReadOnlySpan<int> nodes = _nodes.AsSpan(0, _count);
        for (int i = 0; i < weights.Length; i++)
        {
            Vector4 own = field[nodes[i]], weight = weights[i];
            x += weight.X * own;
            y += weight.Y * own;
            z += weight.Z * own;
            value += weight.W * own;
        }

        float per = 1 / _sum.W;
        value *= per;
        return new SpreadTerm(
            value, per * (x - (_sum.X * value)), per * (y - (_sum.Y * value)), per * (z - (_sum.Z * value)));
    }

    private void Add(int node, float weight, float inside, Vector3 slope)
    {
        if (_count == _nodes.Length)
        {
            Array.Resize(ref _nodes, 2 * _count);
            Array.Resize(ref _weights, 2 * _count);
        }

        Vector4 all = new(weight * slope, weight * inside);
        (_nodes[_count], _weights[_count]) = (node, all);
        _sum += all;
        _count++;
    }
}
