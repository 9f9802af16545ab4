using System.Numerics;

namespace CeramicOptics.Examples.WallThickness;

/// <summary>
/// An invented crown for an upper front tooth: a closed outer shape, and the prepared tooth in it. Nothing was
/// measured.
/// </summary>
internal static class InventedCrown
{
    private const int FewRings = 56, FewAround = 72;

    // Fractions of the height: the cervical zone ends at the first, the incisal one begins at the second.
    private const double CervicalEnd = 0.3, IncisalBegin = 0.75;

    public const double HeightMm = 9.5;

    /// <summary>The outside, from margin (bottom) to incisal edge (top); closed at both ends.</summary>
    /// <param name="finer">How many times as many points in each direction.</param>
    public static Mesh Outside(int finer = 1) => Shape(finer, (height, angle) =>
    {
        double width = 3.0 + (1.25 * Math.Pow(height, 0.7)) - (0.5 * Math.Pow(height, 6));
        double depth = (3.0 * (1 - (0.72 * Math.Pow(height, 1.3)))) + (0.25 * Math.Sin(Math.PI * height));
        return (width * Math.Cos(angle), depth * Math.Sin(angle), HeightMm * height);
    });

    /// <summary>The prepared tooth: smaller by the reduction, which is uneven as it is in life, and shorter.</summary>
    public static Mesh Preparation() => Shape(1, (height, angle) =>
    {
        double width = 2.15 + (0.95 * Math.Pow(height, 0.7)) - (0.35 * Math.Pow(height, 6));
        double depth = (2.2 * (1 - (0.75 * Math.Pow(height, 1.3)))) + (0.15 * Math.Sin(Math.PI * height));
        double labial = 0.18 * Math.Max(0, -Math.Sin(angle)) * Math.Exp(-Math.Pow((height - 0.55) / 0.2, 2));
        return (
            (width + (0.15 * Math.Sin((2 * angle) + 1))) * Math.Cos(angle), (depth + labial) * Math.Sin(angle),
            0.05 + ((HeightMm - 1.6) * height));
    });

    /// <summary>0 cervical, 1 body, 2 incisal.</summary>
    public static byte ZoneOf(Vector3 point) =>
        point.Z < CervicalEnd * HeightMm ? (byte)0 : point.Z < IncisalBegin * HeightMm ? (byte)1 : (byte)2;

    private static Mesh Shape(int finer, Func<double, double, (double X, double Y, double Z)> at)
    {
        (int rings, int around) = (finer * FewRings, finer * FewAround);
        List<Vector3> vertices = [];
        for (int ring = 0; ring <= rings; ring++)
        {
            // The last rings close in on the top.
            double height = ring / (double)rings, close = Math.Sqrt(
                Math.Max(0, 1 - Math.Pow(Math.Max(0, (height - 0.9) / 0.1), 2)));
            for (int k = 0; k < around; k++)
            {
                (double x, double y, double z) = at(height, 2 * Math.PI * k / around);
                vertices.Add(new Vector3((float)(x * close), (float)(y * close), (float)z));
            }
        }

        List<(int, int, int)> triangles = [];
        for (int ring = 0; ring < rings; ring++)
        {
            for (int k = 0; k < around; k++)
            {
                int a = (ring * around) + k, b = (ring * around) + ((k + 1) % around);
                triangles.Add((a, b, b + around));
                if (ring < rings - 1)
                {
                    triangles.Add((a, b + around, a + around));
                }
            }
        }

        // The bottom is closed by a fan.
        vertices.Add(new Vector3(0, 0, vertices[0].Z));
        for (int k = 0; k < around; k++)
        {
            triangles.Add((vertices.Count - 1, (k + 1) % around, k));
        }

        return new Mesh([.. vertices], [.. triangles]);
    }
}
