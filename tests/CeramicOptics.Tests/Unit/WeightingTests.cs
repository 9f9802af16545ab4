namespace CeramicOptics.Tests.Unit;

public class WeightingTests
{
    private static readonly Colorimeter D65 = Colorimeter.D65TwoDegree;

    [Theory]
    [InlineData(380, 780, 5, WeightingMethod.DirectSum)]
    [InlineData(360, 830, 5, WeightingMethod.DirectSum)]
    [InlineData(380, 780, 1, WeightingMethod.FineDirectSum)]
    [InlineData(380, 780, 10, WeightingMethod.InterpolatedSum)]
    [InlineData(380, 780, 20, WeightingMethod.InterpolatedSum)]
    [InlineData(377, 782, 5, WeightingMethod.InterpolatedSum)]
    [InlineData(379.5, 780.5, 1, WeightingMethod.InterpolatedSum)]
    [InlineData(380, 780, 2, WeightingMethod.InterpolatedSum)]
    [InlineData(377.5, 782.5, 2.5, WeightingMethod.FineDirectSum)]
    public void Method_is_reported_and_white_is_white(double start, double end, double step, WeightingMethod method)
    {
        WavelengthGrid grid = WavelengthGrid.Range(start, end, step);
        WeightingTable table = D65.Weighting(grid);
        Assert.Equal(method, table.Method);
        Assert.Equal(0, table.HeldFraction);
        Xyz white = D65.ToXyz(ReflectanceSpectrum.Uniform(grid, 1));
        Assert.Equal(table.White.X, white.X, 1e-9);
        Assert.Equal(100, white.Y, 1e-9);
        Assert.Equal(table.White.Z, white.Z, 1e-9);
    }

    [Fact]
    public void Coarser_data_of_a_smooth_spectrum_gives_nearly_the_same_colour()
    {
        ReflectanceSpectrum Tooth(double step)
        {
            WavelengthGrid grid = WavelengthGrid.Range(380, 780, step);
            return new ReflectanceSpectrum(grid, [.. Enumerable.Range(0, grid.Count).Select(i => 0.2 + (0.5 / (1 + Math.Exp(-(grid[i] - 500) / 40))))]);
        }

        Lab fine = D65.ToLab(Tooth(1));
        Assert.Equal(0, ColorDifference.Cie76(fine, D65.ToLab(Tooth(5))), 0.02);
        Assert.Equal(0, ColorDifference.Cie76(fine, D65.ToLab(Tooth(10))), 0.02);
        Assert.Equal(0, ColorDifference.Cie76(fine, D65.ToLab(Tooth(20))), 0.05);
    }

    [Fact]
    public void Short_data_holds_its_ends_and_says_how_much_rests_on_that()
    {
        WavelengthGrid full = WavelengthGrid.Range(380, 780, 10), part = WavelengthGrid.Range(400, 700, 10);
        double[] values = [.. Enumerable.Range(0, full.Count).Select(i => full[i] < 400 ? 0.3 : full[i] > 700 ? 0.6 : 0.3 + (0.001 * (full[i] - 400)))];
        Xyz whole = D65.ToXyz(new ReflectanceSpectrum(full, values));
        Xyz held = D65.ToXyz(new ReflectanceSpectrum(part, values.AsSpan(2, part.Count)));

        // Held ends are what the full data has there; only the interpolation next to the ends differs.
        Assert.Equal(whole.X, held.X, 0.01);
        Assert.Equal(whole.Y, held.Y, 0.01);
        Assert.Equal(whole.Z, held.Z, 0.01);
        Assert.InRange(D65.Weighting(part).HeldFraction, 0.001, 0.02);
    }

    /// <summary>Data from 400 to 700 nm at 5 nm lies on the nodes of the sum, so what rests on its held ends is the weight of the nodes beyond them.</summary>
    [Fact]
    public void Held_share_is_the_largest_of_the_weights_beyond_the_data()
    {
        foreach (Colorimeter colorimeter in (Colorimeter[])[D65, Colorimeter.ATwoDegree, Colorimeter.D65TenDegree])
        {
            WavelengthGrid full = WavelengthGrid.Range(380, 780, 5);
            WeightingTable whole = colorimeter.Weighting(full), part = colorimeter.Weighting(WavelengthGrid.Range(400, 700, 5));
            Assert.Equal(WeightingMethod.DirectSum, part.Method);
            double Beyond(ReadOnlySpan<double> weights)
            {
                double beyond = 0, all = 0;
                for (int i = 0; i < full.Count; i++)
                {
                    all += weights[i];
                    beyond += full[i] is < 400 or > 700 ? weights[i] : 0;
                }

                return beyond / all;
            }

            Assert.Equal(Math.Max(Beyond(whole.X), Math.Max(Beyond(whole.Y), Beyond(whole.Z))), part.HeldFraction, 1e-12);
        }
    }

    [Fact]
    public void Data_that_misses_the_middle_of_the_spectrum_is_refused()
    {
        ArgumentException error = Assert.Throws<ArgumentException>(() => D65.Weighting(WavelengthGrid.Range(420, 700, 10)));
        Assert.StartsWith("Colour needs data at least from 400 to 700 nm; the data is given at 420 to 700 nm in steps of 10 nm (29 values).", error.Message, StringComparison.Ordinal);
    }
}
