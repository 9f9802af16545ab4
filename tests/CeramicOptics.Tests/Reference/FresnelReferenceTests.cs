using static CeramicOptics.Tests.Repository;

namespace CeramicOptics.Tests.Reference;

/// <summary>Against quadrature over the angle of incidence by mpmath, 40 digits, from both sides.</summary>
public class FresnelReferenceTests
{
    [Fact]
    public void Diffuse_reflectance_agrees_from_both_sides()
    {
        foreach (string[] row in ReferenceRows("fresnel_diffuse.csv"))
        {
            double n1 = Number(row[0]), n2 = Number(row[1]);
            LayerOptics down = Boundary.Diffuse(n1, n2), up = Boundary.Diffuse(n2, n1);

            // n2 - n1 as a difference of doubles carries 1e-16 / (n2 - n1) of relative error.
            double tolerance = 1e-13 / Math.Min(1, n2 - n1);
            Assert.Equal(1, down.ReflectanceFromAbove / Number(row[2]), tolerance);
            Assert.Equal(1, down.ReflectanceFromBelow / Number(row[3]), tolerance);
            Assert.Equal(down.ReflectanceFromAbove, up.ReflectanceFromBelow, 1e-15);
            Assert.Equal(down.ReflectanceFromBelow, up.ReflectanceFromAbove, 1e-15);
        }
    }

    [Theory]
    [InlineData(1, 1.5, 0, 0.04)] // ((n - 1)/(n + 1))^2
    [InlineData(1, 2.15, 0, 0.13328294280675236)] // (1.15/3.15)^2
    [InlineData(1.5, 1, 45, 1)] // beyond the critical angle of 41.8 degrees
    [InlineData(1, 1.5, 90, 1)]
    public void Directional_reflectance_has_its_closed_form(double from, double to, double angle, double expected) =>
        Assert.Equal(expected, Boundary.Fresnel(from, to, angle), 1e-14);

    [Fact]
    public void At_brewsters_angle_only_perpendicular_light_returns()
    {
        // Born, Wolf, 1.5.3: at tan θ = n the parallel part vanishes and the perpendicular amplitude is (n² - 1)/(n² +
        // 1).
        double n = 1.54, amplitude = ((n * n) - 1) / ((n * n) + 1);
        Assert.Equal(amplitude * amplitude / 2, Boundary.Fresnel(1, n, Math.Atan(n) * 180 / Math.PI), 1e-14);
    }
}
