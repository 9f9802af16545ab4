using CeramicOptics.Decisions.Uncertainty;
using MathNet.Numerics.Distributions;

namespace CeramicOptics.Decisions.Delivered;

/// <summary>
/// Bias of readings against predictions, and the limits between which 95 % of differences are expected.
/// </summary>
/// <remarks>
/// Bland and Altman 1986, Lancet 327:307-310: mean d and standard deviation s of n differences; limits d ± 1.96 s
/// (2 in the paper); standard errors s/√n of the bias and √(3/n) s of a limit, with Student's t of n - 1 degrees of
/// freedom. The differences are taken as independent and nearly normal; the intervals of limits are rough below some
/// ten pieces.
/// </remarks>
public sealed class LimitsOfAgreement : Formattable
{
    internal const int FewestPieces = 3;
    private const double Covers95 = 1.959963984540054;

    internal LimitsOfAgreement(
        IReadOnlyList<double> differences, double factor = Covers95, double least = double.MinValue)
    {
        int n = differences.Count;
        Count = n;
        Bias = differences.Average();
        StandardDeviation = Math.Sqrt(differences.Sum(d => (d - Bias) * (d - Bias)) / (n - 1));
        double lower = Bias - (factor * StandardDeviation);
        Lower = Math.Max(least, lower);
        Upper = Bias + (factor * StandardDeviation);
        double t = StudentT.InvCDF(0, 1, n - 1, 0.975), error = StandardDeviation / Math.Sqrt(n);
        Interval Around(double value, double by) => new(Math.Max(least, value - by), Math.Max(least, value + by));
        BiasInterval95 = Around(Bias, t * error);
        LowerInterval95 = Around(lower, t * Math.Sqrt(3) * error);
        UpperInterval95 = Around(Upper, t * Math.Sqrt(3) * error);
    }

    /// <summary>Number of pieces, 3 or more.</summary>
    public int Count { get; }

    /// <summary>Mean of reading minus prediction (of CIEDE2000, the mean).</summary>
    public double Bias { get; }

    /// <summary>Standard deviation of the same.</summary>
    public double StandardDeviation { get; }

    /// <summary>Lower limit of agreement; never below 0 for CIEDE2000.</summary>
    public double Lower { get; }

    /// <summary>Upper limit of agreement.</summary>
    public double Upper { get; }

    /// <summary>95 % confidence interval of the bias.</summary>
    public Interval BiasInterval95 { get; }

    /// <summary>95 % confidence interval of the lower limit.</summary>
    public Interval LowerInterval95 { get; }

    /// <summary>95 % confidence interval of the upper limit.</summary>
    public Interval UpperInterval95 { get; }

    /// <summary>For example "+0.8 (+0.5 to +1.1), limits -0.2 to +1.8".</summary>
    private protected override string InWords(Language language) => language.Text(
        "LimitsOfAgreement", Bias, BiasInterval95.Low, BiasInterval95.High, Lower, Upper);
}
