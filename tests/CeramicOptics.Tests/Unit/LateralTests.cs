using CeramicOptics.Layers.Lateral;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;
using MathNet.Numerics;

namespace CeramicOptics.Tests.Unit;

public class LateralTests
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 500, 100);

    public static TheoryData<IOpticalModel> Models =>
        [TwoFluxModel.Instance, TransportModel.Default, new TransportModel(16, 0.6)];

    [Theory]
    [MemberData(nameof(Models))]
    public void Without_variation_it_is_the_plane_parallel_stack(IOpticalModel model)
    {
        foreach (MeasurementGeometry geometry in Enum.GetValues<MeasurementGeometry>())
        {
            foreach (CouplingMedium? film in (CouplingMedium?[])[null, CouplingMedium.Air, CouplingMedium.Glycerine])
            {
                LayerStack stack = Crown(model, 0.4, film);
                LateralResponse at0 = model.LateralSamplerFor(stack, geometry).At(0, 0, [0.8, 0.1]);
                Assert.Equal(stack.Reflectance(geometry)[0], at0.Over(0.4), 1e-10);
                Assert.Equal(stack.WithSubstrate(Body(0)).Reflectance(geometry)[0], at0.Over(0), 1e-10);
            }
        }
    }

    /// <summary>
    /// Without scaling, with the same directions as the plane-parallel solver, and any azimuthal orders.
    /// </summary>
    [Fact]
    public void The_solver_itself_agrees_at_frequency_0()
    {
        TransportModel model = new(16, 0.6);
        LayerStack stack = Crown(model, 0.4, null);
        Assert.Equal(
            stack.Reflectance(MeasurementGeometry.DiffuseSpecularIncluded)[0],
            Column(0.6, 16, 3, null, 8).At(0, [0.8, 0.1]).Over(0.4),
            2e-6);
    }

    [Fact]
    public void Light_and_detector_can_be_exchanged_at_every_frequency()
    {
        foreach (double k in (double[])[0.1, 1, 5])
        {
            LateralResponse one = Column(0.5, 10, 4, 8, null).At(k, [0.8, 0.1]);
            LateralResponse other = Column(0.5, 10, 4, null, 8).At(k, [0.8, 0.1]);
            Assert.Equal(one.Own, other.Own, 1e-9);
            Assert.Equal(one.Down, other.Up, 1e-9);
            Assert.Equal(one.Return, other.Return, 1e-9);
        }
    }

    /// <summary>
    /// No scattering, matched indices: Lambertian light reaches the body as ∫ 2 μ exp(-μa t/μ) J0(k t tan θ) dμ, by a
    /// sum over 40000 cosines and J0 as the mean of cos(x cos φ).
    /// </summary>
    [Theory]
    [InlineData(0.5)]
    [InlineData(1.5)]
    public void Light_without_scattering_has_its_closed_form(double k)
    {
        const double Absorption = 0.8;
        const int Steps = 40_000, Turns = 64;
        double expected = 0;
        for (int i = 0; i < Steps; i++)
        {
            double mu = (i + 0.5) / Steps, x = k * Math.Sqrt(1 - (mu * mu)) / mu, bessel = 0;
            for (int j = 0; j < Turns; j++)
            {
                bessel += Math.Cos(x * Math.Cos(Math.PI * (j + 0.5) / Turns)) / Turns;
            }

            expected += 2 * mu * Math.Exp(-Absorption / mu) * bessel / Steps;
        }

        DirectionGrid grid = new([1.0], 24);
        LateralDirections directions = new(grid, 12);
        LateralPhase phase = new(0, grid.In(1), 12);
        LateralLayer layer = new(directions, new TransportLayer(Absorption, 0, 0, 1, 1), phase);
        LateralColumn column = new(directions, [layer], 1, 1, new TransportBeam(1, null, null));
        Assert.Equal(expected, column.At(k, [1]).Down, 1e-4);
    }

    /// <summary>Deep in a layer light decays as exp(-z sqrt(γ² + k²)), γ² = K (K + 2 S).</summary>
    [Fact]
    public void Two_flux_light_decays_faster_by_the_frequency()
    {
        const double K = 0.1, S = 4, Frequency = 1.3;
        Material material = Of(TwoFluxModel.Instance, K, S, 1.5);
        LateralSampler sampler = ((IOpticalModel)TwoFluxModel.Instance).LateralSamplerFor(
            new LayerStack([new Layer(material, 1)], Substrate.Black), MeasurementGeometry.Internal);
        double ratio = sampler.At(0, Frequency, [11]).Down / sampler.At(0, Frequency, [10]).Down;
        Assert.Equal(Math.Exp(-Math.Sqrt((K * (K + (2 * S))) + (Frequency * Frequency))), ratio, 1e-9);
    }

    [Theory]
    [MemberData(nameof(Models))]
    public void A_wide_window_loses_nothing_and_a_narrow_one_most(IOpticalModel model)
    {
        LayerStack stack = Crown(model, 0.4, null);
        double all = stack.Reflectance()[0], before = double.PositiveInfinity;
        Assert.Equal(all, Read(stack, 2, 50), 2e-4);
        foreach (double radius in (double[])[50, 20, 5, 2, 1, 0.5])
        {
            double reading = Read(stack, radius, radius);
            Assert.InRange(reading, Boundary.Fresnel(1, 1.5, 8), Math.Min(before, all));
            before = reading;
        }

        Assert.Equal(Read(stack, 1, 3), Read(stack, 3, 1), 1e-12);
    }

    [Theory]
    [MemberData(nameof(Models))]
    public void Nothing_is_gained_at_any_frequency(IOpticalModel model)
    {
        // White layers on a white body: all returns at frequency 0, less at any other.
        LayerStack white = new(
            [new Layer(Of(model, 0, 3, 1.5), 1)], Substrate.White);
        LateralSampler sampler = model.LateralSamplerFor(white, MeasurementGeometry.DiffuseDiffuse);
        double before = 1 + 1e-9;
        foreach (double k in (double[])[0, 0.1, 0.3, 1, 3, 10])
        {
            double returned = sampler.At(0, k, [1]).Over(1);
            Assert.InRange(returned, 0, before);
            before = returned;
        }

        Assert.Equal(1, sampler.At(0, 0, [1]).Over(1), 1e-6);
    }

    [Fact]
    public void A_mirror_around_a_disc_that_is_seen_whole_keeps_all_light_and_a_wide_disc_has_no_side()
    {
        LayerStack stack = Crown(TransportModel.Default, 0.4, null);
        double mirror = stack.Reflectance(
            MeasurementGeometry.DiffuseSpecularIncluded, ReadingArea.OnDisc(5, 5, 5, DiscSide.Reflecting))[0];
        Assert.Equal(stack.Reflectance()[0], mirror, 1e-6);
        foreach (double beyond in (double[])[0, 0.5, double.PositiveInfinity])
        {
            double wide = LateralReflectance.Read(
                stack, MeasurementGeometry.DiffuseSpecularIncluded, CircularReading.OnDisc(2, 2, 40, beyond))[0];
            Assert.Equal(Read(stack, 2, 2), wide, 2e-4);
        }
    }

    [Fact]
    public void A_large_spot_is_its_own_body_in_the_middle_and_unseen_far_away()
    {
        LayerStack stack = Crown(TransportModel.Default, 0.7, null);
        Substrate dark = Body(0.1);
        IReadOnlyList<ReflectanceSpectrum> seen = LateralReflectance.AboveSpot(
            stack, dark, MeasurementGeometry.DiffuseSpecularIncluded, new SpotBelow(12, [0, 40]));
        Assert.Equal(stack.WithSubstrate(dark).Reflectance()[0], seen[0][0], 1e-3);
        Assert.Equal(stack.Reflectance()[0], seen[1][0], 1e-3);
        IReadOnlyList<ReflectanceSpectrum> same = LateralReflectance.AboveSpot(
            stack, Body(0.7), MeasurementGeometry.DiffuseSpecularIncluded, new SpotBelow(1, [0, 1.5]));
        Assert.All(same, spectrum => Assert.Equal(stack.Reflectance()[0], spectrum[0], 1e-10));
    }

    /// <summary>Everything finite where materials are clear, black, thin or thick.</summary>
    [Fact]
    public void Extremes_stay_finite()
    {
        foreach (double k in (double[])[0, 1e-3, 100])
        {
            foreach (double s in (double[])[0, 1e-3, 100])
            {
                foreach (double mm in (double[])[0, 1e-4, 0.5, 100])
                {
                    Material material = Of(TransportModel.Default, k, s, 2.15);
                    LayerStack stack = new([new Layer(material, mm)], Substrate.White, CouplingMedium.Air);
                    double reading = Read(stack, 1, 1);
                    Assert.InRange(reading, 0, stack.Reflectance()[0] + 0.01);
                }
            }
        }
    }

    [Theory]
    [InlineData(0.05, 1)]
    [InlineData(1, 51)]
    [InlineData(double.NaN, 1)]
    public void Radii_are_checked(double spot, double window) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => CircularReading.OnWideSpecimen(spot, window));

    /// <summary>
    /// Light that leaves at distances spread as a Gaussian, exp(-p² k²): of a spot and window of radius a remains
    /// 1 - exp(-x) (I0(x) + I1(x)), x = a²/(2 p²) (Gradshteyn and Ryzhik, 6.633, integrated over the window).
    /// </summary>
    [Theory]
    [InlineData(5, 0.5)]
    [InlineData(2, 0.5)]
    [InlineData(1, 1.5)]
    public void A_gaussian_spread_has_its_closed_form(double radius, double p)
    {
        CircularReading reading = CircularReading.OnWideSpecimen(radius, radius);
        double x = radius * radius / (2 * p * p);
        double expected = 1 - (Math.Exp(-x) * (SpecialFunctions.BesselI0(x) + SpecialFunctions.BesselI1(x)));
        Assert.Equal(
            expected, reading.Of(Array.ConvertAll(LateralFrequencies.PerMm, k => Math.Exp(-p * p * k * k))), 1e-3);
    }

    /// <summary>
    /// The side sees one body: K = (0.2 * 0.6 + 1.4 * 0.3) / 0.9 = 0.6 and S = (3 * 0.6 + 9 * 0.3) / 0.9 = 5, index
    /// (1.5 * 0.6 + 1.8 * 0.3) / 0.9 = 1.6.
    /// </summary>
    [Fact]
    public void The_side_of_several_layers_is_their_mean_by_thickness()
    {
        LayerStack stack = new(
            [
                new Layer(Of(TwoFluxModel.Instance, 0.2, 3, 1.5), 0.6),
                new Layer(Of(TwoFluxModel.Instance, 1.4, 9, 1.8), 0.3),
            ],
            Body(0.5));
        ReadingArea area = ReadingArea.OnDisc(2, 2, 2.5, DiscSide.PolishedInAir);
        double Expected(double k, double s, double index) => LateralReflectance.Read(
            stack, MeasurementGeometry.DiffuseSpecularIncluded, new AreaWeights().For(area, k, s, index))[0];
        double read = stack.Reflectance(MeasurementGeometry.DiffuseSpecularIncluded, area)[0];
        Assert.Equal(Expected(0.6, 5, 1.6), read, 1e-12);
        Assert.All(
            (double[])[Expected(0, 5, 1.6), Expected(0.6, 0, 1.6), Expected(0.6, 5, 1.5)],
            other => Assert.True(Math.Abs(other - read) > 1e-6));
    }

    private static double Read(LayerStack stack, double spot, double window) => LateralReflectance.Read(
        stack, MeasurementGeometry.DiffuseSpecularIncluded, CircularReading.OnWideSpecimen(spot, window))[0];

    private static Substrate Body(double reflectance) =>
        Substrate.FromInternalReflectance("body", ReflectanceSpectrum.Uniform(Grid, reflectance), 1.54);

    private static LayerStack Crown(IOpticalModel model, double body, CouplingMedium? film) => new(
        [
            new Layer(Of(model, 0.1, 3, 1.5), 0.8),
            new Layer(Of(model, 0.05, 1, 1.52), 0.1),
        ],
        Body(body), film);

    private static Material Of(IOpticalModel model, double k, double s, double index) => new(
        "layer", model, AbsorptionSpectrum.Uniform(Grid, k), ScatteringSpectrum.Uniform(Grid, s), index);

    // The crown above by the solver without scaling.
    private static LateralColumn Column(
        double anisotropy, int streams, int orders, double? lightDegrees, double? viewDegrees)
    {
        TransportBeam beam = new(1, lightDegrees, viewDegrees);
        DirectionGrid grid = new([1, 1.5, 1.52, 1.54], streams, beam.Instruments);
        LateralDirections directions = new(grid, orders);
        LateralLayer Layer(double k, double s, double index) => new(
            directions,
            TransportLayer.FromTwoFlux(k, s, anisotropy, 0, index),
            new LateralPhase(anisotropy, grid.In(index), orders));
        return new LateralColumn(directions, [Layer(0.1, 3, 1.5), Layer(0.05, 1, 1.52)], 1.52, 1.54, beam);
    }
}
