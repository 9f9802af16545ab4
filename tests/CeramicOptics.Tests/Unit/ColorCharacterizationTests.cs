using CeramicOptics.Characterization;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;
using MathNet.Numerics.LinearAlgebra;

namespace CeramicOptics.Tests.Unit;

public class ColorCharacterizationTests
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 10);
    private static readonly Backing Black = new(
        Substrate.FromInternalReflectance("black", ReflectanceSpectrum.Uniform(Grid, 0.01), 1.5),
        CouplingMedium.Glycerine);
    private static readonly Backing White = new(
        Substrate.FromInternalReflectance("white", ReflectanceSpectrum.Uniform(Grid, 0.93), 1.5),
        CouplingMedium.Glycerine);

    public static TheoryData<IOpticalModel, int> Models =>
        new() { { TwoFluxModel.Instance, 60 }, { TransportModel.Default, 12 } };

    /// <summary>
    /// Ceramics of other shapes than the estimate assumes (wider and narrower edges, an absorption band, any slope of
    /// S), colours with noise: the true K and S lie within two stated uncertainties at nine of ten wavelengths or more,
    /// and the colour at another thickness is met.
    /// </summary>
    [Theory]
    [MemberData(nameof(Models))]
    public void The_stated_band_holds_the_truth(IOpticalModel model, int trials)
    {
        Random random = new(8);
        int within = 0, all = 0;
        List<double> differences = [];
        for (int trial = 0; trial < trials; trial++)
        {
            double s550 = 1 + (6 * random.NextDouble()), power = 2 * random.NextDouble(), edge = 35 + (
                60 * random.NextDouble()), blue = 0.1 + (0.8 * random.NextDouble());
            double band = 0.08 * random.NextDouble(), bandNm = 480 + (100 * random.NextDouble()), floor = 0.01 + (
                0.08 * random.NextDouble());
            double[] k = [.. Enumerable.Range(0, Grid.Count).Select(
                i =>
                    floor + (blue * Math.Exp(-(Grid[i] - 400) / edge)) + (
                        band * Math.Exp(-Math.Pow((Grid[i] - bandNm) / 30, 2))))];
            double[] s = [.. Enumerable.Range(0, Grid.Count).Select(i => s550 * Math.Pow(Grid[i] / 550, -power))];
            Material truth = new(
                "truth", model, new AbsorptionSpectrum(Grid, k), new ScatteringSpectrum(Grid, s), 1.53);
            Lab overBlack = Color(truth, 0.8, Black, random), overWhite = Color(truth, 0.8, White, random);
            if (overWhite.A > 5)
            {
                // A pink body, by its band, is not a plain ceramic, and may be refused.
                continue;
            }

            Material found = Find(overBlack, overWhite, model).ToMaterial();
            for (int i = 0; i < Grid.Count; i++)
            {
                within += Math.Abs(found.Absorption[i] - truth.Absorption[i])
                    <= 2 * found.Uncertainty!.AbsorptionPerMm[i]
                    ? 1
                    : 0;
                within += Math.Abs(found.Scattering[i] - truth.Scattering[i])
                    <= 2 * found.Uncertainty.ScatteringPerMm[i]
                    ? 1
                    : 0;
                all += 2;
            }

            differences.Add(ColorDifference.Ciede2000(Color(truth, 1.2, Black, null), Color(found, 1.2, Black, null)));
        }

        Assert.InRange((double)within / all, 0.90, 1);
        Assert.InRange(differences.Average(), 0, ColorCriterion.PerceptibilityThreshold.Limit);
        Assert.InRange(differences.Max(), 0, 2 * ColorCriterion.AcceptabilityThreshold.Limit);
    }

    [Fact]
    public void Colours_that_contradict_each_other_are_refused()
    {
        Assert.Equal(
            "'x' has L* 60 over white and 70 over black; white must be lighter.",
            Assert.Throws<ArgumentException>(() => Find(new Lab(70, 0, 10), new Lab(60, 0, 10))).Message);
        Assert.StartsWith(
            "No plain ceramic has the colours given for 'x'; the nearest misses one of L*, a*, b* by",
            Assert.Throws<ArgumentException>(() => Find(new Lab(60, 20, -20), new Lab(70, -20, 20))).Message,
                StringComparison.Ordinal);
    }

    /// <summary>
    /// Colours of a material that is plain give it back at every wavelength: K = k (λ/550)^q + e exp(-(λ - 400)/60) and
    /// S = s (λ/550)^-p, with numbers away from those that the estimate takes for typical.
    /// </summary>
    [Theory]
    [InlineData(0.02, 0.8, 6, 0.4)]
    [InlineData(0.15, 0.2, 1.5, 1.6)]
    public void A_plain_material_comes_back(double floor, double blue, double s550, double power)
    {
        double[] k = [.. Enumerable.Range(0, Grid.Count).Select(
            i => floor + (blue * Math.Exp(-(Grid[i] - 400) / 60)))];
        double[] s = [.. Enumerable.Range(0, Grid.Count).Select(i => s550 * Math.Pow(Grid[i] / 550, -power))];
        PlainMaterial found = Plain(Colors(Of(k, s)) with { StandardUncertainty = 0.01 });
        for (int i = 0; i < Grid.Count; i++)
        {
            (double foundK, double foundS) = found.CoefficientsAt(i);
            Assert.Equal(1, foundK / k[i], 0.02);
            Assert.Equal(1, foundS / s[i], 0.02);
        }
    }

    /// <summary>
    /// Colours of the typical ceramic, K = 0.05 + 0.3 exp(-(λ - 400)/60) and S = 3 (550/λ), agree with what is assumed
    /// of ceramics, and so leave it there however uncertain they are (common practice, no source, for its numbers).
    /// </summary>
    [Theory]
    [InlineData(0.1)]
    [InlineData(5)]
    public void Colours_of_the_typical_ceramic_move_nothing(double uncertainty)
    {
        double[] k = [.. Enumerable.Range(0, Grid.Count).Select(
            i => 0.05 + (0.3 * Math.Exp(-(Grid[i] - 400) / 60)))];
        double[] s = [.. Enumerable.Range(0, Grid.Count).Select(i => 3 * 550 / Grid[i])];
        PlainMaterial found = Plain(Colors(Of(k, s)) with { StandardUncertainty = uncertainty });
        for (int i = 0; i < Grid.Count; i++)
        {
            Assert.Equal(1, found.CoefficientsAt(i).K / k[i], 1e-6);
            Assert.Equal(1, found.CoefficientsAt(i).S / s[i], 1e-6);
        }
    }

    /// <summary>
    /// Between colours that are uncertain and what is typical, the least sum of squares, each in its uncertainty: the
    /// gradient of that sum, by the stack and by differences, is zero. Spreads of the five parameters: ln K, ln of the
    /// rise and ln S, 2; power of S, 0.7; power of K, 3.
    /// </summary>
    [Fact]
    public void Uncertain_colours_are_weighed_against_what_is_typical()
    {
        const double Uncertainty = 4;
        double[] typical = [Math.Log(0.05), Math.Log(0.3), Math.Log(3), 1, 0], spread = [2, 2, 2, 0.7, 3];
        Material Plain5(double[] p) => Of(
            [.. Enumerable.Range(0, Grid.Count).Select(i => (Math.Exp(p[0]) * Math.Pow(Grid[i] / 550, p[4]))
                + Math.Exp(p[1] - ((Grid[i] - 400) / 60)))],
            [.. Enumerable.Range(0, Grid.Count).Select(i => Math.Exp(p[2]) * Math.Pow(Grid[i] / 550, -p[3]))]);
        double[] wanted = Colors(Plain5([Math.Log(0.15), Math.Log(0.9), Math.Log(6), 0.2, 1])).Values;
        double Cost(double[] p) =>
            Colors(Plain5(p)).Values.Zip(wanted, (a, b) => Math.Pow((a - b) / Uncertainty, 2)).Sum()
            + p.Select((value, j) => Math.Pow((value - typical[j]) / spread[j], 2)).Sum();
        PlainMaterial found = Plain(
            Colors(Plain5([Math.Log(0.15), Math.Log(0.9), Math.Log(6), 0.2, 1])) with
            {
                StandardUncertainty = Uncertainty,
            });

        // The parameters from K and S: two wavelengths tell those of S; a power of K leaves two linear equations for
        // its other parameters, and a third wavelength the power.
        (double K, double S) At(double nm) => found.CoefficientsAt(Grid.IndexOf(nm));
        double power = -Math.Log(At(700).S / At(400).S) / Math.Log(700.0 / 400);
        (double Floor, double Rise) Linear(double q)
        {
            double a = Math.Pow(400.0 / 550, q), b = Math.Exp(-2.5);
            double floor = (At(550).K - (b * At(400).K)) / (1 - (a * b));
            return (floor, At(400).K - (a * floor));
        }

        double Miss(double q) => (Linear(q).Floor * Math.Pow(700.0 / 550, q)) + (Linear(q).Rise * Math.Exp(-5))
            - At(700).K;
        (double low, double high) = (-3, 5);
        for (int i = 0; i < 60; i++)
        {
            double middle = (low + high) / 2;
            (low, high) = Miss(middle) < 0 ? (middle, high) : (low, middle);
        }

        double[] best = [Math.Log(Linear(low).Floor), Math.Log(Linear(low).Rise), Math.Log(At(550).S), power, low];
        Material same = Plain5(best);
        Assert.All(
            Enumerable.Range(0, Grid.Count),
            i => Assert.Equal(found.CoefficientsAt(i).K, same.Absorption[i], 1e-8));
        for (int j = 0; j < best.Length; j++)
        {
            double Moved(double by) => Cost([.. best.Select((value, q) => q == j ? value + by : value)]);
            double slope = (Moved(0.01) - Moved(-0.01)) / 0.02;
            double bend = (Moved(0.01) + Moved(-0.01) - (2 * Moved(0))) / 1e-4;
            Assert.True(bend > 0);
            Assert.Equal(0, slope / bend, 2e-3);
        }
    }

    /// <summary>
    /// What is stated: the geometric mean of both estimates, and for its uncertainty their distance in logarithms, at
    /// most 2, that of the plain one, and a tenth.
    /// </summary>
    [Fact]
    public void The_answer_is_the_geometric_mean_of_two_estimates()
    {
        DiscColors colors = Colors(Of(
            [.. Enumerable.Range(0, Grid.Count).Select(i => 0.03 + (0.5 * Math.Exp(-(Grid[i] - 400) / 45)))],
            [.. Enumerable.Range(0, Grid.Count).Select(i => 4 * Math.Pow(Grid[i] / 550, -0.8))]));
        CharacterizationResult result = ColorCharacterization.Find(colors, Grid, TwoFluxModel.Instance);
        Material smooth = DiscCharacterization.Find(
            colors.SmoothestReadings(Grid), new() { Model = TwoFluxModel.Instance }).ToMaterial();
        PlainMaterial plain = Plain(colors);
        for (int i = 0; i < Grid.Count; i++)
        {
            CharacterizationResult.Solution at = result.SolutionAt(i)!;
            (double k, double s) = plain.CoefficientsAt(i);
            (double uK, double uS) = plain.RelativeUncertaintyAt(i);
            Check(at.Absorption, at.AbsorptionUncertainty, k, uK, smooth.Absorption[i]);
            Check(at.Scattering, at.ScatteringUncertainty, s, uS, smooth.Scattering[i]);
            Assert.Equal(0, at.Correlation);
        }

        static void Check(double value, double uncertainty, double one, double uOne, double other)
        {
            double apart = Math.Min(2, Math.Abs(Math.Log(one) - Math.Log(other)));
            Assert.Equal(1, value * value / (one * other), 1e-9);
            Assert.Equal(1, uncertainty / (value * Math.Sqrt((uOne * uOne) + (apart * apart) + 0.01)), 1e-9);
        }
    }

    /// <summary>
    /// The stated uncertainty of ln K and ln S is that of least squares, through the parameters: the inverse of the
    /// normal matrix of six colours (slopes by differences of the stack) and of what is assumed of ceramics.
    /// </summary>
    [Theory]
    [InlineData(0.3)]
    [InlineData(5)]
    public void Uncertainty_goes_from_colours_to_constants(double uncertainty)
    {
        double[] p = [Math.Log(0.05), Math.Log(0.3), Math.Log(3), 1, 0], spread = [2, 2, 2, 0.7, 3];
        double LogK(double[] at, int i) => Math.Log(
            (Math.Exp(at[0]) * Math.Pow(Grid[i] / 550, at[4])) + Math.Exp(at[1] - ((Grid[i] - 400) / 60)));
        double LogS(double[] at, int i) => at[2] - (at[3] * Math.Log(Grid[i] / 550));
        double[] Moved(int j, double by) => [.. p.Select((value, q) => q == j ? value + by : value)];
        DiscColors ColorsOf(double[] at) => Colors(Of(
            [.. Enumerable.Range(0, Grid.Count).Select(i => Math.Exp(LogK(at, i)))],
            [.. Enumerable.Range(0, Grid.Count).Select(i => Math.Exp(LogS(at, i)))]));
        Matrix<double> slopes = Matrix<double>.Build.Dense(6, 5, (i, j) =>
            (ColorsOf(Moved(j, 1e-4)).Values[i] - ColorsOf(Moved(j, -1e-4)).Values[i]) / 2e-4 / uncertainty);
        Matrix<double> covariance = ((slopes.Transpose() * slopes)
            + Matrix<double>.Build.DenseOfDiagonalArray([.. spread.Select(u => 1 / (u * u))])).Inverse();
        PlainMaterial found = Plain(ColorsOf(p) with { StandardUncertainty = uncertainty });
        for (int i = 0; i < Grid.Count; i++)
        {
            double Of(Func<double[], int, double> log)
            {
                Vector<double> by = Vector<double>.Build.Dense(
                    5, j => (log(Moved(j, 1e-4), i) - log(Moved(j, -1e-4), i)) / 2e-4);
                return Math.Sqrt(by * covariance * by);
            }

            (double uK, double uS) = found.RelativeUncertaintyAt(i);
            Assert.Equal(1, uK / Of(LogK), 2e-3);
            Assert.Equal(1, uS / Of(LogS), 2e-3);
        }
    }

    /// <summary>
    /// Colours that the shape of a plain ceramic misses leave an uncertainty that is theirs, whatever was stated.
    /// </summary>
    [Fact]
    public void Colours_that_are_missed_say_how_uncertain_they_are()
    {
        DiscColors colors = Colors(Of(
            [.. Enumerable.Range(0, Grid.Count).Select(
                i => 0.03 + (0.02 * Math.Exp(-Math.Pow((Grid[i] - 530) / 40, 2))))],
            [.. Enumerable.Range(0, Grid.Count).Select(i => 4 * Math.Pow(Grid[i] / 550, -0.8))]));
        PlainMaterial one = Plain(colors with { StandardUncertainty = 0.01 }),
            two = Plain(colors with { StandardUncertainty = 0.02 });
        for (int i = 0; i < Grid.Count; i += 5)
        {
            Assert.Equal(1, one.RelativeUncertaintyAt(i).K / two.RelativeUncertaintyAt(i).K, 0.05);
            Assert.Equal(1, one.RelativeUncertaintyAt(i).S / two.RelativeUncertaintyAt(i).S, 0.05);
        }
    }

    private static PlainMaterial Plain(DiscColors colors) =>
        PlainMaterial.Fit(colors, colors.SmoothestReadings(Grid), TwoFluxModel.Instance, default);

    private static Material Of(double[] k, double[] s) => new(
        "plain", TwoFluxModel.Instance, new AbsorptionSpectrum(Grid, k), new ScatteringSpectrum(Grid, s), 1.53);

    private static DiscColors Colors(Material material) => new(
        "x", 1.53, 0.8, Color(material, 0.8, Black, null), Color(material, 0.8, White, null), Colorimeter.D65TwoDegree,
        Black, White, MeasurementGeometry.DiffuseSpecularIncluded, ReadingArea.Large);

    private static CharacterizationResult Find(Lab black, Lab white, IOpticalModel? model = null) =>
        ColorCharacterization.Find(
            new DiscColors("x", 1.53, 0.8, black, white, Colorimeter.D65TwoDegree, Black, White,
                MeasurementGeometry.DiffuseSpecularIncluded, ReadingArea.Large), Grid, model);

    private static Lab Color(Material material, double mm, Backing backing, Random? noise)
    {
        Lab lab = Colorimeter.D65TwoDegree.ToLab(
            new LayerStack([new Layer(material, mm)], backing.Substrate, backing.Coupling).Reflectance());
        double Error() => noise is null ? 0 : 0.6 * (noise.NextDouble() - 0.5);
        return new Lab(lab.L + Error(), lab.A + Error(), lab.B + Error());
    }
}
