using CeramicOptics.Decisions.Uncertainty;

namespace CeramicOptics.Tests.Unit;

/// <summary>A probability counted among samples is never shown as certain.</summary>
public class ProbabilityTests
{
    /// <summary>
    /// At the bound, so many hits or more come about in 5 % of all series: the binomial distribution, term by term.
    /// </summary>
    [Theory]
    [InlineData(1, 10)]
    [InlineData(9, 10)]
    [InlineData(128, 256)]
    [InlineData(254, 256)]
    [InlineData(9_990, 10_000)]
    public void Bounds_are_those_of_the_binomial_distribution(int hits, int samples)
    {
        Probability found = new(hits / (double)samples, 0.01, samples);
        Assert.Equal(0.05, Tail(found.AtLeast, hits, samples), 1e-6);
        Assert.Equal(0.05, Tail(1 - found.AtMost, samples - hits, samples), 1e-6);
        Assert.InRange(found.Value, found.AtLeast, found.AtMost);
    }

    /// <summary>All or none: 0.05 is the nth power of the bound, about 3/n from the end (rule of three).</summary>
    [Theory]
    [InlineData(256, "at least 0.988", "at most 0.012", "mindestens 0,988", "höchstens 0,012")]
    [InlineData(10_000, "at least 0.999", "at most 0.001", "mindestens 0,999", "höchstens 0,001")]
    [InlineData(10_000_000, "at least 0.999", "at most 0.001", "mindestens 0,999", "höchstens 0,001")]
    public void No_number_of_samples_makes_it_certain(int samples, string all, string none, string alle, string keine)
    {
        Probability sure = new(1, 0, samples), never = new(0, 0, samples);
        Assert.Equal(Math.Pow(0.05, 1.0 / samples), sure.AtLeast, 1e-9);
        Assert.Equal(1 - Math.Pow(0.05, 1.0 / samples), never.AtMost, 1e-9);
        Assert.InRange(1 - sure.AtLeast, 2.95 / samples, 3.0 / samples);
        Assert.Equal((1, 0), (sure.AtMost, never.AtLeast));
        Assert.Equal((all, none), (sure.ToString(), never.ToString()));
        Assert.Equal((alle, keine), (sure.ToString(Language.German), never.ToString(Language.German)));
    }

    [Fact]
    public void Near_the_ends_the_bound_is_shown_and_between_them_the_share()
    {
        for (int hits = 0; hits <= 1024; hits++)
        {
            string text = new Probability(hits / 1024.0, 0.0004, 1024).ToString();
            Assert.StartsWith(
                hits < 10 ? "at most 0.0" : hits > 1014 ? "at least 0.9" : "0.", text, StringComparison.Ordinal);
            Assert.Equal(hits is >= 10 and <= 1014, text.EndsWith(" ± 0.001", StringComparison.Ordinal));
        }

        Assert.Equal("at most 1.000", default(Probability).ToString());
        Assert.Equal((0, 1), (default(Probability).AtLeast, default(Probability).AtMost));
    }

    // Probability of so many hits or more.
    private static double Tail(double chance, int hits, int samples)
    {
        double sum = 0, logOfChoices = 0;
        for (int k = 0; k <= samples; k++)
        {
            sum += k >= hits
                ? Math.Exp(logOfChoices + (k * Math.Log(chance)) + ((samples - k) * Math.Log(1 - chance)))
                : 0;
            logOfChoices += Math.Log(samples - k) - Math.Log(k + 1);
        }

        return sum;
    }
}
