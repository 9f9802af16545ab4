using CeramicOptics.Layers.Transport;
using CeramicOptics.Selection;
using MathNet.Numerics.Distributions;
using static CeramicOptics.Tests.CoarseData;

namespace CeramicOptics.Tests.Unit;

/// <summary>
/// Answers of the selection against their own definitions, worked out by brute force with the public stack: scans over the thickness, every spectrum between
/// two others, every input moved by its uncertainty. Data at four wavelengths keeps that quick.
/// </summary>
public class SelectionByDefinitionTests
{
    private static readonly LayerStack Crown = new([new Layer(Glaze, 0.1), new Layer(Body, 1.2), new Layer(Film, 0.05)], Dark);

    private static MaskingReference[] References => [MaskingReference.SelfBacked, MaskingReference.Over(Good), Neighbour];

    /// <summary>Between two thicknesses every spectrum lies between the two of its ends: all sixteen corners of that box of four values, and of the reference's, keep to the bounds.</summary>
    [Fact]
    public void Bounds_hold_for_every_spectrum_between_the_ends()
    {
        Random random = new(3);
        foreach (ColorCriterion criterion in (ColorCriterion[])[ColorCriterion.AcceptableMatchCielab, ColorCriterion.AcceptableMatch])
        {
            for (int round = 0; round < 60; round++)
            {
                Material any = new("any", Values(random, 0.01, 3, values => new AbsorptionSpectrum(Grid, values)), Values(random, 0.1, 20, values => new ScatteringSpectrum(Grid, values)), 1.5);
                Substrate under = Substrate.FromInternalReflectance("under", Values(random, 0.02, 0.95, values => new ReflectanceSpectrum(Grid, values)), 1.54);
                MaskingReference reference = (round % 3) switch
                {
                    0 => MaskingReference.Target("wish", Values(random, 0.02, 0.95, values => new ReflectanceSpectrum(Grid, values))),
                    1 => MaskingReference.Over(Good),
                    _ => MaskingReference.SelfBacked,
                };
                DifferenceCurve curve = MaskingThickness.Curve(new LayerStack([new Layer(any, 1)], under), 0, (0, 5), reference, criterion, [under], TwoLights);
                double from = 0.02 + random.NextDouble(), width = Math.Pow(10, -3 * random.NextDouble());
                CurvePoint a = curve.Evaluate(from), b = curve.Evaluate(from + width);
                (double lower, double upper) = curve.Bounds(a, b);
                foreach (double[] spectrum in Corners(a.Spectra[0], b.Spectra[0]))
                {
                    foreach (double[] moved in a.Reference is null ? [[]] : Corners(a.Reference, b.Reference!))
                    {
                        double worst = Enumerable.Range(0, 2).Max(c => criterion.Difference(
                            moved.Length == 0 ? a.References[c] : curve.Tables[c].ToLab(moved), curve.Tables[c].ToLab(spectrum)));
                        Assert.InRange(worst, lower - 1e-9, upper + 1e-9);
                    }
                }

                // And they close in: twice the steepness (3 at most, as long as colours are near) times the way across the box of either end.
                CurvePoint near = curve.Evaluate(from + 1e-5);
                (lower, upper) = curve.Bounds(a, near);
                Assert.InRange(upper - lower, 0, 0.6);
            }
        }
    }

    /// <summary>
    /// CIEDE2000 jumps where two hues are opposite (Sharma, Wu, Dalal 2005, 2.1). Nearly neutral colours that pass that on the way from one thickness to another,
    /// by their hue angles at 100 thicknesses between, keep to the bounds all the same.
    /// </summary>
    [Fact]
    public void Bounds_hold_where_hues_pass_opposition()
    {
        Random random = new(8);
        int passed = 0, decided = 0;
        for (int round = 0; round < 2000; round++)
        {
            double[] Flat(double level) => [.. Enumerable.Range(0, 4).Select(_ => level * (1 + (0.03 * (random.NextDouble() - 0.5))))];
            Material any = new("any", new(Grid, Flat(0.3)), new(Grid, Flat(3)), 1.5);
            Substrate under = Substrate.FromInternalReflectance("under", new ReflectanceSpectrum(Grid, Flat(0.2)), 1.54);
            MaskingReference reference = round % 2 == 0
                ? MaskingReference.Target("wish", new ReflectanceSpectrum(Grid, Flat(0.45)))
                : MaskingReference.Over(Substrate.FromInternalReflectance("grey", new ReflectanceSpectrum(Grid, Flat(0.6)), 1.54));
            DifferenceCurve curve = MaskingThickness.Curve(
                new LayerStack([new Layer(any, 1)], under), 0, (0, 5), reference, ColorCriterion.AcceptableMatch, [under], TwoLights with { Colorimeters = [Lights[0]] });
            double from = 0.1 + random.NextDouble(), width = 0.5 * Math.Pow(random.NextDouble(), round % 4 < 2 ? 1 : 3);
            (double lower, double upper) = curve.Bounds(curve.Evaluate(from), curve.Evaluate(from + width));
            CurvePoint[] between = [.. Enumerable.Range(0, 101).Select(i => curve.Evaluate(from + (width * i / 100)))];
            Assert.All(between, point => Assert.InRange(point.Worst, lower, upper));

            // From -180 to 180 shifted by 180, so that opposition is where the angle wraps.
            double[] apart = [.. between.Select(point => (point.Colors[0, 0].HueDegrees - point.References[0].HueDegrees + 540) % 360)];
            passed += Enumerable.Range(1, 100).Any(i => Math.Abs(apart[i] - apart[i - 1]) > 180) ? 1 : 0;
            decided += upper <= 1.8 || lower > 1.8 ? 1 : 0;
        }

        Assert.InRange(passed, 10, 500);
        Assert.InRange(decided, 100, 2000);
    }

