using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;

namespace CeramicOptics.Tests.Unit;

public class LayerStackTests
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 10), Coarse = WavelengthGrid.Range(
        400, 700, 100);

    [Fact]
    public void One_layer_of_matched_index_is_the_plain_formula()
    {
        Substrate stump = Substrate.FromInternalReflectance("stump", ReflectanceSpectrum.Uniform(Grid, 0.3), 1.54);
        LayerStack stack = new([new Layer(Uniform(0.1, 2, 1.54), 0.8)], stump);
        Assert.Equal(
            TwoFluxLayer.Reflectance(0.1, 2, 0.8, 0.3), stack.Reflectance(MeasurementGeometry.Internal)[0], 1e-15);
    }

    [Fact]
    public void A_clear_layer_of_matched_index_returns_the_stump_as_it_was_read()
    {
        ReflectanceSpectrum read = ReflectanceSpectrum.Uniform(Grid, 0.37);
        foreach (MeasurementGeometry geometry in Enum.GetValues<MeasurementGeometry>())
        {
            LayerStack stack = new(
                [new Layer(Uniform(0, 0, 1.54), 1)], Substrate.FromMeasuredReflectance("stump", read, 1.54, geometry));
            Assert.Equal(0.37, stack.Reflectance(geometry)[0], 1e-13);
        }
    }

    /// <summary>
    /// A black tile of index 1.5 reads 0.0400063 (Fresnel at 8 degrees), which certificates round to 0.04; what is
    /// farther below is an error of geometry or index.
    /// </summary>
    [Fact]
    public void A_reading_of_a_black_body_may_be_rounded()
    {
        const MeasurementGeometry Sphere = MeasurementGeometry.DiffuseSpecularIncluded;
        Substrate Tile(double read) =>
            Substrate.FromMeasuredReflectance("black tile", ReflectanceSpectrum.Uniform(Grid, read), 1.5, Sphere);
        foreach (double read in (double[])[0.04, 0.0351])
        {
            LayerStack seen = new([new Layer(Uniform(0, 0, 1.5), 1)], Tile(read));
            Assert.Equal(0.0400063, seen.Reflectance(Sphere)[0], 5e-8);
        }

        Assert.Throws<ArgumentOutOfRangeException>(() => Tile(0.035));
    }

    [Fact]
    public void Every_jump_of_index_counts()
    {
        // Zirconia on cement reflects about half of the diffuse light back inside: 0.540 by quadrature
        // (tests/reference/fresnel_diffuse.csv).
        LayerStack stack = new(
            [new Layer(Uniform(0, 0, 2.15), 1), new Layer(Uniform(0, 0, 1.52), 0.05)], Substrate.Black);
        Assert.Equal(0.539676886377129436, stack.Reflectance(MeasurementGeometry.Internal)[0], 1e-12);
    }

    [Fact]
    public void A_metal_stays_a_boundary_in_every_medium()
    {
        Substrate metal = Substrate.OpaqueMetal("metal", ReflectanceSpectrum.Uniform(Grid, 0.55));
        foreach (double index in (double[])[1.0, 1.52, 2.15])
        {
            Assert.Equal(
                0.55,
                new LayerStack([new Layer(Uniform(0, 0, index), 1)],
                metal).Reflectance(MeasurementGeometry.Internal)[0], 1e-15);
        }
    }

    public static TheoryData<IOpticalModel> Models => [TwoFluxModel.Instance, TransportModel.Default];

    [Theory]
    [MemberData(nameof(Models))]
    public void Compiled_and_direct_agree_for_every_layer_of_a_stack(IOpticalModel model)
    {
        Substrate stump = Substrate.FromMeasuredReflectance("stump", ReflectanceSpectrum.Uniform(Grid, 0.25), 1.54,
            MeasurementGeometry.DiffuseSpecularIncluded);
        Substrate other = Substrate.FromMeasuredReflectance("other", ReflectanceSpectrum.Uniform(Grid, 0.6), 1.54,
            MeasurementGeometry.DiffuseSpecularIncluded);
        LayerStack stack = new(
            [new Layer(Uniform(0.01, 0.2, 1.5, model), 0.05), new Layer(Uniform(0.05, 4, 2.15, model), 0.7),
            new Layer(Uniform(0.02, 1, 1.52, model), 0.05)], stump);
        for (int layer = 0; layer < 3; layer++)
        {
            StackResponse response = stack.Compile(
                MeasurementGeometry.FortyFiveZero, [new VariableThickness(layer, new ThicknessRange(0.05, 2))]);
            foreach (Substrate under in (Substrate[])[stump, other])
            {
                ReflectanceSpectrum expected = stack.WithThickness(layer, 0.33).WithSubstrate(under)
                    .Reflectance(MeasurementGeometry.FortyFiveZero);
                Assert.InRange(Math.Abs(expected[3] - response.Reflectance(under, 0.33)[3]), 0, response.ErrorBound);
            }

            Assert.InRange(response.ErrorBound, 0, 2e-6);
        }

        Assert.Equal(stack.WithThickness(1, 100).Reflectance()[0], stack.InfiniteReflectance(1)[0], 1e-9);
    }

    [Fact]
    public void Dispersion_follows_cauchy()
    {
        RefractiveIndex index = new(1.50, 5000);
        Assert.Equal(1.50 + (5000 / (500.0 * 500.0)), index.At(500), 1e-15);
        LayerStack stack = new(
            [new Layer(
                new Material("clear", TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(Grid, 0),
                ScatteringSpectrum.Uniform(Grid, 0), index), 1)], Substrate.Black);
        ReflectanceSpectrum r = stack.Reflectance();
        Assert.True(r[0] > r[Grid.Count - 1], "the blue end has the higher index and so the higher surface reflection");
    }

    private static Material Uniform(double k, double s, double index, IOpticalModel? model = null) =>
        new("uniform", model ?? TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(Grid, k), ScatteringSpectrum.Uniform(
            Grid, s), index);

    /// <summary>Slopes of the surface correction against central differences.</summary>
    [Fact]
    public void Slopes_of_the_surface_correction_are_those_of_its_values()
    {
        foreach (MeasurementGeometry geometry in Enum.GetValues<MeasurementGeometry>())
        {
            SurfaceCorrection surface = new(geometry, 1.5);
            foreach (double inside in (double[])[0.1, 0.5, 0.9])
            {
                double read = surface.ToMeasured(inside), slope = (
                    surface.ToMeasured(inside + 1e-6) - surface.ToMeasured(inside - 1e-6)) / 2e-6;
                Assert.Equal(1, surface.MeasuredSlope(inside) / slope, 1e-6);
                Assert.Equal(1, surface.InverseSlope(read) * slope, 1e-6);
            }
        }
    }

    /// <summary>
    /// Glaze, ceramic and film by the public layer algebra and surface correction, not by the code of a stack.
    /// </summary>
    [Fact]
    public void A_stack_of_three_layers_is_what_the_layer_algebra_makes_of_it()
    {
        Substrate stump = Substrate.FromInternalReflectance("stump", ReflectanceSpectrum.Uniform(Grid, 0.35), 1.54);
        LayerStack stack = new(
            [new Layer(Uniform(0.1, 0.4, 1.48), 0.3), new Layer(Uniform(0.06, 3, 1.6), 0.7),
            new Layer(Uniform(0.05, 0.8, 1.5), 0.05)], stump);
        LayerOptics glaze = TwoFluxLayer.Slab(0.1, 0.4, 0.3), body = TwoFluxLayer.Slab(0.06, 3, 0.7),
            film = TwoFluxLayer.Slab(0.05, 0.8, 0.05);
        double inside = glaze.Over(Boundary.Diffuse(1.48, 1.6)).Over(body).Over(Boundary.Diffuse(1.6, 1.5)).Over(film)
            .Over(Boundary.Diffuse(1.5, 1.54)).OnBacking(0.35);
        foreach (MeasurementGeometry geometry in Enum.GetValues<MeasurementGeometry>())
        {
            Assert.Equal(
                new SurfaceCorrection(geometry, 1.48).ToMeasured(inside), stack.Reflectance(geometry)[7], 1e-13);
        }
    }

    /// <summary>
    /// van Gemert, Star 1987, by hand: K 0.2, S 3 and g 0.8 are μa 0.1 and μs (1 - g) = (12 + 0.1) / 3.
    /// </summary>
    [Fact]
    public void Coefficients_of_two_flux_theory_become_those_of_radiative_transfer()
    {
        TransportLayer layer = TransportLayer.FromTwoFlux(0.2, 3, 0.8, 1.5, 1.6);
        Assert.Equal(0.1, layer.AbsorptionPerMm, 1e-15);
        Assert.Equal(12.1 / 3 / 0.2, layer.ScatteringPerMm, 1e-12);
        Assert.Equal((0.8, 1.5, 1.6), (layer.Anisotropy, layer.ThicknessMm, layer.RefractiveIndex));
    }

    /// <summary>
    /// A stump read too dark or too light by so much: its internal reflectance moves, and stays from 0 to 1.
    /// </summary>
    [Fact]
    public void A_shifted_stump_is_lighter_by_so_much()
    {
        Substrate Stump(params double[] values) =>
            Substrate.FromInternalReflectance("stump", new ReflectanceSpectrum(Coarse, values), 1.54);
        Substrate darkStump = Stump(0.05, 0.08, 0.12, 0.2), good = Stump(0.35, 0.5, 0.6, 0.65);
        double[] Seen(Substrate under) => new LayerStack([new Layer(Clear(), 0)], under)
            .Reflectance(MeasurementGeometry.Internal).Values.ToArray();
        static Material Clear() =>
            new("clear", TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(Coarse, 0), ScatteringSpectrum.Uniform(
                Coarse, 0), 1.54);
        double[] dark = Seen(darkStump);
        Assert.Equal(
            dark.Select(value => value + 0.1), Seen(darkStump.Shifted(0.1)),
            (one, other) => Math.Abs(one - other) < 1e-12);
        Assert.Equal(
            dark.Select(value => Math.Max(0, value - 0.1)), Seen(darkStump.Shifted(-0.1)),
            (one, other) => Math.Abs(one - other) < 1e-12);
        Assert.Equal(1, Seen(good.Shifted(0.5))[3]);
        Assert.Equal((0.25, 0), (Seen(Substrate.Black.Shifted(0.25))[0], Seen(Substrate.Black.Shifted(-0.25))[0]));
        Assert.Equal((0.75, 1), (Seen(Substrate.White.Shifted(-0.25))[0], Seen(Substrate.White.Shifted(0.25))[0]));
    }

    [Fact]
    public void Media_and_ideal_backings_carry_their_names()
    {
        Assert.Equal(
            ["air", "water", "glycerine", "ideal black", "ideal white"],
            (string[])[CouplingMedium.Air.Name, CouplingMedium.Water.Name, CouplingMedium.Glycerine.Name,
                Substrate.Black.Name, Substrate.White.Name]);
    }
}
