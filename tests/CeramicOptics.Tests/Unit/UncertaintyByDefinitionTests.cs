using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Restorations;
using static CeramicOptics.Tests.WallData;

namespace CeramicOptics.Tests.Unit;

/// <summary>
/// The uncertainty of a difference against every input moved by its own, one after another, with the public stack.
/// </summary>
public class UncertaintyByDefinitionTests
{
    private const double Veneer = 0.35;

    /// <summary>
    /// JCGM 100:2008, 5.1.3: thickness, scale, index and reading noise of every layer, stump and target, each by what
    /// it does alone. Small, so that all is linear.
    /// </summary>
    [Theory]
    [InlineData("two-flux", "target", false)]
    [InlineData("two-flux", "self", false)]
    [InlineData("two-flux", "good", false)]
    [InlineData("two-flux", "self", true)]
    [InlineData("two-flux", "good", true)]
    [InlineData("transport", "target", true)]
    [InlineData("transport", "self", false)]
    [InlineData("transport", "good", false)]
    public void Every_input_contributes_the_square_of_its_own_change(string model, string against, bool isVeneered)
    {
        WallData data = Coarse(model);
        CoefficientUncertainty small = new(
            [0.0004, 0.0003, 0.0002, 0.0001], [0.003, 0.005, 0.004, 0.002], [0.3, -0.4, 0.6, 0], 0.001);
        Material Small(Material material) =>
            new(material.Name, material.Model, material.Absorption, material.Scattering, material.RefractiveIndex,
                small);
        Material glaze = Small(data.Glaze), body = Small(data.Body), film = Small(data.Film), enamel = Small(
            data.Enamel);
        Colorimeter light = Colorimeter.ATwoDegree;
        ColorReference reference = against switch
        {
            "self" => MaskingReference.SelfBacked,
            "good" => MaskingReference.Over(data.Good),
            _ => Wish(new ReflectanceSpectrum(data.Grid, [0.4, 0.5, 0.58, 0.6])),
        };
        InputUncertainty inputs = new()
        {
            GlazeMm = 0.001, VeneerMm = 0.003, CoreMm = 0.004, CementMm = 0.002, StumpReflectance = 0.002,
                TargetColor = 0.01, RefractiveIndex = 0.001, ModelColor = 0.02,
        };
        Restoration crown = new(
            [Zone(data.Dark, reference)], new Ceramic("made up", 1, body), new Layer(film, 0.05),
            ColorCriterion.AcceptabilityThreshold)
        {
            Glaze = new Layer(glaze, 0.1), Veneer = isVeneered
                ? Restorations.Veneer.OfShare(enamel, Veneer)
                : null, Uncertainty = inputs,
            Viewing = new ViewingConditions { Colorimeters = [light] },
        };
        double coreMm = isVeneered ? 1.2 * (1 - Veneer) : 1.2;
        List<(Layer Layer, double U)> layers = [(new Layer(glaze, 0.1), 0.001), (new Layer(body, coreMm), 0.004), (
            new Layer(film, 0.05), 0.002)];
        if (isVeneered)
        {
            layers.Insert(1, (new Layer(enamel, 1.2 * Veneer), 0.003));
        }

        int core = isVeneered ? 2 : 1;
        LayerStack stack = new(layers.Select(item => item.Layer), data.Dark);
        Dictionary<string, double> squares = [];
        void Add(
            string input, Func<int, LayerStack> move, Lab byTarget = default, Lab byModel = default,
            bool isStump = false)
        {
            double At(int sign)
            {
                LayerStack moved = move(sign);
                Lab other = light.ToLab(ReferenceOf(isStump ? stack : moved, reference, core)), color = light.ToLab(
                    moved.Reflectance());

                // Against a masking reference the model's error falls with the CIELAB difference below 4.
                double share = against == "target" ? 1 : Math.Min(1, ColorDifference.Cie76(other, color) / 4);
                return crown.Criterion.Difference(Plus(other, byTarget, sign), Plus(color, byModel, sign * share));
            }

            squares[input] = squares.GetValueOrDefault(input) + (Math.Pow(At(1) - At(-1), 2) / 4);
        }

        LayerStack With(int at, Func<Material, Material>? material, double mm) =>
            new(stack.Layers.Select(
                (item, j) => j == at ? new Layer(material is null ? item.Material : material(item.Material),
                mm) : item), data.Dark);
        for (int j = 0; j < layers.Count; j++)
        {
            (Material of, double mm, double u) = (layers[j].Layer.Material, layers[j].Layer.ThicknessMm, layers[j].U);
            int at = j;
            Add($"thickness of {of}", sign => With(at, null, mm + (sign * u)));
            Add($"scale of K and S of {of}", sign => With(at, null, mm * (1 + (0.001 * sign))));
            Add($"refractive index of {of}", sign => With(
                at,
                m => WallData.With(m, m.Absorption.Values.ToArray(), m.Scattering.Values.ToArray(),
                m.RefractiveIndex.Constant + (0.001 * sign)), mm));
            for (int i = 0; i < 4; i++)
            {
                double uK = small.AbsorptionPerMm[i], uS = small.ScatteringPerMm[i], rho = small.Correlation[i];
                int wavelength = i;
                Add($"reading noise of {of}", sign => With(
                    at, m => Moved(m, wavelength, sign * uK, sign * rho * uS), mm));
                Add($"reading noise of {of}", sign => With(
                    at, m => Moved(m, wavelength, 0, sign * Math.Sqrt(1 - (rho * rho)) * uS), mm));
            }
        }

        double[] dark = [.. Enumerable.Range(0, 4).Select(i => 0.05 + (0.15 * i / 3))];
        Add("reading of the stump", sign => stack.WithSubstrate(
            Substrate.FromInternalReflectance("moved",
            new ReflectanceSpectrum(data.Grid, [.. dark.Select(value => value + (0.002 * sign))]),
            1.54)), isStump: true);
        foreach (Lab axis in (Lab[])[new(1, 0, 0), new(0, 1, 0), new(0, 0, 1)])
        {
            Add("optical model", _ => stack, byModel: Plus(default, axis, 0.02));
            if (against == "target")
            {
                Add("reading of the target", _ => stack, byTarget: Plus(default, axis, 0.01));
            }
        }

        ZonePrediction found = PredictionUncertainty.Find(crown).Zones[0];
        UncertaintyModel first = new(new ZoneComparison(new CompiledWall(crown, default), crown.Zones[0]));
        first.Prepare(1.2);
        double total = squares.Values.Sum();
        Assert.Equal(
            crown.Criterion.Difference(light.ToLab(ReferenceOf(stack, reference, core)),
            light.ToLab(stack.Reflectance())), found.Difference, 1e-3);

        // Derivatives between thicknesses are right to about one per cent.
        Assert.Equal(1, first.StandardUncertainty() / Math.Sqrt(total), 0.01);
        Assert.Equal(1, found.StandardUncertainty / Math.Sqrt(total), 0.03);
        Assert.Equal(1, found.Contributions.Sum(item => item.Share), 1e-9);
        Assert.Equal(found.Contributions.OrderByDescending(item => item.Share), found.Contributions);
        foreach ((string input, double square) in squares.Where(item => item.Value > 1e-4 * total))
        {
            Contribution one = found.Contributions.Single(item => item.ToString() == input);
            Assert.Equal(square / total, one.Share, 0.01);

            // An index is known less well, since directions of light move with it in the coarse form of transport; it
            // is the least of the inputs. What is below a thousandth of the variance is left out.
            double within = model == "transport" && input.StartsWith("refractive", StringComparison.Ordinal)
                ? 0.13
                : 0.03;
            if (square > 1e-3 * total)
            {
                double ratio = Math.Abs(one.DifferenceHigh - one.DifferenceLow) / (2 * Math.Sqrt(square));
                Assert.True(
                    ratio > 1 - within && ratio < 1 + within,
                    $"{input}: {ratio:R} of {Math.Sqrt(square):R}, all {Math.Sqrt(total):R}");
                Assert.Equal(
                    found.Difference, (one.DifferenceLow + one.DifferenceHigh) / 2,
                    (within * Math.Sqrt(square)) + 1e-4);
            }
        }

        Assert.All(found.Contributions, item => Assert.Contains(item.ToString(), squares.Keys));
    }

