using System.Numerics;
using CeramicOptics.Mapping;

namespace CeramicOptics.Examples.WallThickness;

/// <summary>Triangles over vertices; mm.</summary>
internal sealed record Mesh(Vector3[] Vertices, (int A, int B, int C)[] Triangles)
{
    /// <summary>Area-weighted normals at the vertices, outward for counter-clockwise triangles.</summary>
    public Vector3[] Normals()
    {
        Vector3[] normals = new Vector3[Vertices.Length];
        foreach ((int a, int b, int c) in Triangles)
        {
            Vector3 normal = Vector3.Cross(Vertices[b] - Vertices[a], Vertices[c] - Vertices[a]);
            normals[a] += normal;
            normals[b] += normal;
            normals[c] += normal;
        }

        return [.. normals.Select(Vector3.Normalize)];
    }

    /// <summary>The mesh for what looks beyond single points.</summary>
    public MapMesh ToMapMesh() => MapMesh.FromTriangles(
        [.. Vertices.SelectMany(v => (float[])[v.X, v.Y, v.Z])],
        [.. Triangles.SelectMany(t => (int[])[t.A, t.B, t.C])]);

    /// <summary>
    /// Distance from a point along a direction, or to the nearest vertex where that misses, as incisally beyond the
    /// tooth.
    /// </summary>
    public double Distance(Vector3 origin, Vector3 direction)
    {
        double along = Cast(origin, direction);
        return double.IsNaN(along) ? Vertices.Min(vertex => Vector3.Distance(vertex, origin)) : along;
    }

    /// <summary>
    /// Distance from a point along a direction to the nearest triangle; NaN where there is none (Möller, Trumbore
    /// 1997).
    /// </summary>
    public double Cast(Vector3 origin, Vector3 direction)
    {
        double nearest = double.NaN;
        foreach ((int a, int b, int c) in Triangles)
        {
            Vector3 u = Vertices[b] - Vertices[a], v = Vertices[c] - Vertices[a], p = Vector3.Cross(direction, v);
            float determinant = Vector3.Dot(u, p);
            if (Math.Abs(determinant) < 1e-9f)
            {
                continue;
            }

            Vector3 s = origin - Vertices[a], q = Vector3.Cross(s, u);
            float along = Vector3.Dot(s, p) / determinant, across = Vector3.Dot(direction, q) / determinant,
                distance = Vector3.Dot(v, q) / determinant;
            if (along >= 0 && across >= 0 && along + across <= 1 && distance > 0 && !(distance >= nearest))
            {
                nearest = distance;
            }
        }

        return nearest;
    }
}
