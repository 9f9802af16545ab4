using System.Numerics;
using SkiaSharp;

namespace CeramicOptics.Examples.WallThickness;

/// <summary>Where a view of a mesh stands in a picture.</summary>
/// <param name="View">The direction.</param>
/// <param name="X">Of the tooth's axis, or of the middle of an incisal view, in pixels.</param>
/// <param name="Y">Of the cervical margin, or of the middle, in pixels.</param>
/// <param name="PixelsPerMm">Size.</param>
internal sealed record Placement(View View, float X, float Y, float PixelsPerMm)
{
    public SKPoint At(Vector3 point) => new(
        X + (Vector3.Dot(point, View.Right) * PixelsPerMm), Y - (Vector3.Dot(point, View.Up) * PixelsPerMm));

    public float Depth(Vector3 point) => Vector3.Dot(point, View.Towards);

    public bool Shows(Mesh mesh, (int A, int B, int C) triangle)
    {
        Vector3 a = mesh.Vertices[triangle.A];
        return Vector3.Dot(
            Vector3.Cross(mesh.Vertices[triangle.B] - a, mesh.Vertices[triangle.C] - a), View.Towards) > 0;
    }
}
