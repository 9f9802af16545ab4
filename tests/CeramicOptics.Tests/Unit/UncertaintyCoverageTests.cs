using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Restorations;
using static CeramicOptics.Tests.WallData;

namespace CeramicOptics.Tests.Unit;

/// <summary>
/// Stated intervals, probabilities, thicknesses and their uncertainties against worlds drawn with System.Random and
/// evaluated by the public stack.
/// </summary>
public class UncertaintyCoverageTests
{
    private static readonly WallData Data = Coarse("two-flux");

    private static readonly InputUncertainty Inputs = new() { CoreMm = 0.06, CementMm = 0.02, StumpReflectance = 0.02,
        TargetColor = 0.4, RefractiveIndex = 0.02, ModelColor = 0.3 };

    private static readonly Material Ceramic = Data.Make(
        "ceramic", 0.02, 0.14, 9, 2.15, Noise(0.0015, 0.15, 0.5, 0.04)), Cement = Data.Make("cement", 0.05, 0, 2, 1.52,
        Noise(0.005, 0.1, 0.2, 0.05));

    private static readonly Substrate Stump = Data.Stump("stump", 0.1, 0.3);

    /// <summary>
    /// The stated 95 % interval must hold 93 to 97 % of 3,000 truths, and the stated probability of a match must be
    /// their share.
    /// </summary>
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    public void Stated_probabilities_are_kept_in_simulation(int which)
    {
        const int Worlds = 3000;
        Random random = new(7);
        LayerStack nominal = new([new Layer(Ceramic, 1), new Layer(Cement, 0.05)], Stump);
        Lab seen = Colorimeter.D65TwoDegree.ToLab(nominal.Reflectance());
        Lab wish = new(seen.L + 1.5, seen.A, seen.B + 0.5);
        ColorReference reference = which switch
        {
            0 => Target.FromColor(
                "neighbour", wish, Colorimeter.D65TwoDegree, MeasurementGeometry.DiffuseSpecularIncluded),
            1 => MaskingReference.SelfBacked,
            _ => MaskingReference.Over(Data.Good),
        };
        double nominalDifference = which == 0
            ? 1.5
            : Worst(nominal, reference, 0, ColorCriterion.AcceptabilityThreshold, Lights[0]);
        ColorCriterion criterion =
            new("own", ColorDifferenceFormula.Ciede2000, nominalDifference + (which == 0 ? 0.3 : 0.05), "this test");
        ZonePrediction stated = PredictionUncertainty.Find(Crown(reference, criterion, 1)).Zones[0];
        int inside = 0, meets = 0;
        for (int world = 0; world < Worlds; world++)
        {
            LayerStack truth = Draw(random, 1);
            Lab other = which == 0 ? Moved(wish, Inputs.TargetColor, random) : Colorimeter.D65TwoDegree.ToLab(
                ReferenceOf(truth, reference, 0));
            Lab color = Colorimeter.D65TwoDegree.ToLab(truth.Reflectance());
            double share = which == 0 ? 1 : Math.Min(1, ColorDifference.Cie76(other, color) / 4);
            double difference = criterion.Difference(other, Moved(color, 0.3 * share, random));
            inside += difference >= stated.Interval95.Low && difference <= stated.Interval95.High ? 1 : 0;
            meets += difference <= criterion.Limit ? 1 : 0;
        }

        Assert.InRange(inside / (double)Worlds, 0.93, 0.97);
        Assert.InRange(stated.Meets.Value, 0.1, 0.9);
        Assert.InRange(stated.Meets.Value - (meets / (double)Worlds), -0.03, 0.03);
    }

    /// <summary>Of pieces made at the reliable thickness, with every input drawn, the stated share masks.</summary>
    [Theory]
    [InlineData(0.95, true)]
    [InlineData(0.95, false)]
    [InlineData(0.8, false)]
    public void The_reliable_thickness_masks_in_the_stated_share_of_pieces(double share, bool isOverGood)
    {
        const int Pieces = 4000;
        ColorReference reference = isOverGood ? MaskingReference.Over(Data.Good) : MaskingReference.SelfBacked;
        MinimumThickness minimum = MaskingThickness.Find(
            Crown(reference, ColorCriterion.AcceptabilityThreshold, 1),
            new MaskingOptions { Share = share, Samples = 4096 }).Zones[0].Minimum;
        double mm = minimum.ReliableMm!.Value;
        Assert.True(mm > minimum.ByColorMm + 0.01);
        Random random = new(11);
        int masks = 0;
        for (int i = 0; i < Pieces; i++)
        {
            LayerStack piece = Draw(random, mm);
            Lab other = Colorimeter.D65TwoDegree.ToLab(ReferenceOf(piece, reference, 0));
            Lab color = Colorimeter.D65TwoDegree.ToLab(piece.Reflectance());
            double ofModel = 0.3 * Math.Min(1, ColorDifference.Cie76(other, color) / 4);
            masks += ColorDifference.Ciede2000(other, Moved(color, ofModel, random)) <= 1.8 ? 1 : 0;
        }

        Assert.InRange(masks / (double)Pieces, share - 0.015, share + 0.015);
    }