    /// <summary>The thinnest thickness that masks from there on, all crossings and the least difference, by a scan in steps of 0.002 mm.</summary>
    [Fact]
    public void A_scan_over_the_thickness_finds_the_same_crossings()
    {
        foreach (ColorCriterion criterion in (ColorCriterion[])[ColorCriterion.AcceptableMatch, ColorCriterion.AcceptableMatchCielab])
        {
            foreach (MaskingReference reference in References)
            {
                const double Start = 0.2, Step = 0.002;
                double[] scan = [.. Enumerable.Range(0, 1401).Select(i => WorstAt(reference, criterion, Start + (i * Step)))];
                List<(double Mm, bool Into)> crossings = [];
                for (int i = 1; i < scan.Length; i++)
                {
                    if (scan[i] <= criterion.Limit != scan[i - 1] <= criterion.Limit)
                    {
                        crossings.Add((Start + (i * Step), scan[i] <= criterion.Limit));
                    }
                }

                MaskingResult result = MaskingThickness.Find(Crown, 1, (Start, 3), reference, criterion, TwoLights);
                Assert.Equal(crossings.Select(crossing => crossing.Into), result.Crossings.Select(crossing => crossing.IntoMasking));
                for (int i = 0; i < crossings.Count; i++)
                {
                    Assert.InRange(result.Crossings[i].ThicknessMm, crossings[i].Mm - Step, crossings[i].Mm);
                }

                Assert.All(result.Crossings, crossing => Assert.InRange(WorstAt(reference, criterion, crossing.ThicknessMm), criterion.Limit - 1e-6, criterion.Limit));
                Assert.Equal(scan.Min(), result.Best.Difference, 0.01);
                Assert.Equal(result.Best.Difference, WorstAt(reference, criterion, result.Best.ThicknessMm), 1e-9);
                bool masked = scan[^1] <= criterion.Limit;
                Assert.Equal(masked ? crossings.Count == 0 ? MaskingOutcome.MaskedThroughout : MaskingOutcome.MaskedFrom : MaskingOutcome.NotMasked, result.Outcome);
                Assert.Equal(masked ? result.Crossings[^1].ThicknessMm : null, result.OpticalMinimumMm);
            }
        }
    }

    [Fact]
    public void Recommended_is_the_larger_of_optical_and_structural_and_never_beyond_the_range()
    {
        MaskingResult Find(double min, double max, double? structural = null) => MaskingThickness.Find(
            Crown, 1, (min, max), MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch, TwoLights with { StructuralMinimumMm = structural });
        MaskingResult free = Find(0.2, 4);
        double optical = free.OpticalMinimumMm!.Value;
        Assert.Equal(optical, free.RecommendedMinimumMm);
        Assert.Equal(optical, free.Limiting.ThicknessMm);
        Assert.False(free.MasksAt(optical - 0.01));
        Assert.True(free.MasksAt(optical));
        Assert.True(free.MasksAt(4));
        Assert.False(free.MasksAt(4.01));
        Assert.DoesNotContain(free.Cautions, caution => caution.Kind == CautionKind.StructuralMinimumGoverns);

        MaskingResult strong = Find(0.2, 4, optical + 0.5);
        Assert.Equal(optical, strong.OpticalMinimumMm);
        Assert.Equal(optical + 0.5, strong.RecommendedMinimumMm);
        Assert.False(strong.MasksAt(optical + 0.4));
        Assert.Contains(strong.Cautions, caution => caution.Text == FormattableString.Invariant($"The structural minimum of {optical + 0.5:R} mm is above the optical one and governs."));
        Assert.Equal(optical, Find(0.2, 4, optical - 0.1).RecommendedMinimumMm);
        Assert.Equal(4, Find(0.2, 4, 4).RecommendedMinimumMm);
        Assert.Null(Find(0.2, 4, 4.1).RecommendedMinimumMm);

        MaskingResult throughout = Find(optical + 0.1, 4);
        Assert.Equal((MaskingOutcome.MaskedThroughout, optical + 0.1), (throughout.Outcome, throughout.OpticalMinimumMm));
        Assert.Null(throughout.ThicknessStandardUncertaintyMm);
        MaskingResult never = Find(0.2, optical - 0.1, 0.5);
        Assert.Equal((MaskingOutcome.NotMasked, null, null), (never.Outcome, never.OpticalMinimumMm, never.RecommendedMinimumMm));
        Assert.Equal(optical - 0.1, never.Limiting.ThicknessMm);
        Assert.False(never.MasksAt(optical - 0.1));
        Assert.DoesNotContain(never.Cautions, caution => caution.Kind == CautionKind.StructuralMinimumGoverns);
    }

