using MathNet.Numerics.Distributions;

namespace CeramicOptics.Spectra;

/// <summary>Tests of replicates for an outlier and for drift.</summary>
internal static class ReplicateTests
{
    private const double Level = 0.01;

    public static IEnumerable<ReplicateFinding> Find(
        IReadOnlyList<ReflectanceSpectrum> replicates, ReflectanceSpectrum mean)
    {
        int n = replicates.Count, wavelengths = mean.Grid.Count;

        // One series of deviations for each wavelength and, last, one of their means over wavelengths.
        var series = new double[wavelengths + 1][];
        series[wavelengths] = new double[n];
        for (int i = 0; i < wavelengths; i++)
        {
            series[i] = new double[n];
            for (int r = 0; r < n; r++)
            {
                series[i][r] = replicates[r][i] - mean[i];
                series[wavelengths][r] += series[i][r] / wavelengths;
            }
        }

        Statistic[] outliers = WithFloor(series, Outlier), drifts = WithFloor(series, Slope);
        foreach ((Statistic[] tests, ReplicateFindingKind kind) in new[]
        {
            (outliers, ReplicateFindingKind.Outlier), (drifts, ReplicateFindingKind.Drift),
        })
        {
            double[] chance = [.. tests.Select(test => kind == ReplicateFindingKind.Outlier
                ? GrubbsProbability(n, test.Ratio)
                : TwoSided(test.Ratio * Math.Sqrt(n - 2), n - 2))];
            int at = 0;
            for (int i = 1; i < wavelengths; i++)
            {
                at = chance[i] < chance[at] ? i : at;
            }

            double atOne = 2 * wavelengths * chance[at], ofLevel = 2 * chance[wavelengths];
            bool isLevel = ofLevel <= atOne;
            Statistic most = tests[isLevel ? wavelengths : at];
            if (Math.Min(atOne, ofLevel) <= Level)
            {
                yield return new ReplicateFinding(
                    kind, kind == ReplicateFindingKind.Outlier ? most.Replicate + 1 : null,
                    isLevel ? null : mean.Grid[at], most.Change, Math.Min(atOne, ofLevel));
            }
        }
    }

    /// <summary>
    /// Probability that the farthest of n normal values lies g standard deviations from their mean, or farther: at
    /// most n times that of one (exact where it is small). Grubbs 1969, by way of Student's t.
    /// </summary>
    public static double GrubbsProbability(int n, double g)
    {
        double rest = ((n - 1.0) * (n - 1)) - (n * g * g);
        double t = rest > 0 ? g * Math.Sqrt(n * (n - 2.0) / rest) : double.PositiveInfinity;
        return Math.Min(1, n * TwoSided(t, n - 2));
    }

    private static double TwoSided(double t, int freedom) =>
        double.IsInfinity(t) ? 0 : 2 * StudentT.CDF(0, 1, freedom, -Math.Abs(t));

    // No series scatters less than they do on average; the mean over wavelengths no less than independent ones would.
    // Rounding adds the variance of a rectangle as wide as the last digit (JCGM 100, 4.3.7).
    private static Statistic[] WithFloor(double[][] series, Func<double[], Statistic> test)
    {
        Statistic[] raw = [.. series.Select(test)];
        int wavelengths = series.Length - 1;
        double pooled = 0, digit = LastDigit(series);
        for (int i = 0; i < wavelengths; i++)
        {
            pooled += raw[i].Scatter * raw[i].Scatter / wavelengths;
        }

        return [.. raw.Select((item, i) =>
        {
            double share = i < wavelengths ? 1 : 1.0 / wavelengths;
            double scatter = Math.Sqrt(
                Math.Max(item.Scatter * item.Scatter, pooled * share) + (digit * digit / 12 * share));
            return item with { Ratio = item.Size == 0 ? 0 : item.Size / scatter };
        })];
    }

    // The smallest difference between two replicates that is more than a rounding error of the computation.
    private static double LastDigit(double[][] series)
    {
        double smallest = double.PositiveInfinity;
        foreach (double[] one in series.Take(series.Length - 1))
        {
            double[] sorted = [.. one.OrderBy(value => value)];
            for (int r = 1; r < sorted.Length; r++)
            {
                double difference = sorted[r] - sorted[r - 1];
                smallest = difference > 1e-12 && difference < smallest ? difference : smallest;
            }
        }

        return double.IsInfinity(smallest) ? 1e-12 : smallest;
    }

    // The farthest value and the standard deviation of all.
    private static Statistic Outlier(double[] deviations)
    {
        int farthest = 0;
        for (int r = 1; r < deviations.Length; r++)
        {
            farthest = Math.Abs(deviations[r]) > Math.Abs(deviations[farthest]) ? r : farthest;
        }

        double s = Math.Sqrt(deviations.Sum(d => d * d) / (deviations.Length - 1));
        return new Statistic(Math.Abs(deviations[farthest]), s, farthest, deviations[farthest]);
    }

    // A straight line over the order: its slope and the scatter about it, so that their ratio times √(n - 2) is t.
    private static Statistic Slope(double[] deviations)
    {
        int n = deviations.Length;
        double middle = (n - 1) / 2.0, sxx = 0, sxy = 0, syy = 0;
        for (int r = 0; r < n; r++)
        {
            sxx += (r - middle) * (r - middle);
            sxy += (r - middle) * deviations[r];
            syy += deviations[r] * deviations[r];
        }

        double explained = Math.Abs(sxy) / Math.Sqrt(sxx);
        return new Statistic(
            explained, Math.Sqrt(Math.Max(0, syy - (explained * explained))), 0, sxy / sxx * (n - 1));
    }

    private readonly record struct Statistic(double Size, double Scatter, int Replicate, double Change)
    {
        public double Ratio { get; init; }
    }
}
