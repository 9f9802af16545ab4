using System.Numerics;
using System.Runtime.InteropServices;

namespace CeramicOptics.Tests.Reference;

/// <summary>Square matrices by rows, as far as adding of layers needs them.</summary>
internal static class PlaneMatrix
{
    /// <summary>A B.</summary>
    public static double[] Product(double[] a, double[] b, int n)
    {
        double[] product = new double[n * n];
        for (int i = 0; i < n; i++)
        {
            Span<double> row = product.AsSpan(i * n, n);
            for (int k = 0; k < n; k++)
            {
                AddScaled(row, b.AsSpan(k * n, n), a[(i * n) + k]);
            }
        }

        return product;
    }

    public static double[] Sum(double[] a, double[] b) => [.. a.Zip(b, (x, y) => x + y)];

    /// <summary>(I - A)⁻¹ B by elimination without exchange of rows, for A of norm below 1.</summary>
    public static double[] SolveOneMinus(double[] a, double[] b, int n)
    {
        double[] left = new double[n * n], right = (double[])b.Clone();
        for (int i = 0; i < left.Length; i++)
        {
            left[i] = (i % (n + 1) == 0 ? 1 : 0) - a[i];
        }

        return Solve(left, right, n);
    }

    /// <summary>A⁻¹ B; both are used up.</summary>
    public static double[] Solve(double[] a, double[] b, int n)
    {
        for (int k = 0; k < n; k++)
        {
            for (int i = k + 1; i < n; i++)
            {
                double factor = -a[(i * n) + k] / a[(k * n) + k];
                if (factor != 0)
                {
                    AddScaled(a.AsSpan((i * n) + k, n - k), a.AsSpan((k * n) + k, n - k), factor);
                    AddScaled(b.AsSpan(i * n, n), b.AsSpan(k * n, n), factor);
                }
            }
        }

        for (int k = n - 1; k >= 0; k--)
        {
            Span<double> row = b.AsSpan(k * n, n);
            double pivot = 1 / a[(k * n) + k];
            for (int j = 0; j < n; j++)
            {
                row[j] *= pivot;
            }

            for (int i = 0; i < k; i++)
            {
                AddScaled(b.AsSpan(i * n, n), row, -a[(i * n) + k]);
            }
        }

        return b;
    }

    private static void AddScaled(Span<double> sum, ReadOnlySpan<double> row, double factor)
    {
        Span<Vector<double>> sums = MemoryMarshal.Cast<double, Vector<double>>(sum);
        ReadOnlySpan<Vector<double>> rows = MemoryMarshal.Cast<double, Vector<double>>(row);
        Vector<double> scale = new(factor);
        for (int i = 0; i < sums.Length; i++)
        {
            sums[i] += rows[i] * scale;
        }

        for (int i = sums.Length * Vector<double>.Count; i < sum.Length; i++)
        {
            sum[i] += row[i] * factor;
        }
    }
}