    /// <summary>The exact model with the same constants: 12 streams, at the recommended thickness or at the end of the range.</summary>
    [Fact]
    public void Departure_of_two_flux_theory_is_the_exact_difference_less_the_stated_one()
    {
        foreach (MaskingReference reference in References)
        {
            foreach ((double? structural, double thickest) in ((double?, double)[])[(null, 3), (2.5, 3), (null, 0.4)])
            {
                ViewingConditions conditions = TwoLights with { ChecksModel = true, StructuralMinimumMm = structural };
                MaskingResult result = MaskingThickness.Find(Crown, 1, (0.2, thickest), reference, ColorCriterion.AcceptableMatch, conditions);
                double mm = result.RecommendedMinimumMm ?? thickest;
                LayerStack there = Crown.WithThickness(1, mm);
                TransportModel exact = new(12);
                double Difference(Colorimeter light, Func<LayerStack, ReflectanceSpectrum> model)
                {
                    Lab good = light.ToLab(reference == Neighbour ? Neighbour.Spectrum! : model(
                        reference == MaskingReference.SelfBacked ? Crown.WithThickness(1, 100) : there.WithSubstrate(Good)));
                    return ColorDifference.Ciede2000(good, light.ToLab(model(there)));
                }

                Colorimeter worst = Lights.MaxBy(light => Difference(light, stack => stack.Reflectance()))!;
                double departure = Difference(worst, stack => exact.Reflectance(stack, MeasurementGeometry.DiffuseSpecularIncluded)) - Difference(worst, stack => stack.Reflectance());
                Assert.Equal(departure, result.ModelDeparture!.Value, 1e-6);
                Caution? said = result.Cautions.SingleOrDefault(caution => caution.Kind == CautionKind.TwoFluxInaccurate);
                Assert.Equal(Math.Abs(departure) > 0.8, said is not null);
                if (said is not null)
                {
                    Assert.StartsWith(
                        FormattableString.Invariant($"Exact radiative transfer with the same constants gives a difference {Math.Abs(departure):0.0} {(departure > 0 ? "larger" : "smaller")} here;"), said.Text);
                }
            }
        }

        Assert.Null(MaskingThickness.Find(Crown, 1, (0.2, 3), Neighbour, ColorCriterion.AcceptableMatch, TwoLights).ModelDeparture);
    }

    /// <summary>JCGM 100:2008, 5.1.3 note 2: half the change of the difference as each independent input goes up and down by its standard uncertainty, squared and added.</summary>
    [Fact]
    public void Uncertainty_of_the_difference_is_the_sum_of_squares_of_every_input()
    {
        foreach (ColorCriterion criterion in (ColorCriterion[])[ColorCriterion.AcceptableMatch, ColorCriterion.AcceptableMatchCielab])
        {
            foreach (MaskingReference reference in References)
            {
                foreach (double stump in (double[])[0, 0.015])
                {
                    MaskingResult result = MaskingThickness.Find(
                        Crown, 1, (0.2, 5), reference, criterion, TwoLights with { StumpStandardUncertainty = stump });
                    double mm = result.Limiting.ThicknessMm, variance = 0;
                    double Of(Material made, double shift, double atMm)
                    {
                        LayerStack stack = new([Crown.Layers[0], new Layer(made, atMm), Crown.Layers[2]], Dark.Shifted(shift));
                        return DifferenceOf(stack, shift == 0 ? stack : stack.WithSubstrate(Dark), reference, criterion, result.Limiting.Colorimeter);
                    }

                    void Add(Func<int, Material> made, double shift = 0) => variance += Math.Pow(Of(made(1), shift, mm) - Of(made(-1), -shift, mm), 2) / 4;

                    for (int i = 0; i < 4; i++)
                    {
                        double uK = Noise.AbsorptionPerMm[i], uS = Noise.ScatteringPerMm[i], rho = Noise.Correlation[i];
                        Add(sign => Moved(Body, i, sign * uK, sign * rho * uS));
                        Add(sign => Moved(Body, i, 0, sign * Math.Sqrt(1 - (rho * rho)) * uS));
                    }

                    Add(sign => Dense("scaled", 1, 1 + (0.01 * sign)).Material);
                    Add(_ => Body, stump);
                    Assert.Equal(1, result.DifferenceStandardUncertainty / Math.Sqrt(variance), 1e-9);
                    if (result.Outcome == MaskingOutcome.MaskedFrom)
                    {
                        double slope = (Of(Body, 0, mm + 1e-4) - Of(Body, 0, mm - 1e-4)) / 2e-4;
                        Assert.Equal(1, result.ThicknessStandardUncertaintyMm!.Value * Math.Abs(slope) / Math.Sqrt(variance), 1e-6);
                    }
                }
            }
        }
    }

