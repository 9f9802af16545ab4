using System.Globalization;
using CeramicOptics.Characterization;
using CeramicOptics.Layers.Lateral;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;

namespace CeramicOptics.Tests.Unit;

/// <summary>Numbers of a characterization compared with what defines them, by closed forms or by brute force.</summary>
public class CharacterizationByDefinitionTests
{
    private const MeasurementGeometry Di8 = MeasurementGeometry.DiffuseSpecularIncluded;

    internal static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 100);
    internal static readonly CharacterizationOptions TwoFlux = new() { Model = TwoFluxModel.Instance };
    internal static readonly Backing Black = Tile("black", 0.01), White = Tile("white", 0.93);

    public static TheoryData<double, double, double> Bodies => new()
    {
        { 0.02, 0.5, 3.0 }, { 0.01, 1.0, 2.0 }, { 0.1, 3.0, 0.8 }, { 0.6, 12.0, 0.3 }, { 0.3, 30.0, 0.15 },
        { 0.01, 0.3, 0.5 },
    };

    /// <summary>
    /// The disc that is advised is the one, of those that a laboratory makes, whose readings over the same backings
    /// leave the smallest ellipse of K and S. Its area goes as 1/√det of the normal matrix, here with slopes by
    /// differences of the stack.
    /// </summary>
    [Theory]
    [MemberData(nameof(Bodies))]
    public void The_advised_disc_leaves_the_smallest_ellipse(double k, double s, double mm)
    {
        Material truth = Of(k, s);
        CharacterizationResult result = DiscCharacterization.Find(
            new DiscSet("disc", 1.53, [Read(truth, mm, Black), Read(truth, mm, White), Read(truth, mm / 2, White)]),
            TwoFlux);
        double[] own = Normal(truth, mm, Black, White).Zip(Normal(truth, mm / 2, White), (a, b) => a + b).ToArray();
        double best = 1, bestMm = 0;
        foreach (double tried in (double[])[0.1, 0.15, 0.2, 0.3, 0.4, 0.5, 0.6, 0.8, 1, 1.25, 1.5, 2, 2.5, 3])
        {
            double[] all = [.. Normal(truth, tried, Black, White).Zip(own, (a, b) => a + b)];
            double ratio = Math.Sqrt(Determinant(own) / Determinant(all));
            (best, bestMm) = ratio < best ? (ratio, tried) : (best, bestMm);
        }

        Assert.Equal(bestMm, result.Fit!.Advice.ThicknessMm);
        Assert.Equal(1, result.Fit.Advice.UncertaintyRatio / best, 1e-4);
    }

    /// <summary>
    /// Where readings scatter more than stated, uncertainties are those of the scatter, whatever was stated; where they
    /// scatter less, those stated. The correlation is a matter of the discs alone.
    /// </summary>
    [Fact]
    public void A_larger_scatter_than_stated_enlarges_both_uncertainties_alike()
    {
        CharacterizationResult tight = Scattered(0.0005), tighter = Scattered(0.001), loose = Scattered(0.05);
        for (int i = 0; i < Grid.Count; i++)
        {
            CharacterizationResult.Solution one = tight.SolutionAt(i)!, two = tighter.SolutionAt(i)!,
                wide = loose.SolutionAt(i)!;
            double chi = loose.Fit!.ChiSquare[i] / loose.Fit.DegreesOfFreedom;
            Assert.InRange(chi, 1e-6, 1);
            Assert.Equal(1, one.AbsorptionUncertainty / two.AbsorptionUncertainty, 1e-4);
            Assert.Equal(1, one.ScatteringUncertainty / two.ScatteringUncertainty, 1e-4);
            Assert.Equal(Math.Sqrt(chi), one.ScatteringUncertainty / wide.ScatteringUncertainty, 1e-4);
            Assert.Equal(wide.Correlation, one.Correlation, 1e-4);
            Assert.NotEqual(0, wide.Correlation, 0.05);
        }
    }

    /// <summary>S is open from 0.05 per mm on, or from its own size; K from its own size or half of S.</summary>
    [Theory]
    [InlineData(1, 0.01, 0.1, 0.049, false)]
    [InlineData(1, 0.01, 0.1, 0.051, true)]
    [InlineData(1, 3, 0.1, 2.9, false)]
    [InlineData(1, 3, 0.1, 3.1, true)]
    [InlineData(0.01, 3, 1.49, 0.1, false)]
    [InlineData(0.01, 3, 1.51, 0.1, true)]
    [InlineData(2, 3, 1.9, 0.1, false)]
    [InlineData(0.001, 0.001, 0.0249, 0.01, false)]
    [InlineData(0.001, 0.001, 0.0251, 0.01, true)]
    public void What_is_not_known_to_its_own_size_is_open(double k, double s, double uK, double uS, bool isOpen) =>
        Assert.Equal(isOpen, CoefficientFit.IsOpen(k, s, uK, uS));

    /// <summary>
    /// A disc that light does not pass leaves K open, also where S, which the surface tells, is known; a K far below S
    /// is not needed to better than half of S. Limits by the Kubelka-Munk formula and noise of 1e-4.
    /// </summary>
    [Theory]
    [InlineData(1, 0.01, false)]
    [InlineData(7, 0.01, true)]
    [InlineData(7, 0.3, true)]
    [InlineData(5e-6, 3, false)]
    public void Recalibration_needs_a_disc_that_tells_both(double k, double s, bool isOpen)
    {
        Exception? met = Record.Exception(() => Recalibration.Find(
            Of(k, s), TransportModel.Default, new RecalibrationOptions { DiscThicknessMm = 0.8 }));
        Assert.Equal(isOpen, met is not null);
        Assert.True(!isOpen || met!.Message.Contains("do not tell K from S", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(400, 700, true)]
    [InlineData(410, 700, false)]
    [InlineData(400, 690, false)]
    public void A_colour_difference_needs_the_whole_range(double from, double to, bool hasColor)
    {
        WavelengthGrid grid = WavelengthGrid.Range(from, to, 10);
        Material part = new(
            "part", TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(grid, 0.1), ScatteringSpectrum.Uniform(grid, 3),
            1.53, discThicknessesMm: [0.7]);
        Assert.Equal(
            hasColor, Recalibration.Find(part, new TransportModel(6)).LargestColorDifference is not null);
    }

    /// <summary>Kubelka 1948 without absorption: R = (g + St (1 - g)) / (1 + St (1 - g)).</summary>
    [Theory]
    [InlineData(2, 0.8)]
    [InlineData(0.5, 1.5)]
    [InlineData(8, 0.4)]
    [InlineData(3, 1)]
    public void Readings_without_absorption_give_none(double s, double mm)
    {
        double Over(double g) => (g + (s * mm * (1 - g))) / (1 + (s * mm * (1 - g)));
        int found = 0;
        foreach (double light in (double[])[0.6, 0.7, 0.75, 0.8, 0.85, 0.9, 0.95])
        {
            (double k, double scattering) = TwoFluxInversion.ClosedForm(Over(0), Over(light), 0, light, mm);
            if (double.IsNaN(k))
            {
                // Rounding can make it negative, which is refused.
                continue;
            }

            Assert.InRange(k, 0, 1e-9);
            Assert.Equal(1, scattering / s, 1e-7);
            found++;
        }

        Assert.InRange(found, 1, 7);
    }

    /// <summary>Slopes of readings through windows, by differences of the readings.</summary>
    [Theory]
    [InlineData(0.05, 2)]
    [InlineData(0.3, 6)]
    [InlineData(0.01, 1)]
    public void Slopes_through_a_window_are_those_of_what_it_reads(double k, double s)
    {
        DiscSet set = new("disc", 1.53, ((ReadingArea[])[ReadingArea.Circular(2, 2), ReadingArea.Large]).Select(area =>
            DiscReading.Reflectance("over black", 0.8, ReflectanceSpectrum.Uniform(Grid, 0.4), Black, Di8, area)));
        TwoFluxDiscModel wide = new(set);
        WindowDiscModel window = new(set, wide, wide, new AreaWeights());
        for (int r = 0; r < 2; r++)
        {
            double At(double nextK, double nextS) => window.Value(r, 1, nextK, nextS);
            (double value, double byK, double byS) = window.Evaluate(r, 1, k, s);
            Assert.Equal(At(k, s), value, 1e-12);
            Assert.Equal(1, byK / ((At(k * 1.001, s) - At(k * 0.999, s)) / (0.002 * k)), 2e-3);
            Assert.Equal(1, byS / ((At(k, s * 1.001) - At(k, s * 0.999)) / (0.002 * s)), 2e-3);
        }

        Assert.InRange(window.Value(0, 1, k, s) / window.Value(1, 1, k, s), 0.3, 0.99);
    }

    /// <summary>Of wavelengths with a fit, the longest run; a gap near one end leaves the other side.</summary>
    [Theory]
    [InlineData(5, 0, 5)]
    [InlineData(1, 2, 5)]
    [InlineData(3, 0, 3)]
    public void Large_readings_cover_the_longest_run_of_wavelengths(int gap, int from, int count)
    {
        WavelengthGrid seven = new(400, 50, 7);
        Backing black = new(
            Substrate.FromInternalReflectance("black", ReflectanceSpectrum.Uniform(seven, 0.01), 1.5),
            CouplingMedium.Glycerine);
        DiscSet set = new("disc", 1.53, Enumerable.Range(0, 2).Select(r => DiscReading.Reflectance(
            $"{r}", 0.3 + (1.7 * r), ReflectanceSpectrum.Uniform(seven, 0.25 + (0.2 * r)), black, Di8,
            ReadingArea.Circular(3, 3))));
        TwoFluxDiscModel twoFlux = new(set);
        WindowFit windows = new(set, TwoFluxModel.Instance, 0.5, twoFlux, default);
        WavelengthFit?[] fits = [.. Enumerable.Range(0, 7).Select(i => i == gap
            ? null
            : WavelengthFit.Solve(set, windows.Forward, i, (0.1, 3)))];
        foreach (LargeAreaReading reading in WindowReport.ReadingsOf(set, windows, fits))
        {
            Assert.Equal(new WavelengthGrid(seven[from], 50, count), reading.Values.Grid);

            // Their uncertainty is that of K and S, through the slopes of what a large area reads.
            int r = int.Parse(reading.Name, CultureInfo.InvariantCulture);
            WavelengthFit fit = fits[from]!;
            double At(double k, double s) => twoFlux.Value(r, from, k, s);
            double byK = (At(fit.K + 1e-5, fit.S) - At(fit.K - 1e-5, fit.S)) / 2e-5;
            double byS = (At(fit.K, fit.S + 1e-4) - At(fit.K, fit.S - 1e-4)) / 2e-4;
            double variance = (byK * byK * fit.VarianceK) + (byS * byS * fit.VarianceS)
                + (2 * byK * byS * fit.Covariance);
            Assert.Equal(1, reading.StandardUncertainty[0] / Math.Sqrt(variance), 1e-3);
        }
    }

    // JJ', of K and S, at one wavelength; all are alike.
    private static double[] Normal(Material truth, double mm, params Backing[] backings)
    {
        double k = truth.Absorption[0], s = truth.Scattering[0], kk = 0, ss = 0, ks = 0;
        foreach (Backing backing in backings)
        {
            double At(double nextK, double nextS) => Reflectance(Of(nextK, nextS), mm, backing)[0];
            double byK = (At(k * 1.0001, s) - At(k * 0.9999, s)) / (2e-4 * k);
            double byS = (At(k, s * 1.0001) - At(k, s * 0.9999)) / (2e-4 * s);
            (kk, ss, ks) = (kk + (byK * byK), ss + (byS * byS), ks + (byK * byS));
        }

        return [kk, ss, ks];
    }

    private static double Determinant(double[] normal) => (normal[0] * normal[1]) - (normal[2] * normal[2]);

    internal static DiscReading Read(
        Material truth, double mm, Backing backing, double off = 0, double standardUncertainty = 0.002) =>
        DiscReading.Reflectance(
            $"{mm} mm over {backing.Substrate.Name}", mm,
            new ReflectanceSpectrum(Grid, [.. Reflectance(truth, mm, backing).Select(value => value + off)]), backing,
            Di8, ReadingArea.Large, standardUncertainty);

    private static double[] Reflectance(Material truth, double mm, Backing backing) =>
        new LayerStack([new Layer(truth, mm)], backing.Substrate, backing.Coupling).Reflectance(Di8).Values.ToArray();

    /// <summary>Five readings that scatter by some thousandths, with a stated uncertainty.</summary>
    internal static CharacterizationResult Scattered(double stated)
    {
        Material truth = Of(0.1, 3);
        return DiscCharacterization.Find(
            new DiscSet("disc", 1.53, [
                Read(truth, 0.5, Black, 0.006, stated), Read(truth, 0.5, White, -0.005, stated),
                Read(truth, 1, Black, 0.004, stated), Read(truth, 1, White, -0.006, stated),
                Read(truth, 2, White, 0.003, stated)]),
            TwoFlux);
    }

    internal static Material Of(double k, double s) => new(
        "body", TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(Grid, k), ScatteringSpectrum.Uniform(Grid, s), 1.53);

    internal static Backing Tile(string name, double reflectance) => new(
        Substrate.FromInternalReflectance(name, ReflectanceSpectrum.Uniform(Grid, reflectance), 1.5),
        CouplingMedium.Glycerine);
}
