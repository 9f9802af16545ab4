using MathNet.Numerics;
using MathNet.Numerics.LinearAlgebra;

namespace CeramicOptics.Decisions.Delivered;

/// <summary>
/// Average run length of an exponentially weighted moving average of three independent standard normal coordinates.
/// </summary>
/// <remarks>
/// z_n = w x_n + (1 - w) z_(n-1), z_0 = 0; an alarm when |z_n|² (2 - w)/w exceeds the limit (Lowry et al. 1992,
/// Technometrics 34:46-53). Without a shift the length of z is a Markov chain over shells (Runger and Prabhu 1996, J.
/// Am. Stat. Assoc. 91, after Brook and Evans 1972, Biometrika 59:539-549).
/// </remarks>
internal static class EwmaRunLength
{
    private const int Shells = 200;

    /// <summary>Mean number of pieces up to the first alarm while nothing has changed.</summary>
    public static double Average(double weight, double limit)
    {
        double width = 2 * Math.Sqrt(limit * weight / (2 - weight)) / ((2 * Shells) + 1);
        Matrix<double> stays = Matrix<double>.Build.Dense(Shells + 1, Shells + 1, (from, to) =>
        {
            double shift = (1 - weight) * from * width / weight;
            return Within((to + 0.5) * width / weight, shift)
                - (to == 0 ? 0 : Within((to - 0.5) * width / weight, shift));
        });
        Vector<double> ones = Vector<double>.Build.Dense(Shells + 1, 1);
        return (Matrix<double>.Build.DenseIdentity(Shells + 1) - stays).Solve(ones)[0];
    }

    /// <summary>The limit that gives a wanted average run length.</summary>
    public static double LimitFor(
        double weight, double averageRunLength, CancellationToken cancellation = default)
    {
        double low = 0.1, high = 60;
        while (high - low > 1e-4)
        {
            cancellation.ThrowIfCancellationRequested();
            double middle = (low + high) / 2;
            (low, high) = Average(weight, middle) < averageRunLength ? (middle, high) : (low, middle);
        }

        return high;
    }

    // Probability that a standard normal vector of three coordinates, moved by a shift, is no longer than a radius.
    private static double Within(double radius, double shift)
    {
        double root = Math.Sqrt(2);
        if (shift < 1e-4)
        {
            return SpecialFunctions.Erf(radius / root)
                - (Math.Sqrt(2 / Math.PI) * radius * Math.Exp(-radius * radius / 2));
        }

        double near = radius - shift, far = radius + shift;
        return ((SpecialFunctions.Erf(near / root) + SpecialFunctions.Erf(far / root)) / 2)
            - ((Math.Exp(-near * near / 2) - Math.Exp(-far * far / 2)) / (shift * Math.Sqrt(2 * Math.PI)));
    }
}