    /// <summary>
    /// The same sum for the prediction, where the thicknesses, scales and indices of all layers count too. Small uncertainties, so that the linear parts of the
    /// model and the moves here differ by their third order only.
    /// </summary>
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    public void Every_input_contributes_the_square_of_its_own_change(int which)
    {
        MaskingReference reference = References[which];
        ColorCriterion criterion = ColorCriterion.AcceptableMatch;
        ViewingConditions oneLight = TwoLights with { Colorimeters = [Colorimeter.ATwoDegree] };
        CoefficientUncertainty small = new([0.0004, 0.0003, 0.0002, 0.0001], [0.003, 0.005, 0.004, 0.002], [0.3, -0.4, 0.6, 0], 0.001);
        Material glaze = new("glaze", Glaze.Absorption, Glaze.Scattering, 1.48, small), body = new("body", Body.Absorption, Body.Scattering, 1.53, small), film = new("film", Film.Absorption, Film.Scattering, 1.5, small);
        LayerStack stack = new([new Layer(glaze, 0.1), new Layer(body, 1.2), new Layer(film, 0.05)], Dark);
        InputUncertainty inputs = new([0.001, 0.004, 0.002]) { StumpReflectance = 0.002, TargetColor = 0.01, RefractiveIndex = 0.001 };
        UncertaintyResult result = PredictionUncertainty.FirstOrder(stack, 1, reference, criterion, inputs, oneLight);

        Dictionary<string, double> squares = [];
        void Add(string input, Func<int, LayerStack> move, double byTargetL = 0, double byTargetA = 0, double byTargetB = 0, bool isStump = false)
        {
            double At(int sign)
            {
                LayerStack moved = move(sign);
                Lab target = ReferenceOf(isStump ? stack : moved, reference, Colorimeter.ATwoDegree);
                return criterion.Difference(
                    new Lab(target.L + (sign * byTargetL), target.A + (sign * byTargetA), target.B + (sign * byTargetB)), Colorimeter.ATwoDegree.ToLab(moved.Reflectance()));
            }

            squares[input] = squares.GetValueOrDefault(input) + (Math.Pow(At(1) - At(-1), 2) / 4);
        }

        LayerStack With(int layer, Func<Material, Material>? material, double mm) => new(
            stack.Layers.Select((item, j) => j == layer ? new Layer(material is null ? item.Material : material(item.Material), mm) : item), Dark);
        for (int layer = 0; layer < 3; layer++)
        {
            (Material of, double mm) = (stack.Layers[layer].Material, stack.Layers[layer].ThicknessMm);
            double u = inputs.LayerThicknessMm[layer];
            Add($"thickness of {of}", sign => With(layer, null, mm + (sign * u)));
            Add($"scale of K and S of {of}", sign => With(layer, null, mm * (1 + (0.001 * sign))));
            Add($"refractive index of {of}", sign => With(layer, m => new Material("moved", m.Absorption, m.Scattering, m.RefractiveIndex.Constant + (0.001 * sign)), mm));
            for (int i = 0; i < 4; i++)
            {
                double uK = small.AbsorptionPerMm[i], uS = small.ScatteringPerMm[i], rho = small.Correlation[i];
                Add($"reading noise of {of}", sign => With(layer, m => Moved(m, i, sign * uK, sign * rho * uS), mm));
                Add($"reading noise of {of}", sign => With(layer, m => Moved(m, i, 0, sign * Math.Sqrt(1 - (rho * rho)) * uS), mm));
            }
        }

        Add("reading of the stump", sign => stack.WithSubstrate(Dark.Shifted(0.002 * sign)), isStump: true);
        if (reference == Neighbour)
        {
            Add("reading of the target", _ => stack, byTargetL: 0.01);
            Add("reading of the target", _ => stack, byTargetA: 0.01);
            Add("reading of the target", _ => stack, byTargetB: 0.01);
        }

        double total = squares.Values.Sum();
        Assert.Equal(criterion.Difference(ReferenceOf(stack, reference, Colorimeter.ATwoDegree), Colorimeter.ATwoDegree.ToLab(stack.Reflectance())), result.Difference, 1e-9);
        Assert.Equal(1, result.StandardUncertainty / Math.Sqrt(total), 2e-3);
        Assert.Equal(1, result.Contributions.Sum(item => item.Share), 1e-9);
        Assert.Equal(result.Contributions.OrderByDescending(item => item.Share), result.Contributions);
        foreach ((string input, double square) in squares.Where(item => item.Value > 1e-6 * total))
        {
            Contribution found = result.Contributions.Single(item => item.Input == input);
            Assert.Equal(square / total, found.Share, 2e-3);

            // The smallest directions of reading noise are left out, which shows where the larger ones nearly cancel.
            Assert.InRange(Math.Abs(found.DifferenceHigh - found.DifferenceLow) / (2 * Math.Sqrt(square)), 0.96, 1.02);
            Assert.Equal(result.Difference, (found.DifferenceLow + found.DifferenceHigh) / 2, 0.02 * Math.Sqrt(square) + 1e-6);
        }

        Assert.All(result.Contributions, item => Assert.Contains(item.Input, squares.Keys));
    }

