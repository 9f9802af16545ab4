namespace CeramicOptics.Tests.Unit;

public class ObserverTests
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(390, 780, 5);

    [Fact]
    public void An_own_observer_with_the_functions_of_the_standard_sees_the_same()
    {
        Observer standard = Observer.Cie1931TwoDegree;
        Observer own = new("mine", standard.Grid, standard.X, standard.Y, standard.Z);
        ReflectanceSpectrum grey = ReflectanceSpectrum.Uniform(WavelengthGrid.Range(380, 780, 10), 0.5);
        Assert.Equal(Colorimeter.D65TwoDegree.ToXyz(grey), new Colorimeter(own, Illuminant.D65).ToXyz(grey));
        Assert.Equal("D65/mine", new Colorimeter(own, Illuminant.D65).Name);
    }

    /// <summary>
    /// Functions scaled by any factor describe the same observer; given every 5 nm, interpolated, nearly the same.
    /// </summary>
    [Fact]
    public void Scale_does_not_matter_and_coarse_functions_are_interpolated()
    {
        Observer standard = Observer.Cie2015TenDegree;
        double[] Coarse(ReadOnlySpan<double> values) =>
            [.. values.ToArray().Where((_, i) => i % 5 == 0).Take(Grid.Count).Select(value => 683 * value)];
        Xyz white = new Colorimeter(standard, Illuminant.A).White;
        Observer coarse = new("coarse", Grid, Coarse(standard.X), Coarse(standard.Y), Coarse(standard.Z));
        Xyz own = new Colorimeter(coarse, Illuminant.A).White;
        Assert.Equal(white.X, own.X, 0.01);
        Assert.Equal(100, own.Y, 1e-9);
        Assert.Equal(white.Z, own.Z, 0.01);
    }

    [Fact]
    public void The_callers_array_is_copied()
    {
        double[] values = Flat();
        Observer own = new("mine", Grid, values, values, values);
        values[3] = 9;
        Assert.Equal(1, own.X[3]);
    }

    [Fact]
    public void Faults_are_named()
    {
        double[] flat = Flat(), dark = new double[Grid.Count], negative = Flat(), nan = Flat();
        (negative[12], nan[2]) = (-0.001, double.NaN);
        StartsWith("x-bar at 450 nm must be in [0, 1000000] but is -0.001.", Grid, negative, flat, flat);
        StartsWith("y-bar at 400 nm must be in [0, 1000000] but is NaN.", Grid, flat, nan, flat);
        StartsWith("z-bar is zero at every wavelength.", Grid, flat, flat, dark);
        StartsWith(
            "y-bar has 3 values for 390 to 780 nm in steps of 5 nm (79 values).", Grid, flat, new double[3], flat);
        WavelengthGrid late = WavelengthGrid.Range(395, 780, 5), early = WavelengthGrid.Range(390, 775, 5);
        const string Range = "Colour-matching functions must reach from 390 to 780 nm but are given at ";
        StartsWith(Range + "395 to 780 nm", late, flat, flat, flat);
        StartsWith(Range + "390 to 775 nm", early, flat, flat, flat);
        WavelengthGrid wide = WavelengthGrid.Range(380, 780, 20);
        StartsWith("step of the colour-matching functions must be in [0, 10] nm but is 20 nm.", wide, flat, flat, flat);
        Assert.Throws<ArgumentException>(() => new Observer(" ", Grid, flat, flat, flat));
    }

    /// <summary>A lamp that leaves one tristimulus value at zero has no white to compare with.</summary>
    [Fact]
    public void A_lamp_without_blue_is_refused()
    {
        WavelengthGrid grid = WavelengthGrid.Range(380, 780, 1);
        double[] power = [.. Enumerable.Range(0, grid.Count).Select(i => grid[i] > 700 ? 1.0 : 0)];
        Illuminant red = new("red", new PowerSpectrum(grid, power));
        ArgumentException error = Assert.Throws<ArgumentException>(
            () => new Colorimeter(Observer.Cie1931TwoDegree, red));
        Assert.StartsWith("Illuminant red gives X ", error.Message, StringComparison.Ordinal);
    }

    /// <summary>The coefficients of these indices belong to the observers of 1931 and 1964.</summary>
    [Fact]
    public void Indices_of_the_older_observers_refuse_others()
    {
        Observer standard = Observer.Cie1931TwoDegree, own = new(
            "2°", standard.Grid, standard.X, standard.Y, standard.Z);
        foreach (Observer other in (Observer[])[Observer.Cie2015TwoDegree, own])
        {
            Colorimeter light = new(other, Illuminant.D65);
            Assert.Throws<ArgumentException>(() => ColorIndices.YellownessE313(new Xyz(80, 80, 80), light));
            Assert.Throws<ArgumentException>(() => ColorIndices.WhitenessCie(new Xyz(80, 80, 80), light));
        }
    }

    private static double[] Flat() => [.. Enumerable.Repeat(1.0, Grid.Count)];

    private static void StartsWith(string message, WavelengthGrid grid, double[] x, double[] y, double[] z)
    {
        ArgumentException error = Assert.ThrowsAny<ArgumentException>(() => new Observer("mine", grid, x, y, z));
        Assert.StartsWith(message, error.Message, StringComparison.Ordinal);
    }
}
