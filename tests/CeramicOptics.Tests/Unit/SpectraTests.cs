namespace CeramicOptics.Tests.Unit;

public class SpectraTests
{
    [Fact]
    public void Spectra_copy_their_input()
    {
        WavelengthGrid grid = new(400, 10, 3);
        double[] values = [0.1, 0.2, 0.3];
        ReflectanceSpectrum spectrum = new(grid, values);
        values[0] = 0.9;
        Assert.Equal(0.1, spectrum[0]);
    }

    [Fact]
    public void Sprague_reproduces_a_polynomial_of_fourth_degree()
    {
        // CIE 167:2005: the formula is exact for polynomials up to the fourth degree where it uses data alone; in the
        // two intervals next to each end it uses points found by the standard's own coefficients, which let the
        // curvature fade at the ends.
        static double Polynomial(double nm)
        {
            double x = (nm - 550) / 150;
            return 0.5 + (0.1 * x) - (0.2 * x * x) + (0.05 * x * x * x) + (0.04 * x * x * x * x);
        }

        WavelengthGrid coarse = WavelengthGrid.Range(400, 700, 10), fine = WavelengthGrid.Range(400, 700, 1);
        ReflectanceSpectrum data = new(
            coarse, [.. Enumerable.Range(0, coarse.Count).Select(i => Polynomial(coarse[i]))]);
        ReflectanceSpectrum resampled = data.Resample(fine);
        for (int i = 0; i < fine.Count; i++)
        {
            Assert.Equal(Polynomial(fine[i]), resampled[i], i is >= 20 and <= 280 ? 1e-13 : 1e-4);
        }
    }

    [Fact]
    public void Monotone_interpolation_keeps_steps_between_their_values()
    {
        double[] nm = [400, 410, 425, 430, 600, 700], values = [0.1, 0.1, 0.9, 0.9, 0.2, 0.2];
        ReflectanceSpectrum spectrum = ReflectanceSpectrum.FromSamples(nm, values, WavelengthGrid.Range(400, 700, 1));
        foreach (double value in spectrum.Values)
        {
            Assert.InRange(value, 0.1 - 1e-15, 0.9 + 1e-15);
        }

        Assert.Equal(0.9, spectrum[25], 1e-12);
        double[] rise = spectrum.Values[10..26].ToArray();
        Assert.Equal(rise.Order(), rise);
    }

    [Fact]
    public void Monotone_interpolation_is_exact_for_a_line()
    {
        double[] nm = [400, 413, 500, 555, 700], values = [.. nm.Select(x => x / 1000)];
        ReflectanceSpectrum spectrum = ReflectanceSpectrum.FromSamples(nm, values, WavelengthGrid.Range(400, 700, 5));
        for (int i = 0; i < spectrum.Grid.Count; i++)
        {
            Assert.Equal(spectrum.Grid[i] / 1000, spectrum[i], 1e-12);
        }
    }

    [Fact]
    public void Nothing_is_extrapolated()
    {
        ReflectanceSpectrum spectrum = ReflectanceSpectrum.Uniform(WavelengthGrid.Range(400, 700, 10), 0.5);
        ArgumentException error = Assert.Throws<ArgumentException>(
            () => spectrum.Resample(WavelengthGrid.Range(380, 700, 10)));
        Assert.StartsWith(
            "The data reaches from 400 to 700 nm; 380 to 700 nm in steps of 10 nm (33 values) would need "
                + "extrapolation.", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Quantities_do_not_compare_equal_across_types()
    {
        WavelengthGrid grid = new(400, 10, 3);
        Assert.False(AbsorptionSpectrum.Uniform(grid, 0.5).Equals(ScatteringSpectrum.Uniform(grid, 0.5)));
        Assert.True(
            AbsorptionSpectrum.Uniform(grid, 0.5) == AbsorptionSpectrum.Uniform(new WavelengthGrid(400, 10, 3), 0.5));
    }
}
