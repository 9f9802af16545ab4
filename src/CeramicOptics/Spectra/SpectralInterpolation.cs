namespace CeramicOptics.Spectra;

/// <summary>Interpolation of spectral data; never extrapolates.</summary>
internal static class SpectralInterpolation
{
    public static double[] Resample(Spectrum source, WavelengthGrid target, InterpolationMethod method)
    {
        Guard.NotNull(target);
        Guard.Defined(method);
        RequireInside(source.Grid.StartNm, source.Grid.EndNm, target);
        return method == InterpolationMethod.Sprague
            ? Sprague(source.Grid, source.Values, target)
            : MonotoneCubic(source.Grid, source.Values, target);
    }

    public static double[] MonotoneCubic(WavelengthGrid grid, ReadOnlySpan<double> values, WavelengthGrid target) =>
        MonotoneCubic(Wavelengths(grid), values, target);

    public static void CheckIncreasing(ReadOnlySpan<double> wavelengthsNm)
    {
        for (int i = 0; i < wavelengthsNm.Length; i++)
        {
            if (!Guard.IsFinite(wavelengthsNm[i]))
            {
                throw new ArgumentException(
                    $"Wavelength at index {i} is {Guard.Text(wavelengthsNm[i])} nm.", nameof(wavelengthsNm));
            }

            if (i > 0 && wavelengthsNm[i] <= wavelengthsNm[i - 1])
            {
                string fault = wavelengthsNm[i] == wavelengthsNm[i - 1]
                    ? "is given twice"
                    : "is smaller than the one before";
                throw new ArgumentException(
                    $"Wavelengths must increase: {Guard.Text(wavelengthsNm[i])} nm at index {i} {fault}.",
                    nameof(wavelengthsNm));
            }
        }
    }

    // CIE 167:2005, eqs. 1-3. Four points, two beyond each end, are found from the six end values by Sprague's
    // coefficients.
    public static double[] Sprague(WavelengthGrid grid, ReadOnlySpan<double> values, WavelengthGrid target)
    {
        int n = values.Length;
        if (n < 6)
        {
            throw new ArgumentException($"Sprague interpolation needs at least 6 values but {n} are given.");
        }

        double[] y = new double[n + 4];
        values.CopyTo(y.AsSpan(2));
        y[0] = (
            (884 * values[0]) - (1960 * values[1]) + (3033 * values[2]) - (2648 * values[3]) + (1080 * values[4])
                - (180 * values[5])) / 209;
        y[1] = (
            (508 * values[0]) - (540 * values[1]) + (488 * values[2]) - (367 * values[3]) + (144 * values[4])
                - (24 * values[5])) / 209;
        y[n + 2] = (
            (-24 * values[n - 6]) + (144 * values[n - 5]) - (367 * values[n - 4]) + (488 * values[n - 3])
                - (540 * values[n - 2]) + (508 * values[n - 1])) / 209;
        y[n + 3] = (
            (-180 * values[n - 6]) + (1080 * values[n - 5]) - (2648 * values[n - 4]) + (3033 * values[n - 3])
                - (1960 * values[n - 2]) + (884 * values[n - 1])) / 209;

        double[] result = new double[target.Count];
        for (int k = 0; k < result.Length; k++)
        {
            double position = (target[k] - grid.StartNm) / grid.StepNm;
            int i = Math.Min(Math.Max((int)Math.Floor(position + 1e-9), 0), n - 2);
            double x = position - i;
            ReadOnlySpan<double> p = y.AsSpan(i, 6);
            double a1 = (p[0] - (8 * p[1]) + (8 * p[3]) - p[4]) / 12;
            double a2 = (-p[0] + (16 * p[1]) - (30 * p[2]) + (16 * p[3]) - p[4]) / 24;
            double a3 = ((-9 * p[0]) + (39 * p[1]) - (70 * p[2]) + (66 * p[3]) - (33 * p[4]) + (7 * p[5])) / 24;
            double a4 = ((13 * p[0]) - (64 * p[1]) + (126 * p[2]) - (124 * p[3]) + (61 * p[4]) - (12 * p[5])) / 24;
            double a5 = ((-5 * p[0]) + (25 * p[1]) - (50 * p[2]) + (50 * p[3]) - (25 * p[4]) + (5 * p[5])) / 24;
            result[k] = Math.Abs(x) < 1e-9 ? p[2] : p[2] + (x * (a1 + (x * (a2 + (x * (a3 + (x * (a4 + (x * a5)))))))));
        }

        return result;
    }

