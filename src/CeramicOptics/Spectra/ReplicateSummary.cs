namespace CeramicOptics.Spectra;

/// <summary>Mean of repeated readings of one specimen, with its uncertainty, outliers and drift.</summary>
/// <remarks>
/// Nothing is left out: an outlying replicate is reported and stays in the mean. Tests need three replicates or more,
/// and with three only gross faults can be told. Both look at the mean over wavelengths and at each wavelength, at a
/// level of 1 % each for the whole set (Bonferroni). Outliers: Grubbs 1969 (Technometrics 11:1), as in ISO 5725-2.
/// Drift: t test of the slope of a straight line over the order of reading. At no wavelength is the scatter taken as
/// less than its root mean square over all, so that rounded readings are not called outliers. Immutable and safe to
/// share.
/// </remarks>
public sealed class ReplicateSummary : Formattable
{
    private readonly double[] _uncertainty;

    private ReplicateSummary(
        ReflectanceSpectrum mean, double[] uncertainty, int count, IEnumerable<ReplicateFinding> findings)
    {
        (Mean, _uncertainty, Count) = (mean, uncertainty, count);
        TypicalStandardUncertainty = Math.Sqrt(uncertainty.Sum(u => u * u) / uncertainty.Length);
        Findings = Guard.Copy(findings);
    }

    /// <summary>Number of replicates.</summary>
    internal int Count { get; }

    /// <summary>Mean at each wavelength.</summary>
    public ReflectanceSpectrum Mean { get; }

    /// <summary>
    /// Standard uncertainty of the mean at each wavelength: s/√n (JCGM 100, 4.2.3). It includes only what varied
    /// between the replicates, and from n of them is itself uncertain by about 1/√(2(n - 1)).
    /// </summary>
    public ReadOnlySpan<double> StandardUncertainty => _uncertainty;

    /// <summary>Root mean square of <see cref="StandardUncertainty"/> over the wavelengths.</summary>
    public double TypicalStandardUncertainty { get; }

    /// <summary>Outlier and drift, where there are any.</summary>
    public IReadOnlyList<ReplicateFinding> Findings { get; }

    /// <summary>Summarizes repeated readings.</summary>
    /// <param name="replicates">At least two on one grid, in the order in which they were read.</param>
    /// <exception cref="ArgumentException">Fewer than two, or grids that differ; shows both.</exception>
    public static ReplicateSummary Of(IEnumerable<ReflectanceSpectrum> replicates)
    {
        IReadOnlyList<ReflectanceSpectrum> all = Guard.Copy(replicates, minimumCount: 2);
        ReflectanceSpectrum mean = MeanOf(all);
        int n = all.Count;
        var uncertainty = new double[mean.Grid.Count];
        for (int i = 0; i < uncertainty.Length; i++)
        {
            double squares = 0;
            foreach (ReflectanceSpectrum replicate in all)
            {
                squares += (replicate[i] - mean[i]) * (replicate[i] - mean[i]);
            }

            uncertainty[i] = Math.Sqrt(squares / (n - 1) / n);
        }

        return new ReplicateSummary(mean, uncertainty, n, n < 3 ? [] : ReplicateTests.Find(all, mean));
    }

    /// <summary>For example "mean of 5 replicates, standard uncertainty 0.0004, 1 finding(s)".</summary>
    private protected override string InWords(Language language) => language.Text(
        "ReplicateSummary", Count, TypicalStandardUncertainty, Findings.Count);

    internal static ReflectanceSpectrum MeanOf(IReadOnlyList<ReflectanceSpectrum> replicates)
    {
        if (replicates.Count == 1)
        {
            return replicates[0];
        }

        WavelengthGrid grid = replicates[0].Grid;
        var sum = new double[grid.Count];
        foreach (ReflectanceSpectrum replicate in replicates)
        {
            grid.RequireSame(replicate.Grid, "A replicate");
            for (int i = 0; i < sum.Length; i++)
            {
                sum[i] += replicate[i];
            }
        }

        return new ReflectanceSpectrum(grid, [.. sum.Select(value => value / replicates.Count)]);
    }
}