    /// <summary>A normal difference: probabilities by its distribution function, the interval by its 1.96 standard deviations; without uncertainty it is sure.</summary>
    [Fact]
    public void First_order_takes_the_difference_as_normal()
    {
        LayerStack stack = new([new Layer(Glaze, 0.1), new Layer(Plain, 1.2)], Dark);
        foreach (ColorDifferenceFormula formula in Enum.GetValues<ColorDifferenceFormula>())
        {
            (double acceptable, double imperceptible) = formula == ColorDifferenceFormula.Cie76 ? (2.7, 1.2) : (1.8, 0.8);
            Lab near = Colorimeter.D65TwoDegree.ToLab(stack.Reflectance());
            MaskingReference target = MaskingReference.Target("near", near with { L = near.L + 1.5 }, Colorimeter.D65TwoDegree);
            UncertaintyResult result = PredictionUncertainty.FirstOrder(
                stack, 1, target, new ColorCriterion("own", formula, 1.1, "this test"), new InputUncertainty([0.02, 0.05]), new ViewingConditions());
            double u = result.StandardUncertainty, nominal = result.Difference;
            Assert.Equal(nominal, result.MeanDifference);
            Assert.InRange(u, 0.1, 1);
            foreach ((double limit, Probability found) in ((double, Probability)[])[(1.1, result.Meets), (acceptable, result.Acceptable), (imperceptible, result.Imperceptible)])
            {
                Assert.Equal((1 + MathNet.Numerics.SpecialFunctions.Erf((limit - nominal) / (u * Math.Sqrt(2)))) / 2, found.Value, 1e-9);
                Assert.Equal(0, found.StandardError);
            }

            Assert.Equal(Math.Max(0, nominal - (1.959964 * u)), result.Interval95.Low, 1e-12);
            Assert.Equal(nominal + (1.959964 * u), result.Interval95.High, 1e-12);
            Assert.Contains(result.Cautions, caution => caution.Text == "The uncertainty of K and S of 'plain' is not known and not included.");
            Assert.Contains(result.Cautions, caution => caution.Kind == CautionKind.ShortSpectrum);

            InputUncertainty none = new([0, 0]) { StumpReflectance = 0, RefractiveIndex = 0, TargetColor = 0 };
            UncertaintyResult sure = PredictionUncertainty.FirstOrder(stack, 1, target, new ColorCriterion("own", formula, nominal, "this test"), none);
            Assert.Equal((0, 1), (sure.StandardUncertainty, sure.Meets.Value));
            Assert.Empty(sure.Contributions);
            Assert.Equal(0, PredictionUncertainty.FirstOrder(stack, 1, target, new ColorCriterion("own", formula, 0.99 * nominal, "this test"), none).Meets.Value);
        }
    }

    /// <summary>
    /// The closed form of three equal normal offsets (Maxwell's distribution, chi with three degrees of freedom): mean 1.5958, deviation 0.6734, 2.5 % and
    /// 97.5 % points 0.4645 and 3.0575 times the standard deviation of one (tables of chi-square: 0.2158 and 9.3484).
    /// </summary>
    [Fact]
    public void Sampling_finds_the_distribution_of_a_distance()
    {
        const double U = 0.9;
        LayerStack stack = new([new Layer(Plain, 1)], Dark);
        MaskingReference target = MaskingReference.Target("itself", Colorimeter.D65TwoDegree.ToLab(stack.Reflectance()), Colorimeter.D65TwoDegree);
        InputUncertainty inputs = new([0]) { StumpReflectance = 0, RefractiveIndex = 0, TargetColor = U };
        UncertaintyResult result = PredictionUncertainty.Sample(
            stack, 0, target, new ColorCriterion("own", ColorDifferenceFormula.Cie76, 1.5, "this test"), inputs, samples: 20000);
        Assert.Equal(20000, result.Samples);
        Assert.Equal(1.5958 * U, result.MeanDifference, 0.005);
        Assert.Equal(0.6734 * U, result.StandardUncertainty, 0.005);
        Assert.Equal(0.4645 * U, result.Interval95.Low, 0.01);
        Assert.Equal(3.0575 * U, result.Interval95.High, 0.03);
        foreach ((double limit, Probability found) in ((double, Probability)[])[(1.5, result.Meets), (2.7, result.Acceptable), (1.2, result.Imperceptible)])
        {
            double x = limit / U;
            double expected = MathNet.Numerics.SpecialFunctions.Erf(x / Math.Sqrt(2)) - (Math.Sqrt(2 / Math.PI) * x * Math.Exp(-x * x / 2));
            Assert.Equal(expected, found.Value, 0.006);
            Assert.InRange(found.StandardError, 1e-5, 0.004);
        }

        Contribution only = Assert.Single(result.Contributions);
        Assert.Equal(("reading of the target", 1), (only.Input, only.Share));
        Assert.Equal(0, only.DifferenceLow, 1e-9);
    }

