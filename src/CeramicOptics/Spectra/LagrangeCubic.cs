namespace CeramicOptics.Spectra;

/// <summary>Interpolation of equally spaced data by Lagrange's formula.</summary>
/// <remarks>
/// A cubic through the two neighbours on either side, a parabola through the nearest three in the first and last
/// interval (ASTM E2022; CIE 15:2004, 7.2.1.1).
/// </remarks>
internal static class LagrangeCubic
{
    /// <summary>Most data that one interpolated value depends on.</summary>
    public const int MostCoefficients = 4;

    /// <summary>Which data, with which coefficients, give the value at a position.</summary>
    /// <param name="position">
    /// Where, in steps of the data, from <paramref name="lowest"/> to <paramref name="highest"/>.
    /// </param>
    /// <param name="lowest">Index of the first datum.</param>
    /// <param name="highest">Index of the last datum.</param>
    /// <param name="coefficients">Receives the coefficients; room for <see cref="MostCoefficients"/>.</param>
    /// <param name="count">Number of coefficients.</param>
    /// <returns>Index of the datum of the first coefficient.</returns>
    public static int Coefficients(double position, int lowest, int highest, Span<double> coefficients, out int count)
    {
        double nearest = Math.Round(position);
        if (Math.Abs(position - nearest) < 1e-9)
        {
            (coefficients[0], count) = (1, 1);
            return (int)nearest;
        }

        int left = (int)Math.Floor(position), first = Math.Max(left - 1, lowest);
        count = Math.Min(left + 2, highest) - first + 1;
        for (int j = 0; j < count; j++)
        {
            coefficients[j] = 1;
            for (int m = 0; m < count; m++)
            {
                coefficients[j] *= m == j ? 1 : (position - first - m) / (j - m);
            }
        }

        return first;
    }

    /// <summary>
    /// Values at the wavelengths of <paramref name="target"/>, which lie inside <paramref name="grid"/>.
    /// </summary>
    public static double[] Resample(WavelengthGrid grid, ReadOnlySpan<double> values, WavelengthGrid target)
    {
        double[] result = new double[target.Count];
        Span<double> coefficients = stackalloc double[MostCoefficients];
        for (int i = 0; i < result.Length; i++)
        {
            double position = (target[i] - grid.StartNm) / grid.StepNm;
            int first = Coefficients(position, 0, values.Length - 1, coefficients, out int count);
            for (int k = 0; k < count; k++)
            {
                result[i] += coefficients[k] * values[first + k];
            }
        }

        return result;
    }
}
