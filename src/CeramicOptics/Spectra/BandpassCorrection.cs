namespace CeramicOptics.Spectra;

/// <summary>Correction of readings for the width of an instrument's passband.</summary>
public static class BandpassCorrection
{
    private const double Alpha = 0.083;

    /// <summary>What an instrument of no bandwidth would have read.</summary>
    /// <param name="measured">
    /// Readings of an instrument with a triangular passband whose half width is the interval of the data.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A corrected value leaves the range of reflectance, which only data with steps or noise does.
    /// </exception>
    /// <remarks>
    /// Stearns, Stearns 1988, Color Res. Appl. 13:257-259: Rc = -0.083 R(i-1) + 1.166 R(i) - 0.083 R(i+1), and at the
    /// ends Rc = 1.083 R - 0.083 of the neighbour. ASTM E308 asks for it before weights without bandpass correction are
    /// used.
    /// </remarks>
    public static ReflectanceSpectrum StearnsAndStearns(ReflectanceSpectrum measured)
    {
        ReadOnlySpan<double> r = Guard.NotNull(measured).Values;
        int last = r.Length - 1;
        double[] corrected = new double[r.Length];
        corrected[0] = ((1 + Alpha) * r[0]) - (Alpha * r[1]);
        corrected[last] = ((1 + Alpha) * r[last]) - (Alpha * r[last - 1]);
        for (int i = 1; i < last; i++)
        {
            corrected[i] = ((1 + (2 * Alpha)) * r[i]) - (Alpha * (r[i - 1] + r[i + 1]));
        }

        return new ReflectanceSpectrum(measured.Grid, corrected);
    }
}