    /// <summary>Mean and standard error of sixteen replicates by hand: for 1 to 16, mean 8.5 and variance 340/15; a mean above 1 is rounding and shown as 1.</summary>
    [Fact]
    public void Standard_error_is_that_of_the_replicates()
    {
        Probability found = PredictionUncertainty.Of([.. Enumerable.Range(1, 16).Select(i => i / 100.0)]);
        Assert.Equal(0.085, found.Value, 1e-12);
        Assert.Equal(Math.Sqrt(340.0 / 15 / 16) / 100, found.StandardError, 1e-12);
        Assert.Equal(1, PredictionUncertainty.Of([.. Enumerable.Repeat(1 + 1e-15, 16)]).Value);
    }

    /// <summary>Points of a sequence are evenly spread: mean, variance and a tail of 4,096 points closer to their limits than the spread of random ones (0.016, 0.022, 0.006); replicates differ.</summary>
    [Fact]
    public void Points_of_a_sequence_are_normal_and_even()
    {
        NormalSequence sequence = new(4, 4090, seed: 5);
        Assert.Equal((256, 4096), (sequence.PerReplicate, sequence.Count));
        double[][] points = [.. Enumerable.Range(0, sequence.Count).Select(_ =>
        {
            double[] point = new double[4];
            sequence.Next(point);
            return point;
        })];
        for (int j = 0; j < 4; j++)
        {
            Assert.Equal(0, points.Average(point => point[j]), 0.01);
            Assert.Equal(1, points.Average(point => point[j] * point[j]), 0.02);
            Assert.Equal(0.158655, points.Count(point => point[j] < -1) / 4096.0, 0.004);
            for (int other = 0; other < j; other++)
            {
                Assert.Equal(0, points.Average(point => point[j] * point[other]), 0.03);
            }
        }

        Assert.NotEqual(points[0][0], points[256][0], 1e-3);
        double Uniform(double normal) => Normal.CDF(0, 1, normal);

        // SplitMix64 gives 6457827717110365317, 3203168211198807973, 9817491932198370423 for the seed 1234567 (widely printed, from memory); divided by 2^64 these
        // are the shifts of the first sequence, and the first point lies one step from them.
        double[] first = new double[3];
        new NormalSequence(3, 256, 1234567).Next(first);
        (ulong Number, double Step)[] published = [(6457827717110365317, Math.Sqrt(2) - 1), (3203168211198807973, Math.Sqrt(3) - 1), (9817491932198370423, Math.Sqrt(5) - 2)];
        Assert.Equal(published.Select(item => ((item.Number / Math.Pow(2, 64)) + item.Step) % 1), first.Select(Uniform), (one, other) => Math.Abs(one - other) < 1e-9);

        // Richtmyer: the step of the first dimension is the fraction of the root of 2.
        double step = Uniform(points[1][0]) - Uniform(points[0][0]);
        Assert.Equal(Math.Sqrt(2) - 1, step < 0 ? step + 1 : step, 1e-6);
        step = Uniform(points[1][3]) - Uniform(points[0][3]);
        Assert.Equal(Math.Sqrt(7) - 2, step < 0 ? step + 1 : step, 1e-6);
    }

