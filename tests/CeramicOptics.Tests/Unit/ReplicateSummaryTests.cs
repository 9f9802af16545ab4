using CeramicOptics.Layers.TwoFlux;

namespace CeramicOptics.Tests.Unit;

public class ReplicateSummaryTests
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 10);

    [Fact]
    public void Mean_and_uncertainty_are_those_of_the_textbook()
    {
        // JCGM 100, 4.2: mean 0.52, s² = (0.0004 + 0 + 0.0004)/2, u = s/√3, worked by hand.
        ReplicateSummary summary = ReplicateSummary.Of(new[] { 0.50, 0.52, 0.54 }.Select(
            value => ReflectanceSpectrum.Uniform(Grid, value)));
        Assert.Equal(3, summary.Count);
        Assert.Equal(0.52, summary.Mean[7], 1e-15);
        Assert.Equal(0.02 / Math.Sqrt(3), summary.StandardUncertainty[7], 1e-15);
        Assert.Equal(0.02 / Math.Sqrt(3), summary.TypicalStandardUncertainty, 1e-15);
        Assert.Equal("mean of 3 replicates, standard uncertainty 0.011547, 0 finding(s)", summary.ToString());
    }

    /// <summary>
    /// Critical values of Grubbs and Beck 1972 (Technometrics 14:847), table 1, one-sided, as printed to three decimals
    /// (the last may be off by one); both sides together are twice as likely. The tolerance is what the last digit
    /// makes.
    /// </summary>
    [Theory]
    [InlineData(5, 1.672, 0.05)]
    [InlineData(5, 1.749, 0.01)]
    [InlineData(10, 2.176, 0.05)]
    [InlineData(10, 2.410, 0.01)]
    [InlineData(20, 2.557, 0.05)]
    [InlineData(20, 2.884, 0.01)]
    public void Probabilities_are_those_of_the_published_table(int n, double critical, double oneSided)
    {
        double slope = (ReplicateTests.GrubbsProbability(n, critical - 0.001)
            - ReplicateTests.GrubbsProbability(n, critical + 0.001)) / 0.002;
        Assert.Equal(2 * oneSided, ReplicateTests.GrubbsProbability(n, critical), 0.0011 * slope);
    }

    /// <summary>
    /// Noise alone is called an outlier or a drift in at most 1 % of sets each; a real one is found, with its place.
    /// </summary>
    [Theory]
    [InlineData(3)]
    [InlineData(5)]
    [InlineData(10)]
    public void Noise_is_no_finding_and_a_fault_is_one(int n)
    {
        Random random = new(n);
        const int Sets = 1500;
        int outliers = 0, drifts = 0, found = 0, drifted = 0;
        for (int set = 0; set < Sets; set++)
        {
            double[][] noise = [.. Enumerable.Range(0, n).Select(
                _ => Enumerable.Range(0, Grid.Count).Select(_ => 0.001 * WallData.Gauss(random)).ToArray())];
            IReadOnlyList<ReplicateFinding> none = Of(noise, (_, _) => 0);
            outliers += none.Count(one => one.Kind == ReplicateFindingKind.Outlier);
            drifts += none.Count(one => one.Kind == ReplicateFindingKind.Drift);

            // A lifted disc: one replicate reads less everywhere. A lamp that falls by 0.004 in all.
            found += Of(noise, (r, _) => r == 1 ? -0.03 : 0).Any(
                one => one is { Kind: ReplicateFindingKind.Outlier, Replicate: 2, Change: < 0 }) ? 1 : 0;
            drifted += Of(noise, (r, _) => -0.004 * r / (n - 1)).Any(
                one => one is { Kind: ReplicateFindingKind.Drift, Replicate: null, Change: < -0.003 and > -0.005 })
                    ? 1 : 0;
        }

        Assert.InRange(outliers / (double)Sets, 0, 0.015);
        Assert.InRange(drifts / (double)Sets, 0, 0.015);
        if (n >= 5)
        {
            Assert.Equal(Sets, found);
            Assert.InRange(drifted / (double)Sets, 0.95, 1);
        }
    }

    [Fact]
    public void A_spike_at_one_wavelength_is_found_there()
    {
        Random random = new(1);
        double[][] noise = [.. Enumerable.Range(0, 8).Select(
            _ => Enumerable.Range(0, Grid.Count).Select(_ => 0.0005 * WallData.Gauss(random)).ToArray())];
        ReplicateFinding finding = Assert.Single(Of(noise, (r, i) => r == 3 && i == 12 ? 0.02 : 0));
        Assert.Equal((ReplicateFindingKind.Outlier, 4, 520.0), (finding.Kind, finding.Replicate, finding.WavelengthNm));
        Assert.Matches(
            @"^replicate 4 lies 0\.01\d\d above the mean at 520 nm \(Grubbs' test, p ≤ 0\.0001", finding.ToString());
    }

    /// <summary>Readings printed to 0.01 that flip in their last digit are no outliers.</summary>
    [Fact]
    public void Rounded_readings_are_no_outliers()
    {
        Random random = new(6);
        for (int set = 0; set < 200; set++)
        {
            double[][] rounded = [.. Enumerable.Range(0, 5).Select(_ => Enumerable.Range(0, Grid.Count).Select(
                i => Math.Round((0.003 * i) + (0.002 * WallData.Gauss(random)), 2)).ToArray())];
            Assert.DoesNotContain(Of(rounded, (_, _) => 0), one => one.WavelengthNm is not null);
        }
    }

    [Fact]
    public void Equal_replicates_have_no_uncertainty_and_no_finding()
    {
        ReplicateSummary summary = ReplicateSummary.Of(Enumerable.Repeat(ReflectanceSpectrum.Uniform(Grid, 0.4), 4));
        Assert.Equal(0, summary.TypicalStandardUncertainty);
        Assert.Empty(summary.Findings);
    }

    /// <summary>
    /// K and S that are polynomials of the fifth degree come back exactly from Sprague's method; their uncertainty
    /// stays between its neighbours.
    /// </summary>
    [Fact]
    public void A_material_is_resampled_with_its_uncertainty()
    {
        double K(double nm) => 0.1 + (1e-6 * (nm - 500) * (nm - 500));
        double S(double nm) => 3 - (0.002 * (nm - 400));
        double[] At(Func<double, double> law, WavelengthGrid grid) =>
            [.. Enumerable.Range(0, grid.Count).Select(i => law(grid[i]))];
        Material coarse = new(
            "m", TwoFluxModel.Instance, new AbsorptionSpectrum(Grid, At(K, Grid)),
            new ScatteringSpectrum(Grid, At(S, Grid)),
            1.53, new CoefficientUncertainty(
                At(nm => nm / 1e5, Grid), At(nm => nm / 1e4, Grid), At(nm => 0.5 - (nm / 1000), Grid), 0.02,
                At(nm => -nm / 1e4, Grid), At(nm => nm / 1e3, Grid)), [0.8]);
        WavelengthGrid fine = WavelengthGrid.Range(425, 675, 5);
        Material resampled = coarse.Resample(fine);
        Assert.Equal(At(K, fine), resampled.Absorption.Values.ToArray(), (a, b) => Math.Abs(a - b) < 1e-12);
        Assert.Equal(At(S, fine), resampled.Scattering.Values.ToArray(), (a, b) => Math.Abs(a - b) < 1e-12);
        Assert.Equal(0.0055, resampled.Uncertainty!.AbsorptionPerMm[25], 1e-9);
        Assert.Equal(-0.05, resampled.Uncertainty.Correlation[25], 1e-9);
        Assert.Equal(-0.055, resampled.Uncertainty.CommonAbsorptionPerMm[25], 1e-9);
        Assert.Equal(0.55, resampled.Uncertainty.CommonScatteringPerMm[25], 1e-9);
        Assert.Equal((0.02, "m", TwoFluxModel.Instance),
            (resampled.Uncertainty.RelativeScale, resampled.Name, resampled.Model));
        Assert.Equal([0.8], resampled.DiscThicknessesMm);
        Assert.Equal(fine, coarse.Resample(fine, InterpolationMethod.MonotoneCubic).Grid);
    }

    private static IReadOnlyList<ReplicateFinding> Of(double[][] noise, Func<int, int, double> fault) =>
        ReplicateSummary.Of(noise.Select((one, r) => new ReflectanceSpectrum(
            Grid, [.. one.Select((value, i) => 0.5 + value + fault(r, i))]))).Findings;
}
