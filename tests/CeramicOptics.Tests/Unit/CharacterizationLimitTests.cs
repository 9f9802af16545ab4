using CeramicOptics.Characterization;
using CeramicOptics.Characterization.Photographs;
using CeramicOptics.Layers.TwoFlux;
using static CeramicOptics.Tests.Unit.CharacterizationByDefinitionTests;

namespace CeramicOptics.Tests.Unit;

/// <summary>Where a characterization begins to say something, and where it begins to refuse.</summary>
public class CharacterizationLimitTests
{
    private const MeasurementGeometry Di8 = MeasurementGeometry.DiffuseSpecularIncluded;

    /// <summary>A fit is called poor where readings scatter by more than twice their uncertainty.</summary>
    [Theory]
    [InlineData(3.9, false)]
    [InlineData(4.1, true)]
    public void A_fit_is_poor_beyond_four_times_its_degrees_of_freedom(double times, bool isPoor)
    {
        FitStatistics plain = Scattered(0.002).Fit!;
        Assert.Equal(3, plain.DegreesOfFreedom);
        double stated = 0.002 * Math.Sqrt(plain.ChiSquare[0] / (times * plain.DegreesOfFreedom));
        Assert.Equal(
            isPoor ? Grid.Count : 0,
            Scattered(stated).Findings.Count(finding => finding.Kind == FindingKind.PoorFit));
    }

    [Theory]
    [InlineData(4, false)]
    [InlineData(4.01, true)]
    public void A_disc_is_thick_beyond_four_millimetres(double mm, bool isThick)
    {
        Material clear = Of(0.01, 0.2);
        CharacterizationResult result = DiscCharacterization.Find(
            new DiscSet("disc", 1.53, [Read(clear, mm, Black), Read(clear, mm, White)]), TwoFlux);
        Assert.Equal(isThick, result.Findings.Any(finding => finding.Kind == FindingKind.ThickDisc));
    }

    [Theory]
    [InlineData(0.1, false)]
    [InlineData(0.08, true)]
    public void A_disc_is_thin_below_a_tenth_of_a_millimetre(double mm, bool isThin)
    {
        Material dense = Of(0.5, 20);
        Finding[] thin = [.. DiscCharacterization.Find(
            new DiscSet("disc", 1.53, [Read(dense, mm, Black), Read(dense, mm, White)]), TwoFlux)
            .Findings.Where(finding => finding.Kind == FindingKind.ThinDisc)];
        Assert.Equal(isThin ? [mm] : [], thin.SelectMany(finding => finding.Values));
        Assert.All(thin, finding => Assert.True(finding.IsDetermined));
    }

