namespace CeramicOptics.Tests.Unit;

public class WeightingTests
{
    private static readonly Colorimeter D65 = Colorimeter.D65TwoDegree;

    [Theory]
    [InlineData(380, 780, 1)]
    [InlineData(360, 830, 1)]
    [InlineData(380, 780, 0.5)]
    [InlineData(380, 780, 0.4)]
    [InlineData(380, 780, 5)]
    [InlineData(380, 780, 10)]
    [InlineData(380, 780, 20)]
    [InlineData(377, 782, 5)]
    [InlineData(379.5, 780.5, 1)]
    [InlineData(380, 780, 2)]
    [InlineData(377.5, 782.5, 2.5)]
    public void White_is_white_at_every_step(double start, double end, double step)
    {
        WavelengthGrid grid = WavelengthGrid.Range(start, end, step);
        WeightingTable table = D65.Weighting(grid);
        Assert.Equal(0, table.HeldFraction);
        Assert.Equal(D65.White.X, table.White.X, 1e-4);
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
            return new ReflectanceSpectrum(
                grid,
                [.. Enumerable.Range(0, grid.Count).Select(i => 0.2 + (0.5 / (1 + Math.Exp(-(grid[i] - 500) / 40))))]);
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
        double[] values = [.. Enumerable.Range(0, full.Count).Select(
            i => full[i] < 400 ? 0.3 : full[i] > 700 ? 0.6 : 0.3 + (0.001 * (full[i] - 400)))];
        Xyz whole = D65.ToXyz(new ReflectanceSpectrum(full, values));
        Xyz held = D65.ToXyz(new ReflectanceSpectrum(part, values.AsSpan(2, part.Count)));

        // Held ends are what the full data has there; only the interpolation next to the ends differs.
        Assert.Equal(whole.X, held.X, 0.01);
        Assert.Equal(whole.Y, held.Y, 0.01);
        Assert.Equal(whole.Z, held.Z, 0.01);
        Assert.InRange(D65.Weighting(part).HeldFraction, 0.001, 0.02);
    }

    /// <summary>
    /// Data from 400 to 700 nm at 1 nm lies on the nodes of the sum, so what rests on its held ends is the weight of
    /// the nodes beyond them.
    /// </summary>
    [Fact]
    public void Held_share_is_the_largest_of_the_weights_beyond_the_data()
    {
        foreach (Colorimeter colorimeter in (Colorimeter[])[D65, Colorimeter.ATwoDegree, Colorimeter.D65TenDegree])
        {
            WavelengthGrid full = WavelengthGrid.Range(360, 780, 1);
            WeightingTable whole = colorimeter.Weighting(full);
            WeightingTable part = colorimeter.Weighting(WavelengthGrid.Range(400, 700, 1));
            double beyond = LargestShare(whole, nm => nm is (>= 380 and < 400) or > 700);
            Assert.Equal(beyond, part.HeldFraction, 1e-12);

            // Coarser data is continued with its end values, at its own step; the share is the same.
            Assert.Equal(beyond, colorimeter.Weighting(WavelengthGrid.Range(400, 700, 10)).HeldFraction, 1e-12);
        }
    }

    /// <summary>
    /// The wavelengths below 380 nm are not counted as held; that is right only as long as they hardly matter.
    /// </summary>
    [Fact]
    public void Hardly_anything_lies_below_380_nm()
    {
        double Below(Observer observer, Illuminant light) =>
            LargestShare(new Colorimeter(observer, light).Weighting(WavelengthGrid.Range(360, 780, 1)), nm => nm < 380);
        Observer[] observers =
            [Observer.Cie1931TwoDegree, Observer.Cie1964TenDegree, Observer.Cie2015TwoDegree,
                Observer.Cie2015TenDegree];
        foreach (Observer observer in observers)
        {
            Assert.All(
                Illuminant.All.Append(Illuminant.Daylight(25000)),
                light => Assert.InRange(Below(observer, light), 0, 0.0005));
            Assert.InRange(Below(observer, Illuminant.Planckian(100000)), 0, 0.001);
        }
    }

