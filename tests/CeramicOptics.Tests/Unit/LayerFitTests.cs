using CeramicOptics.Characterization;

namespace CeramicOptics.Tests.Unit;

/// <summary>The last steps to K and S of one layer, compared with closed forms of two-flux theory.</summary>
public class LayerFitTests
{
    private const double Mm = 0.8;

    private static readonly double[] Backings = [0.03, 0.85];

    [Theory]
    [InlineData(0.08, 3.2)]
    [InlineData(0.9, 1.1)]
    [InlineData(0.02, 9)]
    public void Newton_ends_where_the_layer_has_both_reflectances(double k, double s)
    {
        double[] targets = [.. Backings.Select(backing => Reflectance(k, s, backing))];
        (double K, double S) found = new LayerFit(Mm, Backings, targets, [0.002, 0.002]).Polish(1.05 * k, 0.97 * s);
        Assert.Equal(1, found.K / k, 1e-7);
        Assert.Equal(1, found.S / s, 1e-7);
    }

    /// <summary>Without absorption R over black is Sx / (1 + Sx); over white, that and what comes back.</summary>
    [Theory]
    [InlineData(0.3)]
    [InlineData(5)]
    public void Scattering_alone_is_found_from_any_start(double start)
    {
        const double S = 2.5, Black = S * Mm / (1 + (S * Mm));
        double white = Black + ((1 - Black) * (1 - Black) * 0.85 / (1 - (Black * 0.85)));
        LayerFit fit = new(Mm, [0, 0.85], [Black, white], [0.02, 0.05]);
        Assert.Equal(0, fit.PolishScattering(start).K);
        Assert.Equal(S, fit.PolishScattering(start).S, 1e-9);
    }

    /// <summary>Without scattering light passes the layer twice: R = Rg exp(-2 Kx).</summary>
    [Fact]
    public void Absorption_alone_is_a_weighted_mean_of_what_the_readings_say()
    {
        // 0.4 and 0.41 contradict each other; a scan finds the least sum of weighted squares.
        double[] backings = [0.7, 0.85], targets = [0.4, 0.41], u = [0.01, 0.03];
        double Sum(double k) => Enumerable.Range(0, 2).Sum(
            i => Math.Pow(((backings[i] * Math.Exp(-2 * k * Mm)) - targets[i]) / u[i], 2));
        double best = Enumerable.Range(0, 100_001).Select(i => 0.2 + (i * 4e-6)).MinBy(Sum);
        Assert.InRange(best, 0.21, 0.59);
        (double K, double S) found = new LayerFit(Mm, backings, targets, u).PolishAbsorption(0.1);
        Assert.Equal(best, found.K, 1e-5);
        Assert.Equal(0, found.S);
    }

    [Fact]
    public void The_largest_miss_is_in_standard_uncertainties()
    {
        double[] right = [.. Backings.Select(backing => Reflectance(0.1, 3, backing))];
        LayerFit fit = new(Mm, Backings, [right[0] - 0.004, right[1] + 0.01], [0.001, 0.005]);
        Assert.Equal(4, fit.LargestMiss((0.1, 3)), 1e-9);
        Assert.Equal(5, new LayerFit(Mm, Backings, [right[0] - 0.004, right[1] + 0.01], [0.001, 0.002])
            .LargestMiss((0.1, 3)), 1e-9);
    }

    /// <summary>JCGM 100, 5.1.2: covariance J⁻¹ U J⁻ᵀ, here with slopes by differences of the closed form.</summary>
    [Fact]
    public void Uncertainties_are_those_of_first_order()
    {
        const double K = 0.1, S = 3, Step = 1e-5;
        double[] u = [0.001, 0.004];
        double Slope(int i, double dK, double dS) => (Reflectance(K + dK, S + dS, Backings[i])
            - Reflectance(K - dK, S - dS, Backings[i])) / (2 * Step);
        double[] byK = [Slope(0, Step, 0), Slope(1, Step, 0)], byS = [Slope(0, 0, Step), Slope(1, 0, Step)];
        double determinant = (byK[0] * byS[1]) - (byK[1] * byS[0]);
        double[] k = [byS[1] / determinant * u[0], -byS[0] / determinant * u[1]];
        double[] s = [-byK[1] / determinant * u[0], byK[0] / determinant * u[1]];
        double uK = Math.Sqrt((k[0] * k[0]) + (k[1] * k[1])), uS = Math.Sqrt((s[0] * s[0]) + (s[1] * s[1]));
        double[] right = [.. Backings.Select(backing => Reflectance(K, S, backing))];
        CharacterizationResult.Solution found = new LayerFit(Mm, Backings, right, u).SolutionAt((K, S));
        Assert.Equal(1, found.AbsorptionUncertainty / uK, 1e-5);
        Assert.Equal(1, found.ScatteringUncertainty / uS, 1e-5);
        Assert.Equal(((k[0] * s[0]) + (k[1] * s[1])) / (uK * uS), found.Correlation, 1e-5);
    }

    // Kubelka 1948, J. Opt. Soc. Am. 38:448-457: R = (1 - Rg (a - b coth bSx)) / (a - Rg + b coth bSx).
    private static double Reflectance(double k, double s, double backing)
    {
        double a = 1 + (k / s), b = Math.Sqrt((a * a) - 1), coth = 1 / Math.Tanh(b * s * Mm);
        return (1 - (backing * (a - (b * coth)))) / (a - backing + (b * coth));
    }
}
