using MathNet.Numerics;

namespace CeramicOptics.Decisions.Uncertainty;

/// <summary>A probability found by counting among samples, and how well it is known.</summary>
/// <remarks>
/// <para>
/// No finite number of samples makes anything certain. <see cref="AtLeast"/> and <see cref="AtMost"/> are the exact
/// bounds of Clopper and Pearson (Biometrika 26, 1934, 404), one-sided at 95 %, for samples that are independent; those
/// of the library are spread more evenly. Where all of n samples agree they are 1 - 0.05^(1/n), about 1 - 3/n: the rule
/// of three (Hanley and Lippman-Hand, JAMA 249, 1983, 1743).
/// </para>
/// <para>
/// As text: the bound where fewer than ten samples are on one side, such as "at least 0.999", so that 0 and 1 are never
/// shown; else the share, rounded down, and its standard error, rounded up.
/// </para>
/// </remarks>
/// <param name="Value">Share of the samples, 0 to 1.</param>
/// <param name="StandardError">Standard error of <paramref name="Value"/> from the number of samples.</param>
/// <param name="Samples">Number of samples; below 1 nothing is known, and the bounds are 0 and 1.</param>
public readonly record struct Probability(double Value, double StandardError, int Samples) : IFormattable
{
    private const double Doubt = 0.05;
    private const int FewOnOneSide = 10;

    /// <summary>The probability is at least this, with 95 % confidence; 0 to below 1.</summary>
    public double AtLeast => Bound(Value);

    /// <summary>The probability is at most this, with 95 % confidence; above 0 to 1.</summary>
    public double AtMost => 1 - Bound(1 - Value);

    /// <summary>For example "0.830 ± 0.004", or "at least 0.999" where nearly all samples agree.</summary>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider)
    {
        Language language = Language.Of(provider);
        return (1 - Value) * Samples < FewOnOneSide && Value >= 0.5 ? language.Text("Probability.AtLeast", AtLeast)
            : Value * Samples < FewOnOneSide ? language.Text("Probability.AtMost", AtMost)
            : language.Text("Probability", Value, Math.Max(0.001, StandardError));
    }

    // The probability at which so many hits or more come about in 5 % of all series: a quantile of the beta
    // distribution.
    private double Bound(double share)
    {
        double hits = Math.Round(share * Samples);
        if (!(hits >= 1))
        {
            return 0;
        }

        double low = 0, high = share;
        for (int i = 0; i < 50; i++)
        {
            double middle = (low + high) / 2;
            double tail = SpecialFunctions.BetaRegularized(hits, Samples - hits + 1, middle);
            (low, high) = tail <= Doubt ? (middle, high) : (low, middle);
        }

        return low;
    }
}
