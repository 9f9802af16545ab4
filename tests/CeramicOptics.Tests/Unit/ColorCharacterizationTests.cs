using CeramicOptics.Characterization;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;

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