    // Fritsch, Carlson 1980 (SIAM J. Numer. Anal. 17:238), with the weighted harmonic mean of Fritsch, Butland 1984 as
    // slope.
    public static double[] MonotoneCubic(ReadOnlySpan<double> x, ReadOnlySpan<double> y, WavelengthGrid target)
    {
        if (x.Length != y.Length || x.Length < 2)
        {
            throw new ArgumentException(
                $"Interpolation needs as many values as wavelengths, at least 2; {x.Length} wavelengths and "
                    + $"{y.Length} values are given.");
        }

        CheckIncreasing(x);
        RequireInside(x[0], x[x.Length - 1], Guard.NotNull(target));
        int n = x.Length;
        double[] slope = new double[n];
        for (int i = 1; i < n - 1; i++)
        {
            double before = (y[i] - y[i - 1]) / (x[i] - x[i - 1]), after = (y[i + 1] - y[i]) / (x[i + 1] - x[i]);
            double hBefore = x[i] - x[i - 1], hAfter = x[i + 1] - x[i];
            slope[i] = before * after <= 0
                ? 0
                : 3 * (hBefore + hAfter) / ((((2 * hAfter) + hBefore) / before) + (((2 * hBefore) + hAfter) / after));
        }

        slope[0] = EndSlope(x, y, slope, 0, 1);
        slope[n - 1] = EndSlope(x, y, slope, n - 1, n - 2);

        double[] result = new double[target.Count];
        int k = 0;
        for (int j = 0; j < result.Length; j++)
        {
            double at = Math.Min(Math.Max(target[j], x[0]), x[n - 1]);
            while (k < n - 2 && at > x[k + 1])
            {
                k++;
            }

            double h = x[k + 1] - x[k], s = (at - x[k]) / h;
            result[j] = (y[k] * (1 + (2 * s)) * (1 - s) * (1 - s)) + (h * slope[k] * s * (1 - s) * (1 - s))
                + (y[k + 1] * s * s * (3 - (2 * s))) + (h * slope[k + 1] * s * s * (s - 1));
        }

        return result;
    }

    // Parabola through the end, limited so that the end interval stays monotone.
    private static double EndSlope(ReadOnlySpan<double> x, ReadOnlySpan<double> y, double[] slope, int end, int next)
    {
        double secant = (y[next] - y[end]) / (x[next] - x[end]);
        double oneSided = (3 * secant / 2) - (slope[next] / 2);
        return oneSided * secant <= 0 ? 0 : Math.Abs(oneSided) > 3 * Math.Abs(secant) ? 3 * secant : oneSided;
    }

    private static double[] Wavelengths(WavelengthGrid grid)
    {
        double[] wavelengths = new double[grid.Count];
        for (int i = 0; i < wavelengths.Length; i++)
        {
            wavelengths[i] = grid[i];
        }

        return wavelengths;
    }

    private static void RequireInside(double startNm, double endNm, WavelengthGrid target)
    {
        if (target.StartNm < startNm - 1e-6 || target.EndNm > endNm + 1e-6)
        {
            throw new ArgumentException(
                $"The data reaches from {Guard.Text(startNm)} to {Guard.Text(endNm)} nm; {target} would need "
                    + "extrapolation.", nameof(target));
        }
    }
}
