using CeramicOptics.Characterization;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;

namespace CeramicOptics.Tests.Unit;

public class CharacterizationTests
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 100);

    private static readonly Backing Black = new(
        Substrate.FromInternalReflectance("black", ReflectanceSpectrum.Uniform(Grid, 0.01), 1.5),
        CouplingMedium.Glycerine);

    private static readonly Backing White = new(
        Substrate.FromInternalReflectance("white", ReflectanceSpectrum.Uniform(Grid, 0.93), 1.5),
        CouplingMedium.Glycerine);

    public static TheoryData<IOpticalModel> Models => [TwoFluxModel.Instance, TransportModel.Default];

    /// <summary>
    /// Every disc counts once, by the reading whose thickness is known worst; relative errors of independent discs add
    /// as squares, and their mean has one over their number of it: √(0.06² + 0.02²) / 2.
    /// </summary>
    [Fact]
    public void The_common_error_of_discs_is_that_of_their_mean_thickness()
    {
        DiscReading Of(double mm, Backing backing, double uncertaintyMm) => DiscReading.Reflectance(
            $"{mm}", mm, ReflectanceSpectrum.Uniform(Grid, backing == Black ? 0.4 : 0.6), backing,
            MeasurementGeometry.DiffuseSpecularIncluded, ReadingArea.Large, 0.002, uncertaintyMm);
        DiscSet discs = new("x", 1.53, [Of(0.5, Black, 0.01), Of(0.5, White, 0.03), Of(1, Black, 0.02)]);
        Assert.Equal(Math.Sqrt(0.0036 + 0.0004) / 2, discs.RelativeScale, 1e-12);
    }

    /// <summary>A finding without values says only what it has.</summary>
    [Theory]
    [InlineData(FindingKind.Undetermined, "K 0.1 ± 0.2 and S 3 ± 4 1/mm", new[] { 0.1, 0.2, 3, 4 })]
    [InlineData(FindingKind.Undetermined, "too clear for this window", new double[0])]
    [InlineData(FindingKind.AreaNotStated, "K would be 0.25 and S 2.5 1/mm", new[] { 0.25, 2.5 })]
    [InlineData(FindingKind.AreaNotStated, "no material would have these readings", new double[0])]
    public void Words_of_a_finding_follow_its_values(FindingKind kind, string words, double[] values) =>
        Assert.Contains(words, new Finding(500, kind, values).ToString(), StringComparison.Ordinal);

    [Theory]
    [MemberData(nameof(Models))]
    public void A_disc_that_hides_both_backings_is_reported_as_too_opaque(IOpticalModel model)
    {
        CharacterizationResult result = Find(Truth(0.5, 30, model), 2);
        Assert.All(result.Findings, finding => Assert.Equal(FindingKind.TooOpaque, finding.Kind));
        Assert.Equal(Grid.Count, result.Findings.Count);
        Assert.False(result.IsComplete);
        InvalidOperationException error = Assert.Throws<InvalidOperationException>(() => result.ToMaterial());
        Assert.StartsWith(
            "K and S of 'disc' are not determined at 4 of 4 wavelengths; first at 400 nm:", error.Message,
            StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Models))]
    public void Swapped_readings_are_reported(IOpticalModel model)
    {
        (ReflectanceSpectrum black, ReflectanceSpectrum white) = Readings(Truth(0.1, 3, model), 0.8);
        AllAre(FindingKind.BlackNotBelowWhite, Find(Disc(white, black), model));
    }

    [Theory]
    [MemberData(nameof(Models))]
    public void A_reading_below_the_surface_reflection_is_reported(IOpticalModel model) => AllAre(
        FindingKind.OutsideSurfaceModel,
        Find(Disc(ReflectanceSpectrum.Uniform(Grid, 0.03), ReflectanceSpectrum.Uniform(Grid, 0.5)), model));

    [Theory]
    [MemberData(nameof(Models))]
    public void Backings_that_hardly_differ_are_reported(IOpticalModel model)
    {
        (ReflectanceSpectrum black, ReflectanceSpectrum white) = Readings(Truth(0.1, 3, model), 0.8);
        AllAre(
            FindingKind.BackingsAlike,
            Find(DiscSet.OverBlackAndWhite("disc", 1.53, 0.8, black, white, Black, Black,
                MeasurementGeometry.DiffuseSpecularIncluded, ReadingArea.Large), model));
    }

    [Theory]
    [MemberData(nameof(Models))]
    public void Readings_that_no_layer_gives_are_reported_as_inconsistent(IOpticalModel model)
    {
        // Over black far brighter than K = 0 allows beside so bright a reading over white.
        (ReflectanceSpectrum black, ReflectanceSpectrum white) = Readings(Truth(0.0, 1, model), 0.8);
        ReflectanceSpectrum brighter = ReflectanceSpectrum.Uniform(Grid, Math.Min(0.999, white[0] * 1.03));
        AllAre(FindingKind.Inconsistent, Find(Disc(black, brighter), model));
    }

    [Theory]
    [MemberData(nameof(Models))]
    public void Absorption_lost_in_noise_is_set_to_zero_and_said(IOpticalModel model)
    {
        (ReflectanceSpectrum black, ReflectanceSpectrum white) = Readings(Truth(0.0, 2, model), 0.8);
        CharacterizationResult result = Find(Disc(black, ReflectanceSpectrum.Uniform(Grid, white[0] + 0.001)), model);
        AllAre(FindingKind.AbsorptionBelowDetection, result);
        Material material = result.ToMaterial();
        Assert.Equal(0, material.Absorption[0]);
        Assert.Equal(2, material.Scattering[0], 0.02);
    }

    [Fact]
    public void A_clear_disc_gives_its_absorption()
    {
        Material material = Find(Truth(0.3, 0, TwoFluxModel.Instance), 0.8).ToMaterial();
        Assert.Equal(0.3, material.Absorption[0], 1e-3);
        Assert.Equal(0, material.Scattering[0], 1e-3);
    }

    [Fact]
    public void One_bad_wavelength_does_not_take_the_others_with_it()
    {
        (ReflectanceSpectrum black, ReflectanceSpectrum white) = Readings(Truth(0.1, 3, TransportModel.Default), 0.8);
        DiscSet disc = Disc(black, new ReflectanceSpectrum(Grid, [white[0], white[1], black[2], white[3]]));
        foreach (double smoothness in (double[])[0, 1])
        {
            CharacterizationResult result = DiscCharacterization.Find(
                disc, new CharacterizationOptions { Smoothness = smoothness });
            Finding finding = Assert.Single(result.Findings);
            Assert.Equal((FindingKind.BlackNotBelowWhite, 600.0), (finding.Kind, finding.WavelengthNm));
            Assert.Equal(
                "disc, radiative transfer (g = 0), discs of 0.8 mm: 1 of 4 wavelengths not determined",
                result.ToString());
            Material part = result.ToMaterial(WavelengthGrid.Range(400, 500, 100));
            Assert.Equal(3, part.Scattering[1], 0.01);
            Assert.Throws<InvalidOperationException>(() => result.ToMaterial());
        }
    }

    /// <summary>
    /// The theory goes with the constants: unless told otherwise it is radiative transfer, and the other one refuses
    /// them.
    /// </summary>
    [Fact]
    public void A_material_found_by_one_theory_is_refused_by_a_stack_of_the_other()
    {
        (ReflectanceSpectrum black, ReflectanceSpectrum white) = Readings(Truth(0.1, 3, TransportModel.Default), 0.8);
        CharacterizationResult found = DiscCharacterization.Find(Disc(black, white));
        Material disc = found.ToMaterial();
        Assert.Equal(TransportModel.Default, disc.Model);
        Assert.Equal([0.8], disc.DiscThicknessesMm);
        Material glaze = new(
            "glaze", TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(Grid, 0.01),
            ScatteringSpectrum.Uniform(Grid, 0.2), 1.5);
        Assert.Equal(
            "'glaze' has K and S of two-flux theory but 'disc' those of radiative transfer (g = 0); one stack needs "
                + "one model. "
            + "Recalibration.Find turns the constants of one model into those of the other.",
            Assert.Throws<ArgumentException>(
                () => new LayerStack([new Layer(glaze, 0.05), new Layer(disc, 1)], Substrate.Black)).Message);
    }

    [Fact]
    public void Work_reports_progress_and_stops_when_told()
    {
        (ReflectanceSpectrum black, ReflectanceSpectrum white) = Readings(Truth(0.1, 3, TransportModel.Default), 0.8);
        List<double> reported = [];
        DiscCharacterization.Find(Disc(black, white), progress: new Immediate(reported.Add));
        Assert.Equal([0.25, 0.5, 0.75, 1], reported);
        using CancellationTokenSource source = new();
        source.Cancel();
        Assert.Throws<OperationCanceledException>(
            () => DiscCharacterization.Find(Disc(black, white), cancellation: source.Token));
    }

    [Fact]
    public void Progress_is_complete_where_readings_are_faulty()
    {
        List<double> reported = [];
        ReflectanceSpectrum same = ReflectanceSpectrum.Uniform(Grid, 0.4);
        AllAre(
            FindingKind.BlackNotBelowWhite,
            DiscCharacterization.Find(Disc(same, same), progress: new Immediate(reported.Add)));
        Assert.Equal([0.25, 0.5, 0.75, 1], reported);
    }

    [Fact]
    public void Stated_uncertainty_covers_the_scatter_of_repeated_readings()
    {
        // Noise of known size is put on the readings 4000 times; the spread found must be the spread stated (4 sigma of
        // its estimate).
        const double Noise = 0.001;
        (ReflectanceSpectrum black, ReflectanceSpectrum white) = Readings(Truth(0.08, 3, TwoFluxModel.Instance), 0.8);
        Random random = new(20);
        double Gauss() =>
            Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
        List<double> k = [], s = [];
        Material stated = Find(Disc(black, white, Noise), TwoFluxModel.Instance).ToMaterial();
        for (int i = 0; i < 4000; i++)
        {
            ReflectanceSpectrum Noisy(double value) => ReflectanceSpectrum.Uniform(Grid, value + (Noise * Gauss()));
            Material found = Find(Disc(Noisy(black[0]), Noisy(white[0]), Noise), TwoFluxModel.Instance).ToMaterial();
            k.Add(found.Absorption[0]);
            s.Add(found.Scattering[0]);
        }

        double kMean = k.Average(), sMean = s.Average();
        double kSd = Math.Sqrt(k.Average(x => (x - kMean) * (x - kMean))), sSd = Math.Sqrt(
            s.Average(x => (x - sMean) * (x - sMean)));
        double correlation = k.Zip(s, (x, y) => (x - kMean) * (y - sMean)).Average() / (kSd * sSd);
        Assert.Equal(1, stated.Uncertainty!.AbsorptionPerMm[0] / kSd, 0.05);
        Assert.Equal(1, stated.Uncertainty.ScatteringPerMm[0] / sSd, 0.05);
        Assert.Equal(stated.Uncertainty.Correlation[0], correlation, 0.05);
    }

    private static void AllAre(FindingKind kind, CharacterizationResult result)
    {
        Assert.Equal(Grid.Count, result.Findings.Count);
        Assert.All(result.Findings, finding => Assert.Equal(kind, finding.Kind));
    }

    private static Material Truth(double k, double s, IOpticalModel model) =>
        new("truth", model, AbsorptionSpectrum.Uniform(Grid, k), ScatteringSpectrum.Uniform(Grid, s), 1.53);

    private static (ReflectanceSpectrum Black, ReflectanceSpectrum White) Readings(Material truth, double thicknessMm)
    {
        ReflectanceSpectrum Read(Backing backing) => new LayerStack(
            [new Layer(truth, thicknessMm)], backing.Substrate, backing.Coupling)
            .Reflectance();
        return (Read(Black), Read(White));
    }

    private static DiscSet Disc(
        ReflectanceSpectrum black, ReflectanceSpectrum white, double noise = 0.002, double thicknessMm = 0.8) =>
        DiscSet.OverBlackAndWhite(
            "disc", 1.53, thicknessMm, black, white, Black, White, MeasurementGeometry.DiffuseSpecularIncluded,
            ReadingArea.Large, readingStandardUncertainty: noise);

    private static CharacterizationResult Find(DiscSet discs, IOpticalModel model) =>
        DiscCharacterization.Find(discs, new CharacterizationOptions { Model = model });

    private static CharacterizationResult Find(Material truth, double thicknessMm)
    {
        (ReflectanceSpectrum black, ReflectanceSpectrum white) = Readings(truth, thicknessMm);
        return Find(Disc(black, white, thicknessMm: thicknessMm), truth.Model);
    }
}
