using System.Numerics;
using CeramicOptics.Mapping.Spreading;

namespace CeramicOptics.Mapping;

/// <summary>Points of a surface and which of them are neighbours, made once and used by all that looks beyond single
/// points.</summary>
/// <remarks>
/// A mesh of triangles knows positions, normals and areas; one of edges knows distances only, which is enough for
/// <see cref="WallSuggestion"/> but not for <see cref="SpreadMap"/>. Everything is copied; immutable and safe to share.
/// </remarks>
public sealed class MapMesh
{
    private const double LongestMm = 1e6;

    // Area of a point that belongs to no triangle.
    private const float NoAreaMm2 = 1e-9f;

    // Lengths are rounded down to single precision, so that a slope along them is never above the limit.
    private const double Down = 1 - 1.2e-7;

    private readonly SurfaceNode[] _vertices;
    private readonly SurfaceLevel?[] _levels = new SurfaceLevel?[SpreadLadder.Count];

    private MapMesh(int count, int[] first, int[] neighbours, float[] lengthsMm, SurfaceNode[] vertices) =>
        (PointCount, First, Neighbours, LengthsMm, _vertices) = (count, first, neighbours, lengthsMm, vertices);

    /// <summary>Number of points.</summary>
    public int PointCount { get; }

    /// <summary>True when the mesh was made of triangles and knows positions and areas.</summary>
    internal bool HasPositions => _vertices.Length > 0 || PointCount == 0;

    /// <summary>Position in <see cref="Neighbours"/> where those of a point begin; one more at the end.</summary>
    internal int[] First { get; }

    /// <summary>Neighbours of each point, one after another: every edge twice.</summary>
    internal int[] Neighbours { get; }

    internal float[] LengthsMm { get; }

    internal ReadOnlySpan<SurfaceNode> Vertices => _vertices;

    /// <summary>A mesh of triangles.</summary>
    /// <param name="positionsMm">x, y, z of each point, mm, -10000 to 10000.</param>
    /// <param name="triangles">Three indices of points for each triangle, counter-clockwise seen from outside.</param>
    /// <exception cref="ArgumentException">A length is not a multiple of three.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A coordinate or an index is outside its range or NaN.</exception>
    /// <remarks>
    /// A point has a third of the area of each of its triangles. Points of one place that were not merged, as in a file
    /// of single triangles, are not neighbours for the slope of a wall; the spread of light does not need them to be.
    /// </remarks>
    public static MapMesh FromTriangles(ReadOnlySpan<float> positionsMm, ReadOnlySpan<int> triangles)
    {
        RequireThrees(positionsMm.Length, nameof(positionsMm));
        RequireThrees(triangles.Length, nameof(triangles));
        int count = positionsMm.Length / 3;
        for (int i = 0; i < positionsMm.Length; i++)
        {
            if (!(Math.Abs(positionsMm[i]) <= CellIndex.LargestMm))
            {
                Guard.InRange(
                    positionsMm[i], -CellIndex.LargestMm, CellIndex.LargestMm, "mm",
                    $"coordinate {"xyz"[i % 3]} of point {Guard.Text(i / 3)}");
            }
        }

        foreach (int point in triangles)
        {
            if ((uint)point >= (uint)count)
            {
                Guard.InRange(point, 0, count - 1, "point of a triangle");
            }
        }

        SurfaceNode[] vertices = VerticesOf(positionsMm, triangles);
        (int[] first, int[] neighbours) = NeighboursOf(count, triangles);
        float[] lengths = new float[neighbours.Length];
        for (int i = 0; i < count; i++)
        {
            for (int k = first[i]; k < first[i + 1]; k++)
            {
                lengths[k] = (float)(Down * Vector3.Distance(
                    vertices[i].Position, vertices[neighbours[k]].Position));
            }
        }

        return new MapMesh(count, first, neighbours, lengths, vertices);
    }