    /// <summary>
    /// The masking thickness of worlds in which K, S, stump and cement are drawn spreads as stated; the model's own
    /// error is left out.
    /// </summary>
    [Fact]
    public void Stated_uncertainty_of_the_thickness_is_that_of_simulated_repeats()
    {
        InputUncertainty inputs = Inputs with { CoreMm = 0, ModelColor = 0, RefractiveIndex = 0 };
        Restoration crown = Crown(MaskingReference.SelfBacked, ColorCriterion.AcceptabilityThreshold,
            1) with { Uncertainty = inputs };
        MinimumThickness stated = MaskingThickness.Find(crown).Zones[0].Minimum;
        Random random = new(7);
        List<double> thicknesses = [];
        for (int repeat = 0; repeat < 300; repeat++)
        {
            LayerStack drawn = Draw(random, 1, inputs);
            Restoration made = new(
                [Zone(drawn.Substrate, MaskingReference.SelfBacked, 1)],
                new Ceramic("made", 1, drawn.Layers[0].Material), drawn.Layers[1],
                ColorCriterion.AcceptabilityThreshold)
            {
                Uncertainty = Sure,
            };

            // Scale is drawn into the thickness, and the other way round in the thickness that masks.
            thicknesses.Add(
                MaskingThickness.Find(made,
                new MaskingOptions { Samples = 256 }).Zones[0].Minimum.ByColorMm!.Value / drawn.Layers[0].ThicknessMm);
        }

        double mean = thicknesses.Average(), sd = Math.Sqrt(thicknesses.Average(t => (t - mean) * (t - mean)));
        Assert.Equal(mean, stated.ByColorMm!.Value, 0.02);
        Assert.InRange(stated.StandardUncertaintyMm!.Value / sd, 0.85, 1.18);
    }

    private static Restoration Crown(ColorReference reference, ColorCriterion criterion, double availableMm) =>
        new([Zone(Stump, reference, availableMm)], new Ceramic("made up", 1, Ceramic), new Layer(Cement, 0.05),
            criterion) { Uncertainty = Inputs };

    // One piece: thicknesses, scales (as thickness, which K and S are inverse to), noise at each wavelength, indices,
    // film and stump.
    private static LayerStack Draw(Random random, double mm, InputUncertainty? inputs = null)
    {
        InputUncertainty of = inputs ?? Inputs;
        double stump = of.StumpReflectance * Gauss(random);
        double[] under = [.. Enumerable.Range(0, Data.Grid.Count).Select(
            i => Math.Clamp(0.1 + (0.2 * (Data.Grid[i] - 400) / 300) + stump, 0, 1))];
        Layer Made(Material material, double thickness, double u)
        {
            CoefficientUncertainty noise = material.Uncertainty!;
            double[] k = new double[Data.Grid.Count], s = new double[k.Length];
            for (int i = 0; i < k.Length; i++)
            {
                double one = Gauss(random), other = Gauss(random), rho = noise.Correlation[i];
                k[i] = Math.Max(0, material.Absorption[i] + (noise.AbsorptionPerMm[i] * one));
                s[i] = Math.Max(
                    0,
                    material.Scattering[i] + (
                        noise.ScatteringPerMm[i] * ((rho * one) + (Math.Sqrt(1 - (rho * rho)) * other))));
            }

            double index = material.RefractiveIndex.Constant + (of.RefractiveIndex * Gauss(random));
            return new Layer(
                With(material, k, s, index),
                Math.Max(0, thickness + (u * Gauss(random))) * (1 + (noise.RelativeScale * Gauss(random))));
        }

        return new LayerStack(
            [Made(Ceramic, mm, of.CoreMm), Made(Cement, 0.05, of.CementMm)],
            Substrate.FromInternalReflectance("drawn", new ReflectanceSpectrum(Data.Grid, under), 1.54));
    }

    private static Lab Moved(Lab color, double u, Random random) =>
        new(color.L + (u * Gauss(random)), color.A + (u * Gauss(random)), color.B + (u * Gauss(random)));

    private static CoefficientUncertainty Noise(double k, double s, double correlation, double scale) =>
        new([k, k, k, k], [s, s, s, s], [correlation, correlation, correlation, correlation], scale);
}