    /// <summary>The thickness that a share of pieces needs, against sampling at that thickness and a little below; only inputs that do not depend on it.</summary>
    [Fact]
    public void A_tolerance_is_the_thinnest_that_samples_accept()
    {
        Material plain = new("plain", Body.Absorption, Body.Scattering, 1.53, CoefficientUncertainty.OfScale(Grid, 0.03));
        LayerStack stack = new([new Layer(plain, 1), new Layer(Film, 0.05)], Dark);
        InputUncertainty inputs = new([0.05, 0.01]) { StumpReflectance = 0.02, RefractiveIndex = 0 };
        ColorCriterion criterion = ColorCriterion.AcceptableMatch;
        ToleranceResult Find(double min, double max, double share = 0.9, double? structural = null) => ToleranceThickness.Find(
            stack, 0, (min, max), MaskingReference.SelfBacked, criterion, inputs, TwoLights with { StructuralMinimumMm = structural }, share, 512);
        Probability At(double mm) => PredictionUncertainty.Sample(stack.WithThickness(0, mm), 0, MaskingReference.SelfBacked, criterion, inputs, TwoLights, 512).Meets;
        ToleranceResult free = Find(0.5, 3);
        double optical = free.OpticalMinimumMm!.Value;
        Assert.True(At(optical).Value >= 0.9);
        Assert.True(At(optical - 0.0011).Value < 0.9);
        Assert.Equal(At(optical), free.Reached);
        Assert.Equal((optical, 0.9), (free.RecommendedMinimumMm, free.Share));
        Assert.Equal(FormattableString.Invariant($"{Math.Ceiling(100 * optical) / 100:0.00} mm or more, for 90 % of pieces"), free.ToString());
        Assert.True(Find(0.5, 3, 0.99).OpticalMinimumMm > optical);
        Assert.Contains(free.Cautions, caution => caution.Kind == CautionKind.ToothReduction);
        Assert.DoesNotContain(free.Cautions, caution => caution.Kind == CautionKind.StructuralMinimumGoverns);

        ToleranceResult strong = Find(0.5, 3, 0.9, optical + 0.2);
        Assert.Equal((optical, optical + 0.2), (strong.OpticalMinimumMm, strong.RecommendedMinimumMm));
        Assert.Equal(At(optical + 0.2), strong.Reached);
        Assert.Contains(strong.Cautions, caution => caution.Kind == CautionKind.StructuralMinimumGoverns);
        Assert.Null(Find(0.5, 3, 0.9, 3.1).RecommendedMinimumMm);
        Assert.Equal(3, Find(0.5, 3, 0.9, 3).RecommendedMinimumMm);
        Assert.Equal(optical + 0.3, Find(optical + 0.3, 3).OpticalMinimumMm);

        ToleranceResult never = Find(0.5, optical - 0.3);
        Assert.Equal((null, null), (never.OpticalMinimumMm, never.RecommendedMinimumMm));
        Assert.Equal(At(optical - 0.3), never.Reached);
        Assert.Equal(FormattableString.Invariant($"no thickness of the range is enough for 90 % of pieces; at its end {100 * never.Reached.Value:0} % meet the criterion"), never.ToString());
    }

    /// <summary>Ceramics that mask come first, the most translucent leading; the others follow by their worst zone. The zone with the least to spare limits.</summary>
    [Fact]
    public void Grades_are_ranked_by_translucency_and_then_by_what_is_missing()
    {
        Ceramic[] ceramics = [.. ((double[])[4, 1, 9, 2, 6, 3]).Select((factor, i) => Dense("made up", i + 1, factor))];
        RestorationCase restoration = new(
            [new Zone("neck", Good, 0.5, MaskingReference.SelfBacked), new Zone("body", Dark, 0.9, MaskingReference.SelfBacked)], ColorCriterion.AcceptableMatch)
        {
            LayersBelow = [new Layer(Film, 0.05)], Conditions = TwoLights, RangeMm = (0.2, 3),
        };
        GradeRanking ranking = GradeChoice.Rank(ceramics, restoration);
        GradeAssessment[] masking = [.. ranking.Assessments.TakeWhile(item => item.Masks)], others = [.. ranking.Assessments.Skip(masking.Length)];
        Assert.InRange(masking.Length, 2, 4);
        Assert.All(others, item => Assert.False(item.Masks));
        Assert.Equal(masking.OrderByDescending(item => item.Translucency), masking);
        Assert.Equal(others.OrderBy(item => item.WorstDifference), others);
        Assert.Same(masking[0], ranking.Recommended);
        foreach (GradeAssessment assessment in ranking.Assessments)
        {
            double Worst(double mm, Substrate under) => WorstSelfBacked(new LayerStack([new Layer(assessment.Ceramic.Material, mm), new Layer(Film, 0.05)], under), 0);
            double[] differences = [Worst(0.5, Good), Worst(0.9, Dark)];
            Assert.Equal(differences[0], assessment.Zones[0].AtAvailable.Difference, 1e-9);
            Assert.Equal(differences[1], assessment.Zones[1].AtAvailable.Difference, 1e-9);
            Assert.Equal(differences.Max(), assessment.WorstDifference, 1e-9);
            Assert.Equal(differences.All(value => value <= 1.8), assessment.Masks);
            double?[] margins = [0.5 - assessment.Zones[0].Masking.RecommendedMinimumMm, 0.9 - assessment.Zones[1].Masking.RecommendedMinimumMm];
            Assert.Equal(margins, assessment.Zones.Select(zone => zone.MarginMm));
            int limiting = margins[0] is null && margins[1] is null ? (differences[0] >= differences[1] ? 0 : 1) : (margins[0] ?? -1) <= (margins[1] ?? -1) ? 0 : 1;
            Assert.Same(assessment.Zones[limiting], assessment.LimitingZone);
            Assert.Equal(Translucency(new Layer(assessment.Ceramic.Material, 0.5)), assessment.Translucency, 1e-9);
        }

        Assert.Null(GradeChoice.Rank(ceramics.Skip(1).Take(1), restoration).Recommended);
    }

