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
}
