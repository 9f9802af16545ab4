using static CeramicOptics.Tests.Repository;

namespace CeramicOptics.Tests.Reference;

/// <summary>Correlated colour temperatures against an independent program and published values.</summary>
public class ColorTemperatureReferenceTests
{
    /// <summary>
    /// tests/reference/color_temperature.py: the right angle to the locus as a root, 6 and 9 decimals; all lights.
    /// </summary>
    [Fact]
    public void Colour_temperatures_agree_with_an_independent_program()
    {
        int rows = 0;
        foreach (string[] row in ReferenceRows("color_temperature.csv"))
        {
            CorrelatedColorTemperature found = CorrelatedColorTemperature.Of(
                new Colorimeter(Observer.Cie1931TwoDegree, Illuminant.Named(row[0])).White);
            Assert.Equal(Number(row[1]), found.Kelvin, 1e-3);
            Assert.Equal(Number(row[2]), found.DistanceUv, 2e-9);
            rows++;
        }

        Assert.Equal(30, rows);
    }

    /// <summary>
    /// The temperatures that CIE 15 states, to 10 K for the F series, as two public programs list them (Pigment.O for
    /// Krita; Farg). Those of daylight are 5000 K and 6500 K times 1.4388 / 1.4380, by definition.
    /// </summary>
    [Theory]
    [InlineData("A", 2856, 2)]
    [InlineData("D50", 5003, 3)]
    [InlineData("D65", 6504, 3)]
    [InlineData("C", 6774, 3)]
    [InlineData("F2", 4230, 10)]
    [InlineData("F4", 2940, 10)]
    [InlineData("F7", 6500, 10)]
    [InlineData("F11", 4000, 10)]
    [InlineData("F12", 3000, 10)]
    [InlineData("LED-B1", 2733, 1)]
    [InlineData("LED-B2", 2998, 1)]
    [InlineData("LED-B3", 4103, 1)]
    [InlineData("LED-B4", 5109, 1)]
    [InlineData("LED-B5", 6598, 1)]
    [InlineData("LED-BH1", 2851, 1)]
    [InlineData("LED-RGB1", 2840, 1)]
    [InlineData("LED-V1", 2724, 1)]
    [InlineData("LED-V2", 4070, 1)]
    public void Colour_temperatures_are_the_published_ones(string name, double kelvin, double tolerance) =>
        Assert.Equal(
            kelvin,
            CorrelatedColorTemperature.Of(new Colorimeter(Observer.Cie1931TwoDegree,
            Illuminant.Named(name)).White).Kelvin, tolerance);

    [Theory]
    [InlineData(1500)]
    [InlineData(3200)]
    [InlineData(6500)]
    [InlineData(20000)]
    public void A_black_body_has_its_own_temperature(double kelvin)
    {
        CorrelatedColorTemperature found = CorrelatedColorTemperature.Of(
            new Colorimeter(Observer.Cie1931TwoDegree, Illuminant.Planckian(kelvin)).White);

        Assert.Equal(1, found.Kelvin / kelvin, 1e-6);
        Assert.InRange(Math.Abs(found.DistanceUv), 0, 1e-8);
    }

    [Theory]
    [InlineData(2700)]
    [InlineData(4000)]
    [InlineData(6500)]
    public void The_lamp_model_has_the_temperature_asked_for_and_is_near_white(double kelvin)
    {
        CorrelatedColorTemperature found = CorrelatedColorTemperature.Of(
            new Colorimeter(Observer.Cie1931TwoDegree, Illuminant.WhiteLedModel(kelvin)).White);
        Assert.Equal(kelvin, found.Kelvin, 0.5);
        Assert.InRange(Math.Abs(found.DistanceUv), 0, 1e-6);
    }

    [Fact]
    public void A_colour_that_is_no_white_has_no_temperature()
    {
        Assert.Throws<ArgumentOutOfRangeException>(
            () => CorrelatedColorTemperature.Of(Xyz.FromChromaticity(0.15, 0.06, 1)));
        Assert.Throws<ArgumentOutOfRangeException>(
            () => CorrelatedColorTemperature.Of(Xyz.FromChromaticity(0.30, 0.60, 1)));
        Assert.Throws<ArgumentOutOfRangeException>(
            () => CorrelatedColorTemperature.Of(Xyz.FromChromaticity(0.70, 0.299, 1)));
    }
}
