using CeramicOptics.Characterization;

namespace CeramicOptics.Tests.Unit;

public class CharacterizationTests
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 100);

    private static readonly Backing Black = new(Substrate.FromInternalReflectance("black", ReflectanceSpectrum.Uniform(Grid, 0.01), 1.5), CouplingMedium.Glycerine);
    private static readonly Backing White = new(Substrate.FromInternalReflectance("white", ReflectanceSpectrum.Uniform(Grid, 0.93), 1.5), CouplingMedium.Glycerine);

    [Fact]
    public void A_disc_that_hides_both_backings_is_reported_as_too_opaque()
    {
        CharacterizationResult result = Solve(Truth(0.5, 30), 2);
        Assert.All(result.Findings, finding => Assert.Equal(FindingKind.TooOpaque, finding.Kind));
        Assert.Equal(Grid.Count, result.Findings.Count);
        Assert.False(result.IsComplete);
        InvalidOperationException error = Assert.Throws<InvalidOperationException>(() => result.ToMaterial());
        Assert.StartsWith("K and S of 'disc' are not determined at 4 of 4 wavelengths; first at 400 nm:", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Swapped_readings_are_reported()
    {
        (ReflectanceSpectrum black, ReflectanceSpectrum white) = Readings(Truth(0.1, 3), 0.8);
        CharacterizationResult result = DiscCharacterization.Solve(new DiscMeasurement("disc", 1.53, 0.8, white, black, Black, White));
        Assert.All(result.Findings, finding => Assert.Equal(FindingKind.BlackNotBelowWhite, finding.Kind));
    }

    [Fact]
    public void A_reading_below_the_surface_reflection_is_reported()
    {
        CharacterizationResult result = DiscCharacterization.Solve(new DiscMeasurement(
            "disc", 1.53, 0.8, ReflectanceSpectrum.Uniform(Grid, 0.03), ReflectanceSpectrum.Uniform(Grid, 0.5), Black, White));
        Assert.All(result.Findings, finding => Assert.Equal(FindingKind.OutsideSurfaceModel, finding.Kind));
    }

    [Fact]
    public void Backings_that_hardly_differ_are_reported()
    {
        (ReflectanceSpectrum black, ReflectanceSpectrum white) = Readings(Truth(0.1, 3), 0.8);
        CharacterizationResult result = DiscCharacterization.Solve(new DiscMeasurement("disc", 1.53, 0.8, black, white, Black, Black));
        Assert.All(result.Findings, finding => Assert.Equal(FindingKind.BackingsAlike, finding.Kind));
    }

    [Fact]
    public void Readings_that_no_layer_gives_are_reported_as_inconsistent()
    {
        // Over black far brighter than K = 0 allows beside so bright a reading over white.
        (ReflectanceSpectrum black, ReflectanceSpectrum white) = Readings(Truth(0.0, 1), 0.8);
        ReflectanceSpectrum brighter = ReflectanceSpectrum.Uniform(Grid, Math.Min(0.999, white[0] * 1.03));
        CharacterizationResult result = DiscCharacterization.Solve(new DiscMeasurement("disc", 1.53, 0.8, black, brighter, Black, White));
        Assert.All(result.Findings, finding => Assert.Equal(FindingKind.Inconsistent, finding.Kind));
    }

    [Fact]
    public void Absorption_lost_in_noise_is_set_to_zero_and_said()
    {
        (ReflectanceSpectrum black, ReflectanceSpectrum white) = Readings(Truth(0.0, 2), 0.8);
        ReflectanceSpectrum noisy = ReflectanceSpectrum.Uniform(Grid, white[0] + 0.001);
        CharacterizationResult result = DiscCharacterization.Solve(new DiscMeasurement("disc", 1.53, 0.8, black, noisy, Black, White));
        Assert.All(result.Findings, finding => Assert.Equal(FindingKind.AbsorptionBelowDetection, finding.Kind));
        Material material = result.ToMaterial();
        Assert.Equal(0, material.Absorption[0]);
        Assert.Equal(2, material.Scattering[0], 0.02);
    }

    [Fact]
    public void A_clear_disc_gives_its_absorption()
    {
        CharacterizationResult result = Solve(Truth(0.3, 0), 0.8);
        Material material = result.ToMaterial();
        Assert.Equal(0.3, material.Absorption[0], 1e-3);
        Assert.Equal(0, material.Scattering[0], 1e-3);
    }

    [Fact]
    public void Stated_uncertainty_covers_the_scatter_of_repeated_readings()
    {
        // Noise of known size is put on the readings 4000 times; the spread found must be the spread stated (4 sigma of its estimate).
        const double Noise = 0.001;
        (ReflectanceSpectrum black, ReflectanceSpectrum white) = Readings(Truth(0.08, 3), 0.8);
        Random random = new(20);
        double Gauss() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
        List<double> k = [], s = [];
        Material stated = Solve(Truth(0.08, 3), 0.8, Noise).ToMaterial();
        for (int i = 0; i < 4000; i++)
        {
            Material found = DiscCharacterization.Solve(new DiscMeasurement(
                "disc", 1.53, 0.8, ReflectanceSpectrum.Uniform(Grid, black[0] + (Noise * Gauss())), ReflectanceSpectrum.Uniform(Grid, white[0] + (Noise * Gauss())), Black, White, readingStandardUncertainty: Noise)).ToMaterial();
            k.Add(found.Absorption[0]);
            s.Add(found.Scattering[0]);
        }

        double kMean = k.Average(), sMean = s.Average();
        double kSd = Math.Sqrt(k.Average(x => (x - kMean) * (x - kMean))), sSd = Math.Sqrt(s.Average(x => (x - sMean) * (x - sMean)));
        double correlation = k.Zip(s, (x, y) => (x - kMean) * (y - sMean)).Average() / (kSd * sSd);
        Assert.Equal(1, stated.Uncertainty!.AbsorptionPerMm[0] / kSd, 0.05);
        Assert.Equal(1, stated.Uncertainty.ScatteringPerMm[0] / sSd, 0.05);
        Assert.Equal(stated.Uncertainty.Correlation[0], correlation, 0.05);
    }

    private static Material Truth(double k, double s) => new("truth", AbsorptionSpectrum.Uniform(Grid, k), ScatteringSpectrum.Uniform(Grid, s), 1.53);

    private static (ReflectanceSpectrum Black, ReflectanceSpectrum White) Readings(Material truth, double thicknessMm)
    {
        ReflectanceSpectrum Read(Backing backing) => new LayerStack([new Layer(truth, thicknessMm)], backing.Substrate, backing.Coupling).Reflectance();
        return (Read(Black), Read(White));
    }

    private static CharacterizationResult Solve(Material truth, double thicknessMm, double noise = 0.002)
    {
        (ReflectanceSpectrum black, ReflectanceSpectrum white) = Readings(truth, thicknessMm);
        return DiscCharacterization.Solve(new DiscMeasurement("disc", 1.53, thicknessMm, black, white, Black, White, readingStandardUncertainty: noise));
    }
}
