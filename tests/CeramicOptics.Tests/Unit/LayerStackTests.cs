using CeramicOptics.Layers.Transport;
namespace CeramicOptics.Tests.Unit;

public class LayerStackTests
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 10);

    [Fact]
    public void One_layer_of_matched_index_is_the_plain_formula()
    {
        Substrate stump = Substrate.FromInternalReflectance("stump", ReflectanceSpectrum.Uniform(Grid, 0.3), 1.54);
        LayerStack stack = new([new Layer(Uniform(0.1, 2, 1.54), 0.8)], stump);
        Assert.Equal(TwoFlux.Reflectance(0.1, 2, 0.8, 0.3), stack.Reflectance(MeasurementGeometry.Internal)[0], 1e-15);
    }

    [Fact]
    public void A_clear_layer_of_matched_index_returns_the_stump_as_it_was_read()
    {
        ReflectanceSpectrum read = ReflectanceSpectrum.Uniform(Grid, 0.37);
        foreach (MeasurementGeometry geometry in Enum.GetValues<MeasurementGeometry>())
        {
            LayerStack stack = new([new Layer(Uniform(0, 0, 1.54), 1)], Substrate.FromMeasuredReflectance("stump", read, 1.54, geometry));
            Assert.Equal(0.37, stack.Reflectance(geometry)[0], 1e-13);
        }
    }

    [Fact]
    public void Every_jump_of_index_counts()
    {
        // Zirconia on cement reflects about half of the diffuse light back inside: 0.540 by quadrature (tests/reference/fresnel_diffuse.csv).
        LayerStack stack = new([new Layer(Uniform(0, 0, 2.15), 1), new Layer(Uniform(0, 0, 1.52), 0.05)], Substrate.Black);
        Assert.Equal(0.539676886377129436, stack.Reflectance(MeasurementGeometry.Internal)[0], 1e-12);
    }

    [Fact]
    public void A_metal_stays_a_boundary_in_every_medium()
    {
        Substrate metal = Substrate.OpaqueMetal("metal", ReflectanceSpectrum.Uniform(Grid, 0.55));
        foreach (double index in (double[])[1.0, 1.52, 2.15])
        {
            Assert.Equal(0.55, new LayerStack([new Layer(Uniform(0, 0, index), 1)], metal).Reflectance(MeasurementGeometry.Internal)[0], 1e-15);
        }
    }

    [Fact]
    public void Sweep_and_stack_agree_for_every_layer_of_a_stack()
    {
        Substrate stump = Substrate.FromMeasuredReflectance("stump", ReflectanceSpectrum.Uniform(Grid, 0.25), 1.54);
        LayerStack stack = new([new Layer(Uniform(0.01, 0.2, 1.5), 0.05), new Layer(Uniform(0.05, 4, 2.15), 0.7), new Layer(Uniform(0.02, 1, 1.52), 0.05)], stump);
        for (int layer = 0; layer < 3; layer++)
        {
            ReflectanceSpectrum expected = stack.WithThickness(layer, 0.33).Reflectance(MeasurementGeometry.FortyFiveZero);
            Assert.Equal(expected[3], stack.Sweep(layer, MeasurementGeometry.FortyFiveZero).Reflectance(0.33)[3], 1e-14);
        }

        Assert.Equal(stack.Sweep(1).Reflectance(100)[0], stack.Sweep(1).InfiniteReflectance()[0], 1e-12);
    }

    [Fact]
    public void Dispersion_follows_cauchy()
    {
        RefractiveIndex index = new(1.50, 5000);
        Assert.Equal(1.50 + (5000 / (500.0 * 500.0)), index.At(500), 1e-15);
        LayerStack stack = new([new Layer(new Material("clear", AbsorptionSpectrum.Uniform(Grid, 0), ScatteringSpectrum.Uniform(Grid, 0), index), 1)], Substrate.Black);
        ReflectanceSpectrum r = stack.Reflectance();
        Assert.True(r[0] > r[Grid.Count - 1], "the blue end has the higher index and so the higher surface reflection");
    }

    private static Material Uniform(double k, double s, double index) =>
        new("uniform", AbsorptionSpectrum.Uniform(Grid, k), ScatteringSpectrum.Uniform(Grid, s), index);

    /// <summary>Derivatives against central differences of the stack itself.</summary>
    [Fact]
    public void Sensitivities_of_a_covered_layer_are_the_slopes_of_the_stack()
    {
        LayerStack stack = new([new Layer(CoarseData.Glaze, 0.3), new Layer(CoarseData.Body, 0.7), new Layer(CoarseData.Film, 0.05)], CoarseData.Dark);
        foreach (MeasurementGeometry geometry in Enum.GetValues<MeasurementGeometry>())
        {
            for (int i = 0; i < 4; i++)
            {
                double At(double byK, double byS) => new LayerStack(
                    [stack.Layers[0], new Layer(CoarseData.Moved(CoarseData.Body, i, byK, byS), 0.7), stack.Layers[2]], CoarseData.Dark).Reflectance(geometry)[i];

                (double value, double byK, double byS) = stack.Sweep(1, geometry).SensitivityAt(i, CoarseData.Body.Absorption[i], CoarseData.Body.Scattering[i], 0.7);
                const double Step = 1e-5;
                Assert.Equal(At(0, 0), value, 1e-14);
                Assert.Equal(1, byK / ((At(Step, 0) - At(-Step, 0)) / (2 * Step)), 1e-6);
                Assert.Equal(1, byS / ((At(0, Step) - At(0, -Step)) / (2 * Step)), 1e-6);
            }

            SurfaceCorrection surface = new(geometry, 1.5);
            foreach (double inside in (double[])[0.1, 0.5, 0.9])
            {
                double read = surface.ToMeasured(inside), slope = (surface.ToMeasured(inside + 1e-6) - surface.ToMeasured(inside - 1e-6)) / 2e-6;
                Assert.Equal(1, surface.MeasuredSlope(inside) / slope, 1e-6);
                Assert.Equal(1, surface.InverseSlope(read) * slope, 1e-6);
            }
        }
    }

    /// <summary>van Gemert, Star 1987, by hand: K 0.2, S 3 and g 0.8 are μa 0.1 and μs (1 - g) = (12 + 0.1) / 3.</summary>
    [Fact]
    public void Coefficients_of_two_flux_theory_become_those_of_radiative_transfer()
    {
        TransportLayer layer = TransportLayer.FromTwoFlux(0.2, 3, 0.8, 1.5, 1.6);
        Assert.Equal(0.1, layer.AbsorptionPerMm, 1e-15);
        Assert.Equal(12.1 / 3 / 0.2, layer.ScatteringPerMm, 1e-12);
        Assert.Equal((0.8, 1.5, 1.6), (layer.Anisotropy, layer.ThicknessMm, layer.RefractiveIndex));
    }

    [Fact]
    public void Validity_tells_where_the_two_models_differ_most()
    {
        foreach (Substrate under in (Substrate[])[CoarseData.Dark, CoarseData.Good])
        {
            LayerStack stack = new([new Layer(CoarseData.Body, 0.4)], under);
            ReflectanceSpectrum fast = stack.Reflectance(), exact = new TransportModel(8).Reflectance(stack, MeasurementGeometry.DiffuseSpecularIncluded);
            int most = Enumerable.Range(0, 4).MaxBy(i => Math.Abs(fast[i] - exact[i]));
            TwoFluxValidity validity = TwoFluxValidity.Assess(stack, exact: new TransportModel(8));
            Assert.Equal((fast[most] - exact[most], CoarseData.Grid[most]), (validity.LargestReflectanceDifference, validity.WavelengthNm));
            Assert.Equal(ColorDifference.Ciede2000(Colorimeter.D65TwoDegree.ToLab(exact), Colorimeter.D65TwoDegree.ToLab(fast)), validity.ColorDifference, 1e-12);
            Assert.Equal(validity.ColorDifference <= 0.8, validity.IsWithinPerceptibility);
        }

        Assert.True(new TwoFluxValidity(0, 0, 0.8).IsWithinPerceptibility);
        Assert.False(new TwoFluxValidity(0, 0, 0.81).IsWithinPerceptibility);
    }

    /// <summary>A stump read too dark or too light by so much: its internal reflectance moves, and stays from 0 to 1.</summary>
    [Fact]
    public void A_shifted_stump_is_lighter_by_so_much()
    {
        double[] Seen(Substrate under) => new LayerStack([new Layer(Clear(), 0)], under).Reflectance(MeasurementGeometry.Internal).Values.ToArray();
        static Material Clear() => new("clear", AbsorptionSpectrum.Uniform(CoarseData.Grid, 0), ScatteringSpectrum.Uniform(CoarseData.Grid, 0), 1.54);
        double[] dark = Seen(CoarseData.Dark);
        Assert.Equal(dark.Select(value => value + 0.1), Seen(CoarseData.Dark.Shifted(0.1)), (one, other) => Math.Abs(one - other) < 1e-12);
        Assert.Equal(dark.Select(value => Math.Max(0, value - 0.1)), Seen(CoarseData.Dark.Shifted(-0.1)), (one, other) => Math.Abs(one - other) < 1e-12);
        Assert.Equal(1, Seen(CoarseData.Good.Shifted(0.5))[3]);
        Assert.Equal((0.25, 0), (Seen(Substrate.Black.Shifted(0.25))[0], Seen(Substrate.Black.Shifted(-0.25))[0]));
        Assert.Equal((0.75, 1), (Seen(Substrate.White.Shifted(-0.25))[0], Seen(Substrate.White.Shifted(0.25))[0]));
    }

    [Fact]
    public void Media_and_ideal_backings_carry_their_names()
    {
        Assert.Equal(
            ["air", "water", "glycerine", "ideal black", "ideal white"],
            (string[])[CouplingMedium.Air.Name, CouplingMedium.Water.Name, CouplingMedium.Glycerine.Name, Substrate.Black.Name, Substrate.White.Name]);
    }
}
