namespace CeramicOptics.Characterization;

/// <summary>How well fitted coefficients describe the readings.</summary>
public sealed class FitStatistics
{
    private readonly double[] _chiSquare;

    internal FitStatistics(
        double[] chiSquare, int degreesOfFreedom, IEnumerable<ReadingOutlier> outliers, DiscAdvice advice)
    {
        _chiSquare = chiSquare;
        DegreesOfFreedom = degreesOfFreedom;
        Outliers = Guard.Copy(outliers);
        Advice = advice;
    }

    /// <summary>
    /// Chi-square at each wavelength: sum of squared residuals in units of their standard uncertainty.
    /// </summary>
    public ReadOnlySpan<double> ChiSquare => _chiSquare;

    /// <summary>Readings less two, the number chi-square should have on average.</summary>
    public int DegreesOfFreedom { get; }

    /// <summary>Readings that lie far from the fit; they are reported and not left out.</summary>
    public IReadOnlyList<ReadingOutlier> Outliers { get; }

    /// <summary>The disc that would tell most beside those measured.</summary>
    public DiscAdvice Advice { get; }
}