    /// <summary>Least to spare limits; without a minimum there is less than nothing to spare, and among such zones the largest difference limits.</summary>
    [Fact]
    public void The_zone_with_the_least_to_spare_limits()
    {
        MaskingResult result = MaskingThickness.Find(Crown, 1, (0.2, 5), MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch, TwoLights);
        ZoneAssessment Zone(string name, double? spareMm, double difference) => new(
            new Zone(name, Dark, 1, MaskingReference.SelfBacked), result with { RecommendedMinimumMm = 1 - spareMm }, result.Limiting with { Difference = difference });
        string Limiting(params ZoneAssessment[] zones) => new GradeAssessment(Dense("made up", 1, 1), zones, 10).LimitingZone.Zone.Name;
        Assert.Equal("b", Limiting(Zone("a", 0.3, 5), Zone("b", 0.1, 1), Zone("c", 0.2, 3)));
        Assert.Equal("a", Limiting(Zone("a", null, 1), Zone("b", -0.5, 4), Zone("c", 0.2, 3)));
        Assert.Equal("c", Limiting(Zone("a", null, 1), Zone("b", null, 2), Zone("c", null, 3)));
    }

    [Fact]
    public void Cautions_name_what_was_assumed()
    {
        Substrate estimated = Substrate.FromMeasuredColor("chairside", new Lab(45, 5, 15), Colorimeter.D65TwoDegree, Grid, 1.54);
        MaskingReference wish = MaskingReference.Target("wish", new Lab(70, 3, 15), Colorimeter.D65TwoDegree);
        string[] texts = [.. MaskingThickness.Find(new LayerStack([new Layer(Plain, 1)], estimated), 0, (0.5, 2), wish, ColorCriterion.AcceptableMatch, TwoLights).Cautions.Select(caution => caution.Text)];
        Assert.Contains("The uncertainty of K and S of 'plain' is not known, so none is stated for the thickness.", texts);
        Assert.Contains("'chairside' is known by its colour only; its smoothest spectrum was used, and the real one differs.", texts);
        Assert.Contains("'wish' is known as L*a*b* only; under other illuminants its smoothest spectrum was used, and metamers of it differ.", texts);
        Assert.Contains(texts, text => text.StartsWith("Masking is not strength: the minimum thickness for strength", StringComparison.Ordinal));
        Assert.Contains(texts, text => text.StartsWith("How much tooth may be removed to make room", StringComparison.Ordinal));

        // 400 to 700 nm at 100 nm: what rests on held ends is largest for X under A (red), of which D65 has less.
        double held = TwoLights.Colorimeters.Max(light => light.Weighting(Grid).HeldFraction);
        Assert.NotEqual(held, TwoLights.Colorimeters.Min(light => light.Weighting(Grid).HeldFraction));
        Assert.Contains(FormattableString.Invariant($"Spectra end before 380 or 780 nm; end values were held, for up to {100 * held:0.0} % of a tristimulus value."), texts);

        WavelengthGrid full = WavelengthGrid.Range(380, 780, 20);
        Material whole = new("whole", AbsorptionSpectrum.Uniform(full, 0.1), ScatteringSpectrum.Uniform(full, 3), 1.5, CoefficientUncertainty.OfScale(full, 0.01));
        MaskingResult clean = MaskingThickness.Find(
            new LayerStack([new Layer(whole, 1)], Substrate.Black), 0, (0.5, 2), MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch, new ViewingConditions { ChecksModel = false });
        Assert.Equal([CautionKind.StrengthNotAssessed, CautionKind.ToothReduction], clean.Cautions.Select(caution => caution.Kind));
        Assert.NotNull(MaskingThickness.Find(new LayerStack([new Layer(whole, 1)], Substrate.Black), 0, (0.5, 2), MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch).ModelDeparture);
    }

    private static double WorstAt(MaskingReference reference, ColorCriterion criterion, double mm)
    {
        LayerStack stack = Crown.WithThickness(1, mm);
        return Lights.Max(light => DifferenceOf(stack, stack, reference, criterion, light));
    }

    private static double DifferenceOf(LayerStack stack, LayerStack forReference, MaskingReference reference, ColorCriterion criterion, Colorimeter light) =>
        criterion.Difference(ReferenceOf(forReference, reference, light), light.ToLab(stack.Reflectance()));

    private static Lab ReferenceOf(LayerStack stack, MaskingReference reference, Colorimeter light) => light.ToLab(
        reference == MaskingReference.SelfBacked ? stack.Sweep(1).InfiniteReflectance() : reference == Neighbour ? Neighbour.Spectrum! : stack.WithSubstrate(Good).Reflectance());

    private static T Values<T>(Random random, double from, double to, Func<double[], T> make) =>
        make([.. Enumerable.Range(0, 4).Select(_ => from * Math.Pow(to / from, random.NextDouble()))]);

    private static IEnumerable<double[]> Corners(double[] one, double[] other) =>
        Enumerable.Range(0, 16).Select(corner => one.Select((value, i) => ((corner >> i) & 1) == 0 ? value : other[i]).ToArray());
}