    /// <summary>
    /// Derivatives are polynomials over the whole range of walls; they must hold at its thin end and middle, and in
    /// wide ranges too.
    /// </summary>
    [Theory]
    [InlineData("two-flux", 0.2, 3)]
    [InlineData("two-flux", 0, 6)]
    [InlineData("transport", 0.2, 3)]
    [InlineData("transport", 0.05, 6)]
    public void First_order_is_right_anywhere_in_the_range(string model, double min, double max)
    {
        WallData data = Coarse(model);
        foreach (Material core in (Material[])[data.Body, data.Dense])
        {
            foreach (double mm in (double[])[0.21, 0.33, 0.5, 0.8, 1.3, 2.5])
            {
                Restoration crown = data.Crown(Zone(data.Dark, MaskingReference.SelfBacked, mm), core) with
                {
                    WallRange = new ThicknessRange(min, max), Uncertainty = Sure with { CementMm = 0.002 },
                };
                UncertaintyModel first = new(new ZoneComparison(new CompiledWall(crown, default), crown.Zones[0]));
                first.Prepare(mm);
                double At(double film) =>
                    Worst(
                        new LayerStack([new Layer(core, mm), new Layer(data.Film, film)], data.Dark),
                        MaskingReference.SelfBacked, 0, crown.Criterion, Lights[0]);
                double direct = Math.Abs(At(0.052) - At(0.048)) / 2;
                Contribution found = first.Contributions()
                    .Single(item => item.Role == LayerRole.Cement && item.Input == UncertainInput.Thickness);
                Assert.InRange(
                    (Math.Abs(found.DifferenceHigh - found.DifferenceLow) / 2) - direct, -(0.04 * direct) - 1e-4,
                    (0.04 * direct) + 1e-4);
            }
        }
    }

    private static Lab Plus(Lab color, Lab axis, double times) =>
        new(color.L + (times * axis.L), color.A + (times * axis.A), color.B + (times * axis.B));
}
