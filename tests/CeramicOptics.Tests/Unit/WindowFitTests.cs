using System.Diagnostics;
using CeramicOptics.Characterization;
using CeramicOptics.Layers.Lateral;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;

namespace CeramicOptics.Tests.Unit;

/// <summary>
/// Fits to readings through windows. That the readings themselves are right is judged by photons in the Reference
/// tests; here they are made by the library, so that what is fitted is known.
/// </summary>
public class WindowFitTests
{
    private const MeasurementGeometry Di8 = MeasurementGeometry.DiffuseSpecularIncluded;

    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 100);
    private static readonly ReadingArea Window = ReadingArea.Circular(2, 2);

    private static readonly Backing Black = new(Body("black", 0.012), CouplingMedium.Glycerine);
    private static readonly Backing White = new(Body("white", 0.93), CouplingMedium.Glycerine);

    public static TheoryData<ReadingArea> Areas => [
        Window, ReadingArea.Circular(3, 1), ReadingArea.Circular(1, 4), ReadingArea.OnDisc(2, 2, 5, DiscSide.Absorbing),
        ReadingArea.OnDisc(2, 4, 6, DiscSide.PolishedInAir), ReadingArea.OnDisc(3, 3, 4, DiscSide.Reflecting)];

    [Theory]
    [MemberData(nameof(Areas))]
    public void Constants_come_back_where_the_anisotropy_is_known(ReadingArea area)
    {
        TransportModel model = new(16, 0.5);
        Material truth = Truth(model);
        CharacterizationResult result = DiscCharacterization.Find(
            Discs(truth, area), new CharacterizationOptions { Model = model, Anisotropy = 0.5 });
        Material found = result.ToMaterial();
        for (int i = 0; i < Grid.Count; i++)
        {
            Assert.Equal(1, found.Absorption[i] / truth.Absorption[i], 2e-3);
            Assert.Equal(1, found.Scattering[i] / truth.Scattering[i], 2e-4);
        }

        Assert.False(found.Uncertainty!.HasCommon);
        foreach (LargeAreaReading reading in result.LargeAreaReadings)
        {
            Backing backing = reading.Name == "over black" ? Black : White;
            ReflectanceSpectrum large = new LayerStack([new Layer(truth, 0.8)], backing.Substrate, backing.Coupling)
                .Reflectance(Di8);
            for (int i = 0; i < Grid.Count; i++)
            {
                Assert.Equal(large[i], reading.Values[i], 1e-4);
                Assert.Equal(1 - (reading.Read[i] / large[i]), reading.LostShare[i], 1e-3);
            }
        }
    }

    [Fact]
    public void Anisotropy_of_the_model_is_known()
    {
        TransportModel model = new(16, 0.7);
        Material truth = Truth(model), found = DiscCharacterization.Find(
            Discs(truth, Window), new CharacterizationOptions { Model = model }).ToMaterial();
        for (int i = 0; i < Grid.Count; i++)
        {
            Assert.Equal(1, found.Absorption[i] / truth.Absorption[i], 2e-3);
            Assert.Equal(1, found.Scattering[i] / truth.Scattering[i], 2e-4);
        }

        Assert.False(found.Uncertainty!.HasCommon);
    }

    [Theory]
    [InlineData(0.0)]
    [InlineData(0.3)]
    [InlineData(0.7)]
    [InlineData(0.9)]
    public void Unknown_anisotropy_stays_within_two_standard_uncertainties(double anisotropy)
    {
        // Little noise, so that the anisotropy is all that is uncertain.
        foreach (double s550 in (double[])[1.2, 3.5])
        {
            Material truth = Truth(new TransportModel(16, anisotropy), s550);
            CharacterizationResult result = DiscCharacterization.Find(Discs(truth, Window, 1e-4));
            Material found = result.ToMaterial();
            CoefficientUncertainty u = found.Uncertainty!;

            // Large readings of the same disc by the true anisotropy: what a large instrument would have read.
            foreach (LargeAreaReading reading in result.LargeAreaReadings)
            {
                Backing backing = reading.Name == "over black" ? Black : White;
                ReflectanceSpectrum large = new LayerStack(
                    [new Layer(truth, 0.8)], backing.Substrate, backing.Coupling).Reflectance(Di8);
                for (int i = 0; i < Grid.Count; i++)
                {
                    Assert.InRange(Math.Abs(reading.Values[i] - large[i]), 0, 2 * reading.StandardUncertainty[i]);
                }
            }

            for (int i = 0; i < Grid.Count; i++)
            {
                Assert.True(Math.Abs(u.CommonScatteringPerMm[i]) > 0 && Math.Abs(u.CommonAbsorptionPerMm[i]) > 0);
            }
        }
    }

    [Fact]
    public void Two_windows_are_fitted_together_and_a_wrong_one_is_found()
    {
        Material truth = Truth(new TransportModel(16, 0.8));
        ReadingArea wide = ReadingArea.Circular(5, 5);
        DiscReading[] readings = [.. Discs(truth, Window, 1e-3).Readings, .. Discs(truth, wide, 1e-3).Readings];
        CharacterizationResult result = DiscCharacterization.Find(new DiscSet("disc", 1.53, readings));
        Assert.DoesNotContain(result.Findings, finding => finding.Kind == FindingKind.PoorFit);
        Assert.Empty(result.Fit!.Outliers);

        // The loss that is said is the largest, of the smaller window.
        Finding loss = Assert.Single(result.Findings, finding => finding.Kind == FindingKind.LightLostSideways);
        Assert.Equal(
            result.LargeAreaReadings.Where(reading => reading.Area == Window).Max(reading => reading.LargestLoss),
            loss.Values[0], 1e-12);

        // Two windows tell something of the anisotropy: what is not known of it moves K less than with one.
        double Common(CharacterizationResult from) => Math.Abs(
            from.ToMaterial().Uncertainty!.CommonAbsorptionPerMm[2]);
        Assert.True(Common(result) < 0.7 * Common(DiscCharacterization.Find(Discs(truth, Window, 1e-3))));

        // The larger window said to be 3 mm.
        CharacterizationResult wrong = DiscCharacterization.Find(new DiscSet(
            "disc", 1.53, readings.Select(reading => reading.Area == wide
                ? reading.With(ReadingArea.Circular(3, 3)) : reading)));
        Assert.Contains(wrong.Findings, finding => finding.Kind == FindingKind.PoorFit);
    }

    [Fact]
    public void A_window_and_a_large_area_are_fitted_together()
    {
        TransportModel model = new(16, 0.5);
        Material truth = Truth(model);
        Material found = DiscCharacterization.Find(
            new DiscSet(
                "disc", 1.53, [Discs(truth, Window).Readings[0], Discs(truth, ReadingArea.Large).Readings[1]]),
            new CharacterizationOptions { Model = model, Anisotropy = 0.5 }).ToMaterial();
        for (int i = 0; i < Grid.Count; i++)
        {
            Assert.Equal(1, found.Absorption[i] / truth.Absorption[i], 2e-3);
            Assert.Equal(1, found.Scattering[i] / truth.Scattering[i], 2e-4);
        }
    }

    [Fact]
    public void Two_flux_constants_use_the_shares_of_radiative_transfer()
    {
        Material truth = Truth(TransportModel.Default);
        CharacterizationOptions options = new() { Model = TwoFluxModel.Instance, Anisotropy = 0 };
        Material through = DiscCharacterization.Find(Discs(truth, Window), options).ToMaterial();
        Material large = DiscCharacterization.Find(Discs(truth, ReadingArea.Large), options).ToMaterial();
        for (int i = 0; i < Grid.Count; i++)
        {
            Assert.Equal(1, through.Absorption[i] / large.Absorption[i], 5e-3);
            Assert.Equal(1, through.Scattering[i] / large.Scattering[i], 5e-3);
        }
    }

    [Fact]
    public void A_transmittance_through_a_port_is_corrected_too()
    {
        TransportModel model = new(16, 0.5);
        Material truth = Truth(model);
        DiscReading black = Discs(truth, Window).Readings[0];
        TransmittanceSpectrum all = new LayerStack([new Layer(truth, 0.8)], Substrate.Black, CouplingMedium.Air)
            .Transmittance(MeasurementGeometry.ZeroFortyFive);
        LayerStack free = new([new Layer(truth, 0.8)], Substrate.Black, CouplingMedium.Air);
        CircularReading weights = CircularReading.OnWideSpecimen(2, 2);
        LateralSampler sampler = ((IOpticalModel)model).LateralSamplerFor(free, MeasurementGeometry.ZeroFortyFive);
        double[] shares = [.. Enumerable.Range(0, Grid.Count).Select(i =>
        {
            LateralResponse[] responses = LateralReflectance.Responses(free, sampler, i);
            return weights.Of(Array.ConvertAll(responses, response => response.Down)) / responses[0].Down;
        })];
        TransmittanceSpectrum seen = new(Grid, [.. shares.Select((share, i) => share * all[i])]);
        CharacterizationResult result = DiscCharacterization.Find(
            new DiscSet("disc", 1.53, [black, DiscReading.Transmittance("through", 0.8, seen, Window, 1e-3)]),
            new CharacterizationOptions { Model = model, Anisotropy = 0.5 });
        Material found = result.ToMaterial();
        for (int i = 0; i < Grid.Count; i++)
        {
            Assert.Equal(1, found.Scattering[i] / truth.Scattering[i], 0.005);
            Assert.Equal(1, found.Absorption[i] / truth.Absorption[i], 0.02);
            Assert.Equal(1 - shares[i], result.LargeAreaReadings[1].LostShare[i], 1e-3);
        }

        Assert.True(1 - shares[3] > 0.1);
    }

    [Fact]
    public void Losses_are_said_and_the_uncorrected_constants_shown()
    {
        CharacterizationResult result = DiscCharacterization.Find(Discs(Truth(TransportModel.Default), Window));
        Finding finding = Assert.Single(result.Findings, item => item.Kind == FindingKind.LightLostSideways);
        Assert.StartsWith(
            $"{finding.WavelengthNm:0} nm: the window loses up to ", $"{finding}", StringComparison.Ordinal);
        Assert.True(result.IsComplete);
        double uncorrected = result.Uncorrected!.ToMaterial().Absorption[3];
        Assert.True(uncorrected > 1.5 * result.ToMaterial().Absorption[3]);

        CharacterizationResult large = DiscCharacterization.Find(
            Discs(Truth(TransportModel.Default), ReadingArea.Large));
        Assert.Empty(large.Findings);
        Assert.Empty(large.LargeAreaReadings);
        Assert.Null(large.Uncorrected);
    }

    [Fact]
    public void Areas_that_are_not_stated_and_clear_materials_are_said()
    {
        Material truth = Truth(TransportModel.Default);
        foreach (IOpticalModel model in (IOpticalModel[])[TransportModel.Default, TwoFluxModel.Instance])
        {
            Finding finding = Assert.Single(DiscCharacterization.Find(
                Discs(truth, ReadingArea.NotStated), new CharacterizationOptions { Model = model }).Findings);
            Assert.Equal((FindingKind.AreaNotStated, 600), (finding.Kind, finding.WavelengthNm));
            Assert.StartsWith(
                "600 nm: the illuminated and measured area is not stated and is taken as large; if it were a window of "
                    + "2 mm radius",
                $"{finding}", StringComparison.Ordinal);
        }

        CharacterizationResult clear = DiscCharacterization.Find(
            Discs(Truth(TransportModel.Default, 0.6), Window), new CharacterizationOptions { Anisotropy = 0 });
        Assert.Contains(clear.Findings, finding => finding.Kind == FindingKind.OutsideTestedWindows);
    }

    /// <summary>
    /// 31 wavelengths within a second on one core; on a busy machine one of three tries takes no more than ten.
    /// </summary>
    [Fact]
    public void A_disc_of_31_wavelengths_is_fitted_in_about_a_second()
    {
        WavelengthGrid grid = WavelengthGrid.Range(400, 700, 10);
        Material truth = Truth(new TransportModel(24, 0.6), 3.5, grid);
        DiscSet discs = Discs(truth, Window, 1e-3, grid);
        double seconds = double.PositiveInfinity;
        for (int i = 0; i < 3 && seconds > 10; i++)
        {
            Stopwatch clock = Stopwatch.StartNew();
            Assert.True(DiscCharacterization.Find(discs).IsComplete);
            seconds = clock.Elapsed.TotalSeconds;
        }

        Assert.InRange(seconds, 0, 10);
    }

    [Theory]
    [InlineData(1.0, 0.9)]
    [InlineData(2.0, 0.0)]
    [InlineData(2.0, 0.9)]
    [InlineData(6.0, 0.5)]
    public void A_tooth_read_through_a_window_is_corrected_within_its_uncertainty(double reduced, double anisotropy)
    {
        Material tooth = new(
            "tooth", new TransportModel(16, anisotropy), AbsorptionSpectrum.Uniform(Grid, 0.1),
            ScatteringSpectrum.Uniform(Grid, ((3 * reduced) - 0.05) / 4), 1.54);
        LayerStack stack = new([new Layer(tooth, 20)], Substrate.Black);
        ReflectanceSpectrum through = stack.Reflectance(Di8, Window), large = stack.Reflectance(Di8);
        LargeAreaReading known = WindowCorrection.Find(
            "tooth", through, Di8, Window, new BodyScattering(1.54, reduced, 0, anisotropy));
        LargeAreaReading unknown = WindowCorrection.Find(
            "tooth", through, Di8, Window, new BodyScattering(1.54, 1.3 * reduced, 0.3));
        for (int i = 0; i < Grid.Count; i++)
        {
            // The solver's wide reading is isotropic at equal reduced scattering.
            Assert.Equal(large[i], known.Values[i], 0.01);
            Assert.InRange(Math.Abs(unknown.Values[i] - large[i]), 0, 2 * unknown.StandardUncertainty[i]);
            Assert.Equal(1 - (through[i] / known.Values[i]), known.LostShare[i], 1e-3);
            Assert.InRange(known.LostShare[i], 0.15, 0.6);
        }
    }

    /// <summary>
    /// Dry discs of two thicknesses, recorded as dry and as wet; the window is the same for both films.
    /// </summary>
    [Fact]
    public void Films_are_compared_through_the_window()
    {
        Material truth = Truth(TransportModel.Default);
        CharacterizationResult Recorded(CouplingMedium film) => DiscCharacterization.Find(new DiscSet("disc", 1.53, [
            .. ((double[])[0.5, 1]).SelectMany(mm => ((double[])[0.012, 0.93]).Select(reflectance =>
            {
                Substrate tile = Body($"{reflectance}", reflectance);
                return DiscReading.Reflectance(
                    $"{mm} mm over {reflectance}", mm,
                    new LayerStack([new Layer(truth, mm)], tile, CouplingMedium.Air).Reflectance(Di8, Window),
                    new Backing(tile, film), Di8, Window, 1e-3);
            }))]));
        CharacterizationResult dry = Recorded(CouplingMedium.Air), wet = Recorded(CouplingMedium.Glycerine);
        Assert.Equal(CouplingVerdict.Supported, dry.Coupling!.Verdict);
        Assert.Equal(CouplingVerdict.Doubtful, wet.Coupling!.Verdict);
        Assert.Equal(dry.Coupling.ScatteringPerMm!.Value, wet.Coupling.OtherScatteringPerMm, 0.02);
        Assert.Equal(4, wet.LargeAreaReadings.Count);
        Assert.NotNull(wet.Uncorrected);
    }

    [Fact]
    public void Colours_of_a_disc_read_through_a_window_are_corrected()
    {
        Material truth = Truth(TransportModel.Default, 3.5, WavelengthGrid.Range(400, 700, 20));
        Lab Color(Backing backing, ReadingArea area) => Colorimeter.D65TwoDegree.ToLab(
            new LayerStack([new Layer(truth, 0.8)], backing.Substrate.Grid is null ? backing.Substrate
                : Body("tile", backing == Black ? 0.012 : 0.93, truth.Grid), backing.Coupling).Reflectance(Di8, area));
        DiscColors colors = new(
            "disc", 1.53, 0.8, Color(Black, Window), Color(White, Window), Colorimeter.D65TwoDegree,
            new Backing(Body("black", 0.012, truth.Grid), CouplingMedium.Glycerine),
            new Backing(Body("white", 0.93, truth.Grid), CouplingMedium.Glycerine), Di8, Window);
        Material found = ColorCharacterization.Find(colors, truth.Grid).ToMaterial();
        Lab Predicted(Material material) => Colorimeter.D65TwoDegree.ToLab(
            new LayerStack([new Layer(material, 1.2)], Substrate.Black).Reflectance(Di8));
        Assert.InRange(ColorDifference.Ciede2000(Predicted(truth), Predicted(found)), 0, 1.5);
    }

    private static DiscSet Discs(
        Material truth, ReadingArea area, double noise = 1e-3, WavelengthGrid? grid = null)
    {
        DiscReading Read(string name, double reflectance)
        {
            Backing backing = new(Body(name, reflectance, grid), CouplingMedium.Glycerine);
            return DiscReading.Reflectance(
                "over " + name, 0.8,
                new LayerStack([new Layer(truth, 0.8)], backing.Substrate, backing.Coupling).Reflectance(Di8, area),
                backing, Di8, area, noise);
        }

        return new DiscSet("disc", 1.53, [Read("black", 0.012), Read("white", 0.93)]);
    }

    private static Substrate Body(string name, double reflectance, WavelengthGrid? grid = null) =>
        Substrate.FromInternalReflectance(name, ReflectanceSpectrum.Uniform(grid ?? Grid, reflectance), 1.5);

    private static Material Truth(IOpticalModel model, double s550 = 3.5, WavelengthGrid? on = null)
    {
        WavelengthGrid grid = on ?? Grid;
        double[] s = [.. Enumerable.Range(0, grid.Count).Select(i => s550 * Math.Pow(grid[i] / 550, -1))];
        double[] k = [.. Enumerable.Range(0, grid.Count).Select(i => 0.06 + (0.2 * Math.Exp(-(grid[i] - 400) / 60)))];
        return new Material("truth", model, new AbsorptionSpectrum(grid, k), new ScatteringSpectrum(grid, s), 1.53);
    }
}
