using CeramicOptics.Colorimetry;
using MathNet.Numerics.LinearAlgebra;

namespace CeramicOptics.Characterization.Photographs;

/// <summary>How far a colour lies outside the convex hull of the chart's colours in L*a*b*.</summary>
/// <remarks>
/// The nearest point of a polytope by Wolfe 1976, Math. Program. 11:128-149: a mixture of at most four colours.
/// </remarks>
internal static class ChartGamut
{
    private const double Tolerance = 1e-12;
    private const int MaximumSteps = 1000;

    /// <summary>Distance in L*a*b* units; 0 inside.</summary>
    public static double DistanceOutside(Lab color, IReadOnlyList<Lab> chart)
    {
        double[][] points =
            [.. chart.Select(known => new[] { known.L - color.L, known.A - color.A, known.B - color.B })];
        double size = points.Max(point => Dot(point, point));
        int first = Enumerable.Range(0, points.Length).OrderBy(i => Dot(points[i], points[i])).First();
        List<int> corners = [first];
        List<double> shares = [1];
        double[] nearest = points[first];
        for (int step = 0; step < MaximumSteps; step++)
        {
            int next = Enumerable.Range(0, points.Length).OrderBy(i => Dot(nearest, points[i])).First();
            double gain = Dot(nearest, nearest) - Dot(nearest, points[next]);
            if (gain <= Tolerance * size || corners.Contains(next))
            {
                break;
            }

            corners.Add(next);
            shares.Add(0);
            if (!Reduce(points, corners, shares))
            {
                break;
            }

            nearest = Mixture(points, corners, shares);
        }

        double distance = Math.Sqrt(Dot(nearest, nearest));
        return distance <= 1e-6 * (1 + Math.Sqrt(size)) ? 0 : distance;
    }

    // Moves to the nearest point of the plane through the corners; gives up every corner that needs a negative share.
    private static bool Reduce(double[][] points, List<int> corners, List<double> shares)
    {
        while (true)
        {
            double[] wanted = InPlane(points, corners);
            if (!Array.TrueForAll(wanted, Guard.IsFinite))
            {
                return false;
            }

            double fraction = 1;
            for (int i = 0; i < wanted.Length; i++)
            {
                double fall = shares[i] - wanted[i];
                fraction = wanted[i] > Tolerance ? fraction : fall > 0 ? Math.Min(fraction, shares[i] / fall) : 0;
            }

            for (int i = wanted.Length - 1; i >= 0; i--)
            {
                shares[i] += fraction * (wanted[i] - shares[i]);
                if (shares[i] <= Tolerance && wanted[i] <= Tolerance)
                {
                    corners.RemoveAt(i);
                    shares.RemoveAt(i);
                }
            }

            if (corners.Count == wanted.Length)
            {
                return true;
            }
        }
    }

    private static double[] InPlane(double[][] points, List<int> corners)
    {
        int n = corners.Count;
        Matrix<double> matrix = Matrix<double>.Build.Dense(
            n + 1,
            n + 1,
            (i, j) => i < n && j < n ? Dot(points[corners[i]], points[corners[j]]) : i == n && j == n ? 0 : 1);
        Vector<double> right = Vector<double>.Build.Dense(n + 1);
        right[n] = 1;
        return matrix.Solve(right).SubVector(0, n).ToArray();
    }

    private static double[] Mixture(double[][] points, List<int> corners, List<double> shares)
    {
        double[] sum = new double[3];
        for (int i = 0; i < corners.Count; i++)
        {
            for (int j = 0; j < 3; j++)
            {
                sum[j] += shares[i] * points[corners[i]][j];
            }
        }

        return sum;
    }

    private static double Dot(double[] u, double[] v) => (u[0] * v[0]) + (u[1] * v[1]) + (u[2] * v[2]);
}