    /// <summary>A mesh of which only neighbours and their distances are known.</summary>
    /// <param name="points">Number of points, 0 or more.</param>
    /// <param name="edges">Pairs of neighbouring points.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number of points, an end of an edge or its length is outside
    /// its range.</exception>
    public static MapMesh FromEdges(int points, ReadOnlySpan<MeshEdge> edges)
    {
        Guard.InRange(points, 0, int.MaxValue);
        int[] first = new int[points + 1], neighbours = new int[2 * edges.Length];
        float[] lengths = new float[neighbours.Length];
        for (int e = 0; e < edges.Length; e++)
        {
            MeshEdge edge = edges[e];
            if ((uint)edge.A >= (uint)points || (uint)edge.B >= (uint)points
                || !(edge.LengthMm >= 0 && edge.LengthMm <= LongestMm))
            {
                // Only now are names made.
                Guard.InRange(edge.A, 0, points - 1, $"end of edge {Guard.Text(e)}");
                Guard.InRange(edge.B, 0, points - 1, $"end of edge {Guard.Text(e)}");
                Guard.InRange(edge.LengthMm, 0, LongestMm, "mm", $"length of edge {Guard.Text(e)}");
            }

            first[edge.A]++;
            first[edge.B]++;
        }

        ToEnds(first);
        foreach (MeshEdge edge in edges)
        {
            Put(edge.A, edge.B, edge.LengthMm);
            Put(edge.B, edge.A, edge.LengthMm);
        }

        return new MapMesh(points, first, neighbours, lengths, []);

        void Put(int of, int other, double lengthMm)
        {
            int at = --first[of];
            (neighbours[at], lengths[at]) = (other, (float)(Down * lengthMm));
        }
    }

    /// <summary>Lists about points hold one item for each.</summary>
    internal void RequireLength(int length, string name)
    {
        if (length != PointCount)
        {
            throw new ArgumentException(
                $"{name} holds {Guard.Text(length)} items but the mesh has {Guard.Text(PointCount)} points.", name);
        }
    }

    private static void RequireThrees(int length, string name)
    {
        if (length % 3 != 0)
        {
            throw new ArgumentException(
                $"{name} holds {Guard.Text(length)} numbers, which is not a multiple of three.", name);
        }
    }

    private static SurfaceNode[] VerticesOf(ReadOnlySpan<float> positionsMm, ReadOnlySpan<int> triangles)
    {
        SurfaceNode[] vertices = new SurfaceNode[positionsMm.Length / 3];
        for (int i = 0; i < vertices.Length; i++)
        {
            Vector3 position = new(positionsMm[3 * i], positionsMm[(3 * i) + 1], positionsMm[(3 * i) + 2]);
            vertices[i] = new SurfaceNode(position, Vector3.Zero, NoAreaMm2);
        }

        for (int t = 0; t < triangles.Length; t += 3)
        {
            Vector3 a = vertices[triangles[t]].Position, b = vertices[triangles[t + 1]].Position;
            Vector3 normal = Vector3.Cross(b - a, vertices[triangles[t + 2]].Position - a);
            float third = normal.Length() / 6;
            for (int k = 0; k < 3; k++)
            {
                ref SurfaceNode vertex = ref vertices[triangles[t + k]];
                vertex = new SurfaceNode(vertex.Position, vertex.Normal + normal, vertex.AreaMm2 + third);
            }
        }

        for (int i = 0; i < vertices.Length; i++)
        {
            Vector3 normal = vertices[i].Normal;
            float length = normal.Length();
            vertices[i] = vertices[i] with { Normal = length > 0 ? normal / length : Vector3.Zero };
        }

        return vertices;
    }

    // Both directions of every side of every triangle, then each neighbour of a point once.
    private static (int[] First, int[] Neighbours) NeighboursOf(int count, ReadOnlySpan<int> triangles)
    {
        int[] first = new int[count + 1];
        foreach (int point in triangles)
        {
            first[point] += 2;
        }

        ToEnds(first);
        int[] all = new int[2 * triangles.Length];
        for (int t = 0; t < triangles.Length; t += 3)
        {
            for (int k = 0; k < 3; k++)
            {
                int a = triangles[t + k], b = triangles[t + ((k + 1) % 3)];
                (all[--first[a]], all[--first[b]]) = (b, a);
            }
        }

        int kept = 0;
        for (int i = 0; i < count; i++)
        {
            int begin = first[i], end = first[i + 1];
            first[i] = kept;
            for (int k = begin; k < end; k++)
            {
                int other = all[k];
                if (other != i && all.AsSpan(first[i], kept - first[i]).IndexOf(other) < 0)
                {
                    all[kept++] = other;
                }
            }
        }

        first[count] = kept;
        return (first, all.AsSpan(0, kept).ToArray());
    }

    // Each count becomes the end of its point's places, and falls to their beginning while they are filled.
    private static void ToEnds(int[] counts)
    {
        for (int i = 1; i < counts.Length; i++)
        {
            counts[i] += counts[i - 1];
        }
    }

    /// <summary>The surface at every scale of the spread, each made once.</summary>
    internal SurfaceLevel[] LevelsFor(CancellationToken cancellation)
    {
        SurfaceLevel[] levels = new SurfaceLevel[_levels.Length];
        for (int i = 0; i < levels.Length; i++)
        {
            levels[i] = _levels[i] ??= new SurfaceLevel(
                i == 0 ? _vertices : levels[i - 1].Nodes, SpreadLadder.RadiusMm(i), cancellation);
        }

        return levels;
    }
}