    [Theory]
    [InlineData(-1e-9)]
    [InlineData(1 + 1e-9)]
    [InlineData(double.NaN)]
    public void A_value_beyond_full_scale_has_no_light(double value)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => TransferCurve.Srgb.ToLinear(value));
        Assert.Throws<ArgumentOutOfRangeException>(() => TransferCurve.Power(2.2).ToLinear(value));
    }

    /// <summary>One colour that is missed by more than 4 is enough to be no plain ceramic.</summary>
    [Theory]
    [InlineData(0.02, false)]
    [InlineData(0.05, true)]
    public void A_ceramic_with_a_band_is_not_plain(double band, bool isRefused)
    {
        WavelengthGrid fine = WavelengthGrid.Range(400, 700, 10);
        Backing On(string name, double reflectance) => new(
            Substrate.FromInternalReflectance(name, ReflectanceSpectrum.Uniform(fine, reflectance), 1.5),
            CouplingMedium.Glycerine);
        Material truth = new(
            "banded", TwoFluxModel.Instance,
            new AbsorptionSpectrum(fine, [.. Enumerable.Range(0, fine.Count).Select(
                i => 0.03 + (band * Math.Exp(-Math.Pow((fine[i] - 530) / 40, 2))))]),
            new ScatteringSpectrum(fine, [.. Enumerable.Range(0, fine.Count).Select(
                i => 4 * Math.Pow(fine[i] / 550, -0.8))]), 1.53);
        (Backing black, Backing white) = (On("black", 0.01), On("white", 0.93));
        Lab Over(Backing backing) => Colorimeter.D65TwoDegree.ToLab(
            new LayerStack([new Layer(truth, 0.8)], backing.Substrate, backing.Coupling).Reflectance(Di8));
        Exception? met = Record.Exception(() => ColorCharacterization.Find(
            new DiscColors("x", 1.53, 0.8, Over(black), Over(white), Colorimeter.D65TwoDegree, black, white, Di8,
                ReadingArea.Large), fine, TwoFluxModel.Instance));
        Assert.Equal(isRefused, met is not null);
        Assert.True(!isRefused || met!.Message.StartsWith("No plain ceramic", StringComparison.Ordinal));
    }

    /// <summary>
    /// A film is supported where the other one fits four times worse, and worse than four times what noise explains,
    /// of nine readings at least.
    /// </summary>
    [Theory]
    [InlineData(12, 1, 49, CouplingVerdict.Supported)]
    [InlineData(12, 1, 47, CouplingVerdict.Open)]
    [InlineData(12, 29, 120, CouplingVerdict.Supported)]
    [InlineData(12, 31, 120, CouplingVerdict.Open)]
    [InlineData(12, 120, 29, CouplingVerdict.Doubtful)]
    [InlineData(2, 1, 37, CouplingVerdict.Supported)]
    [InlineData(2, 1, 35, CouplingVerdict.Open)]
    public void A_film_is_supported_or_doubted_at_four_times(
        int freedom, double chi, double otherChi, CouplingVerdict verdict) =>
        Assert.Equal(verdict, new CouplingCheck("air", "glycerine", chi, otherChi, freedom, null, (0.1, 3)).Verdict);

    /// <summary>
    /// Light that passes and light that returns are at most all light, to four times the sum of their uncertainties.
    /// </summary>
    [Theory]
    [InlineData(0.02, 0.01, 0.119, true)]
    [InlineData(0.02, 0.01, 0.121, false)]
    [InlineData(0.01, 0.02, 0.119, true)]
    [InlineData(0.01, 0.02, 0.121, false)]
    public void More_than_all_light_is_refused_beyond_the_noise(double u1, double u2, double more, bool isTaken)
    {
        Exception? met = Record.Exception(() => new DiscSet("disc", 1.53, [
            DiscReading.Transmittance(
                "through", 0.5, new TransmittanceSpectrum(Grid, [.. Enumerable.Repeat(0.5 + more, Grid.Count)]),
                ReadingArea.Large, u1),
            DiscReading.Reflectance(
                "over black", 0.5, ReflectanceSpectrum.Uniform(Grid, 0.5), new Backing(Substrate.Black, null), Di8,
                ReadingArea.Large, u2)]));
        Assert.Equal(isTaken, met is null);
        Assert.True(isTaken || met!.Message.Contains("together more than all light", StringComparison.Ordinal));
    }

    [Fact]
    public void An_outlier_is_said_to_lie_on_its_side_of_the_fit()
    {
        Assert.Equal(
            "disc at 500 nm: 5.0 standard uncertainties above the fit", new ReadingOutlier("disc", 500, 5).ToString());
        Assert.Equal(
            "disc at 500 nm: 6.0 standard uncertainties below the fit", new ReadingOutlier("disc", 500, -6).ToString());
    }

    [Fact]
    public void A_reading_says_its_largest_loss()
    {
        ReflectanceSpectrum any = ReflectanceSpectrum.Uniform(Grid, 0.4);
        Assert.EndsWith(
            "loses up to 31 %",
            new LargeAreaReading("disc", ReadingArea.Circular(2, 2), any, any, [0, 0, 0, 0], [0.1, 0.31, 0.2, 0.05])
                .ToString(), StringComparison.Ordinal);
    }

    /// <summary>A variance that rounding made negative counts as none; a correlation is within -1 and 1.</summary>
    [Fact]
    public void A_covariance_becomes_uncertainties_and_their_correlation()
    {
        CharacterizationResult.Solution one =
            CharacterizationResult.Solution.FromCovariance(0.1, 3, 0.0004, 0.09, 0.003);
        Assert.Equal(
            (0.02, 0.3, 0.5),
            (one.AbsorptionUncertainty, one.ScatteringUncertainty, Math.Round(one.Correlation, 12)));
        CharacterizationResult.Solution none =
            CharacterizationResult.Solution.FromCovariance(0.1, 3, -1e-20, 0.09, 0.003);
        Assert.Equal((0, 0.3, 0), (none.AbsorptionUncertainty, none.ScatteringUncertainty, none.Correlation));
        Assert.Equal(1, CharacterizationResult.Solution.FromCovariance(0.1, 3, 0.0004, 0.09, 0.0061).Correlation);
        Assert.Equal(-1, CharacterizationResult.Solution.FromCovariance(0.1, 3, 0.0004, 0.09, -0.0061).Correlation);
    }

    /// <summary>One reading without a stated area is enough for what a small window would mean to be said.</summary>
    [Theory]
    [InlineData(false, false)]
    [InlineData(true, true)]
    public void One_area_that_is_not_stated_is_said(bool isLeftOut, bool isSaid)
    {
        Material truth = Of(0.1, 3);
        DiscReading first = Read(truth, 0.8, Black), second = Read(truth, 0.8, White);
        CharacterizationResult result = DiscCharacterization.Find(
            new DiscSet("disc", 1.53, [
                isLeftOut
                    ? DiscReading.Reflectance(
                        first.Name, 0.8, (ReflectanceSpectrum)first.Values, Black, Di8, ReadingArea.NotStated)
                    : first,
                second]),
            TwoFlux);
        Assert.Equal(isSaid, result.Findings.Any(finding => finding.Kind == FindingKind.AreaNotStated));
    }
}