    /// <summary>
    /// One line of 0.5 nm width between whole nanometres: all of the light is there, and is neither missed nor counted
    /// twice.
    /// </summary>
    [Fact]
    public void Lines_of_a_finely_measured_lamp_are_not_missed()
    {
        WavelengthGrid fine = WavelengthGrid.Range(360, 780, 0.5);
        double[] power = [.. Enumerable.Range(0, fine.Count).Select(i => i == fine.IndexOf(545.5) ? 1000 : 1.0)];
        Illuminant lamp = new("line", new PowerSpectrum(fine, power));
        Observer observer = Observer.Cie1931TwoDegree;
        double At(ReadOnlySpan<double> function, double nm) => function[observer.Grid.IndexOf(nm)];
        double line = 999 * (At(observer.Y, 545) + At(observer.Y, 546)) / 2;
        double ground = 2 * observer.Y.ToArray().Take(421).Sum();

        // A reflectance that is 1 in a window around the line and 0 elsewhere gives the line's share of Y, and the
        // ground below the window.
        WavelengthGrid grid = WavelengthGrid.Range(360, 780, 1);
        double[] values = [.. Enumerable.Range(0, grid.Count).Select(i => grid[i] is >= 540 and <= 551 ? 1.0 : 0)];
        ReflectanceSpectrum window = new(grid, values);
        double below = 2 * Enumerable.Range(540, 12).Sum(nm => At(observer.Y, nm));
        Assert.Equal(100 * (line + below) / (line + ground), new Colorimeter(observer, lamp).ToXyz(window).Y, 0.02);
    }

    [Fact]
    public void Equal_grids_share_one_table_and_few_are_kept()
    {
        Colorimeter colorimeter = new(Observer.Cie1964TenDegree, Illuminant.F11);
        WeightingTable table = colorimeter.Weighting(WavelengthGrid.Range(400, 700, 10));
        Assert.Same(table, colorimeter.Weighting(new WavelengthGrid(400, 10, 31)));
        Assert.NotSame(table, colorimeter.Weighting(new WavelengthGrid(400, 10, 32)));

        WeakReference[] dropped = Fill(colorimeter, 1000);
        GC.Collect();
        Assert.InRange(dropped.Count(reference => reference.IsAlive), 0, 32);
        Assert.Equal(table.X.ToArray(), colorimeter.Weighting(WavelengthGrid.Range(400, 700, 10)).X.ToArray());
        GC.KeepAlive(colorimeter);
    }

    [Fact]
    public void Threads_that_ask_at_once_get_one_table()
    {
        for (int round = 0; round < 20; round++)
        {
            Colorimeter colorimeter = new(Observer.Cie1931TwoDegree, Illuminant.A);
            WeightingTable[] tables = new WeightingTable[8];
            Parallel.For(0, tables.Length, i => tables[i] = colorimeter.Weighting(WavelengthGrid.Range(380, 780, 10)));
            Assert.All(tables, table => Assert.Same(tables[0], table));
        }
    }

    [Fact]
    public void Data_that_misses_the_middle_of_the_spectrum_is_refused()
    {
        ArgumentException error = Assert.Throws<ArgumentException>(
            () => D65.Weighting(WavelengthGrid.Range(420, 700, 10)));
        Assert.StartsWith(
            "Colour needs data at least from 400 to 700 nm; the data is given at 420 to 700 nm in steps of 10 nm "
                + "(29 values).", error.Message, StringComparison.Ordinal);
    }

    [System.Runtime.CompilerServices.MethodImpl(System.Runtime.CompilerServices.MethodImplOptions.NoInlining)]
    private static WeakReference[] Fill(Colorimeter colorimeter, int grids) =>
        [.. Enumerable.Range(0, grids)
            .Select(i => new WeakReference(colorimeter.Weighting(new WavelengthGrid(400 - (0.01 * i), 10, 35))))];

    private static double LargestShare(WeightingTable table, Func<double, bool> counts)
    {
        double Share(ReadOnlySpan<double> weights)
        {
            double counted = 0, all = 0;
            for (int i = 0; i < weights.Length; i++)
            {
                all += weights[i];
                counted += counts(table.Grid[i]) ? weights[i] : 0;
            }

            return counted / all;
        }

        return Math.Max(Share(table.X), Math.Max(Share(table.Y), Share(table.Z)));
    }
}
