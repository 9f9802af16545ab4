using System.Numerics;
using CeramicOptics.Mapping;

namespace CeramicOptics.Tests.Unit;

/// <summary>A square lattice of points on a rectangle, turned in space about its middle.</summary>
internal sealed class PlaneMesh
{
    public PlaneMesh(double widthMm, double heightMm, double stepMm, double turned = 0)
    {
        int columns = (int)Math.Round(widthMm / stepMm) + 1, rows = (int)Math.Round(heightMm / stepMm) + 1;
        List<Vector2> flat = [];
        List<int> triangles = [];
        for (int j = 0; j < rows; j++)
        {
            for (int i = 0; i < columns; i++)
            {
                flat.Add(new Vector2((float)((i * stepMm) - (widthMm / 2)), (float)((j * stepMm) - (heightMm / 2))));
                if (i < columns - 1 && j < rows - 1)
                {
                    int at = (j * columns) + i;
                    triangles.AddRange([at, at + 1, at + columns + 1, at, at + columns + 1, at + columns]);
                }
            }
        }

        Quaternion turn = Quaternion.CreateFromYawPitchRoll(
            (float)turned, 0.7f * (float)turned, 1.3f * (float)turned);
        (Flat, Triangles) = (flat, triangles);
        Positions = [.. flat.Select(point => Vector3.Transform(new Vector3(point, 0), turn))
            .SelectMany(point => (float[])[point.X, point.Y, point.Z])];
        Mesh = MapMesh.FromTriangles(Positions, [.. triangles]);
    }

    /// <summary>Positions in the plane.</summary>
    public IReadOnlyList<Vector2> Flat { get; }

    public IReadOnlyList<int> Triangles { get; }

    public float[] Positions { get; }

    public MapMesh Mesh { get; }

    public T[] Each<T>(Func<Vector2, T> value) => [.. Flat.Select(value)];

    /// <summary>The point nearest to a place.</summary>
    public int At(double x, double y) => Enumerable.Range(0, Flat.Count)
        .MinBy(i => Vector2.DistanceSquared(Flat[i], new Vector2((float)x, (float)y)));
}
