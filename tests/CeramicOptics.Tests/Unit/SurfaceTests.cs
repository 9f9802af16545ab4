using CeramicOptics.Layers.TwoFlux;

namespace CeramicOptics.Tests.Unit;

/// <summary>Surfaces and boundaries against values worked out from Fresnel's equations for index 1.5.</summary>
public class SurfaceTests
{
    // Fresnel for unpolarised light from air to 1.5: 0.04 at 0 degrees, 0.0502 at 45 (mean of 0.0920 and 0.0085; Born,
    // Wolf, 1.5.2). Diffuse light from outside and inside: quadrature by mpmath, tests/reference/fresnel_diffuse.csv.
    private const double Normal = 0.04, Oblique = 0.05024, Outside = 0.091778, Inside = 0.596346;

    [Theory]
    [InlineData(MeasurementGeometry.DiffuseSpecularIncluded, Normal, (1 - Normal) * (1 - Inside))]
    [InlineData(MeasurementGeometry.DiffuseSpecularExcluded, 0, (1 - Normal) * (1 - Inside))]
    [InlineData(MeasurementGeometry.FortyFiveZero, 0, (1 - Normal) * (1 - Oblique) / 2.25)]
    [InlineData(MeasurementGeometry.ZeroFortyFive, 0, (1 - Normal) * (1 - Oblique) / 2.25)]
    [InlineData(MeasurementGeometry.DiffuseDiffuse, Outside, (1 - Outside) * (1 - Inside))]
    public void Measured_reflectance_is_that_of_the_table_in_the_docs(
        MeasurementGeometry geometry, double specular, double through)
    {
        SurfaceCorrection surface = new(geometry, 1.5);
        foreach (double inside in (double[])[0, 0.2, 0.5, 0.9, 1])
        {
            Assert.Equal(specular + (through * inside / (1 - (Inside * inside))), surface.ToMeasured(inside), 0.0005);
            Assert.Equal(inside, surface.ToInternal(surface.ToMeasured(inside)), 1e-12);
        }
    }

    [Fact]
    public void A_reading_that_no_body_gives_is_refused()
    {
        SurfaceCorrection surface = new(MeasurementGeometry.DiffuseSpecularIncluded, 1.5);
        Assert.StartsWith(
            "measuredReflectance (surface correction) must be in [0.0400",
            Assert.Throws<ArgumentOutOfRangeException>(() => surface.ToInternal(0.03)).Message);
        Assert.Contains(
            "but is 1.01.", Assert.Throws<ArgumentOutOfRangeException>(() => surface.ToInternal(1.01)).Message);
        Assert.Equal(0.3, new SurfaceCorrection(MeasurementGeometry.Internal, 1.5).ToMeasured(0.3));
        Assert.Throws<ArgumentOutOfRangeException>(() => new SurfaceCorrection((MeasurementGeometry)99, 1.5));
        Assert.Throws<InvalidOperationException>(() => default(SurfaceCorrection).ToInternal(0));
        Assert.Throws<InvalidOperationException>(() => default(SurfaceCorrection).ToMeasured(0.5));
    }

    [Fact]
    public void Grazing_and_totally_reflected_light_come_back_whole()
    {
        Assert.Equal(1, Boundary.Fresnel(1.5, 1, 41.82));
        Assert.InRange(Boundary.Fresnel(1.5, 1, 41.80), 0.5, 0.999999);
        Assert.Equal(1, Boundary.Fresnel(1, 1.5, 90), 1e-12);
        Assert.Equal(0, Boundary.Fresnel(1.5, 1.5, 90));
        Assert.Equal(0, Boundary.Fresnel(1.5, 1.5, 30));

        // Brewster: tan θ = 1.5, where only the perpendicular half is reflected: ((1.5² - 1) / (1.5² + 1))² / 2.
        Assert.Equal(Math.Pow(1.25 / 3.25, 2) / 2, Boundary.Fresnel(1, 1.5, Math.Atan(1.5) * 180 / Math.PI), 1e-12);
        LayerOptics none = Boundary.Diffuse(1.5, 1.5);
        Assert.Equal(
            (0, 0, 1, 1),
            (none.ReflectanceFromAbove, none.ReflectanceFromBelow, none.TransmittanceDown, none.TransmittanceUp));
        Assert.Throws<ArgumentException>(() => new LayerOptics(0, 1, 1, 0).OnBacking(1));
    }

    [Fact]
    public void Stacks_name_what_does_not_fit()
    {
        WavelengthGrid grid = WavelengthGrid.Range(400, 700, 100), other = WavelengthGrid.Range(400, 700, 50);
        Material body = new(
            "body", TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(grid, 0.1), ScatteringSpectrum.Uniform(grid, 3),
            1.5);
        Material stranger = new(
            "stranger", TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(other, 0.1),
            ScatteringSpectrum.Uniform(other, 3), 1.5);
        Assert.Contains(
            "'stranger'",
            Assert.Throws<ArgumentException>(() => new LayerStack([new Layer(body, 1), new Layer(stranger, 1)],
            Substrate.Black)).Message);
        Substrate post = Substrate.OpaqueMetal("post", ReflectanceSpectrum.Uniform(other, 0.5));
        Assert.Contains(
            "'post'", Assert.Throws<ArgumentException>(() => new LayerStack([new Layer(body, 1)], post)).Message);
        Assert.Throws<ArgumentOutOfRangeException>(
            () => new LayerStack([new Layer(body, 1)], Substrate.Black).Reflectance((MeasurementGeometry)99));
        Assert.Contains(
            "reflectance at 400 nm",
            Assert.Throws<ArgumentOutOfRangeException>(() => Substrate.OpaqueMetal("post",
            ReflectanceSpectrum.Uniform(grid, 1.05))).Message);
        Assert.StartsWith(
            "refractive index must be in [1, 4] but is",
            Assert.Throws<ArgumentOutOfRangeException>(() => new RefractiveIndex(1.5, 1e6).At(300)).Message);
        Assert.Equal("1.5", new RefractiveIndex(1.5).ToString());
        Assert.Equal("1.5 + 4000 nm²/λ²", new RefractiveIndex(1.5, 4000).ToString());
        Assert.Equal("0.8 mm of body", new Layer(body, 0.8).ToString());
        Substrate estimated = Substrate.FromMeasuredColor(
            "chairside", new Lab(60, 2, 15), Colorimeter.D65TwoDegree, grid, 1.54,
            MeasurementGeometry.DiffuseSpecularIncluded);
        Assert.True(estimated.IsEstimated);
        Assert.False(post.IsEstimated);

        // A body's own boundary with the layer above counts: the lower its index, the more is turned back inside the
        // layer.
        Substrate Of(double index) =>
            Substrate.FromInternalReflectance("body", ReflectanceSpectrum.Uniform(grid, 0.5), index);
        Assert.NotEqual(
            new LayerStack([new Layer(body, 0.2)], Of(1.5)).Reflectance()[0],
            new LayerStack([new Layer(body, 0.2)], Of(2.1)).Reflectance()[0], 1e-3);
    }
}
