using CeramicOptics.Colorimetry;

namespace CeramicOptics.Decisions.Feasibility;

/// <summary>Convex hull of colours in L*a*b*, by adding one point after another.</summary>
/// <remarks>
/// Of the many colours those that are the farthest in one of some hundred directions are taken first, then those
/// outside that hull, until none lies outside by more than 0.05. Among them: de Berg et al. 2008, Computational
/// Geometry, 11.2, without the conflict graph.
/// </remarks>
internal static class ConvexHull
{
    // Colours nearer than this to a face count as on it, and to each other as the same.
    private const double Tolerance = 1e-6;

    // No colour lies outside the hull by more than this.
    private const double Fineness = 0.05;
    private const int Directions = 300;

    /// <summary>
    /// Positions of the corners among the colours, and triangles as positions among the corners, counter-clockwise from
    /// outside.
    /// </summary>
    public static (IReadOnlyList<int> Corners, IReadOnlyList<HullTriangle> Triangles) Of(
        Lab[] colors, CancellationToken cancellation = default)
    {
        if (colors.Length == 0)
        {
            return ([], []);
        }

        int[] taken = Extremes(colors, cancellation);
        while (true)
        {
            (IReadOnlyList<int> corners, IReadOnlyList<HullTriangle> triangles) =
                OfFew([.. taken.Select(i => colors[i])], cancellation);
            int[] at = [.. corners.Select(i => taken[i])];
            int[] outside = [.. triangles
                .Select(face => Farthest(
                    colors, new HullTriangle(at[face.A], at[face.B], at[face.C]), cancellation))
                .OfType<int>().Except(taken)];
            if (outside.Length == 0)
            {
                return (at, triangles);
            }

            taken = [.. taken.Concat(outside).OrderBy(i => i)];
        }
    }

    // The colour farthest outside a face, where it is farther than may be left out.
    private static int? Farthest(Lab[] colors, HullTriangle face, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        (int? farthest, double height) = (null, Fineness);
        for (int i = 0; i < colors.Length; i++)
        {
            double above = Height(colors, face, i);
            (farthest, height) = above > height ? (i, above) : (farthest, height);
        }

        return farthest;
    }

    private static int[] Extremes(Lab[] colors, CancellationToken cancellation)
    {
        List<int> found = [];
        foreach ((double l, double a, double b) in EvenDirections.OnSphere(Directions))
        {
            cancellation.ThrowIfCancellationRequested();
            int best = 0;
            double farthest = double.NegativeInfinity;
            for (int i = 0; i < colors.Length; i++)
            {
                double reach = (l * colors[i].L) + (a * colors[i].A) + (b * colors[i].B);
                (best, farthest) = reach > farthest ? (i, reach) : (best, farthest);
            }

            if (!found.Exists(other => Length(Minus(colors[best], colors[other])) <= Tolerance))
            {
                found.Add(best);
            }
        }

        found.Sort();
        return [.. found];
    }

    private static (IReadOnlyList<int> Corners, IReadOnlyList<HullTriangle> Triangles) OfFew(
        Lab[] colors, CancellationToken cancellation)
    {
        if (FirstTetrahedron(colors) is not { } first)
        {
            return ([.. Enumerable.Range(0, colors.Length)], []);
        }

        (int a, int b, int c, int d) = first;
        List<HullTriangle> faces = Volume(colors[a], colors[b], colors[c], colors[d]) > 0
            ? [new(a, c, b), new(a, b, d), new(b, c, d), new(c, a, d)]
            : [new(a, b, c), new(a, d, b), new(b, d, c), new(c, d, a)];
        for (int p = 0; p < colors.Length; p++)
        {
            cancellation.ThrowIfCancellationRequested();
            List<HullTriangle> visible = [.. faces.Where(face => Height(colors, face, p) > Tolerance)];
            if (visible.Count == 0)
            {
                continue;
            }

            HashSet<(int, int)> edges =
                [.. visible.SelectMany(face => ((int, int)[])[(face.A, face.B), (face.B, face.C), (face.C, face.A)])];
            faces.RemoveAll(visible.Contains);
            faces.AddRange(edges.Where(edge => !edges.Contains((edge.Item2, edge.Item1)))
                .Select(edge => new HullTriangle(edge.Item1, edge.Item2, p)));
        }

        int[] corners = [.. faces.SelectMany(face => (int[])[face.A, face.B, face.C]).Distinct().OrderBy(i => i)];
        return (corners, [.. faces.Select(face => new HullTriangle(
            Array.IndexOf(corners, face.A), Array.IndexOf(corners, face.B), Array.IndexOf(corners, face.C)))]);
    }

    private static (int A, int B, int C, int D)? FirstTetrahedron(Lab[] colors)
    {
        int Farthest(Func<Lab, double> measure) =>
            Enumerable.Range(0, colors.Length).OrderByDescending(i => measure(colors[i])).First();
        if (colors.Length < 4)
        {
            return null;
        }

        int a = Farthest(color => color.L), b = Farthest(color => Length(Minus(color, colors[a])));
        int c = Farthest(color => Length(Cross(Minus(colors[b], colors[a]), Minus(color, colors[a]))));
        int d = Farthest(color => Math.Abs(Volume(colors[a], colors[b], colors[c], color)));
        return Math.Abs(Volume(colors[a], colors[b], colors[c], colors[d])) > 1e-9 ? (a, b, c, d) : null;
    }

    // Distance of a point above a face, seen from outside.
    private static double Height(Lab[] colors, HullTriangle face, int point)
    {
        Lab normal = Cross(Minus(colors[face.B], colors[face.A]), Minus(colors[face.C], colors[face.A]));
        double length = Length(normal);
        return length == 0 ? 0 : Dot(normal, Minus(colors[point], colors[face.A])) / length;
    }

    private static double Volume(Lab a, Lab b, Lab c, Lab d) => Dot(Cross(Minus(b, a), Minus(c, a)), Minus(d, a));

    private static Lab Minus(Lab one, Lab other) => new(one.L - other.L, one.A - other.A, one.B - other.B);

    private static Lab Cross(Lab u, Lab v) =>
        new((u.A * v.B) - (u.B * v.A), (u.B * v.L) - (u.L * v.B), (u.L * v.A) - (u.A * v.L));

    private static double Dot(Lab u, Lab v) => (u.L * v.L) + (u.A * v.A) + (u.B * v.B);

    private static double Length(Lab u) => Math.Sqrt(Dot(u, u));
}
