using CeramicOptics.Characterization;
using CeramicOptics.Decisions.Appearance;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Restorations;
using static CeramicOptics.Tests.WallData;

namespace CeramicOptics.Tests.Unit;

/// <summary>Light that passes, translucency and opalescence, with uncertainties.</summary>
public class AppearanceTests
{
    private const MeasurementGeometry Geometry = MeasurementGeometry.DiffuseSpecularIncluded;

    private static readonly AppearanceOptions Options = new(Colorimeter.D65TwoDegree, Geometry);

    public static TheoryData<string> Theories => WallData.Models;

    /// <summary>
    /// A slab that only absorbs, by hand. Two-flux: diffuse light inside, T = (1 - F)(1 - b) e / (1 - b² e²),
    /// e = exp(-K t), b the diffuse internal reflectance. Radiative transfer takes K without S as μa = K/2 with reduced
    /// scattering K/6, so T lies between that of the straight beam, T = (1 - F)² e / (1 - F² e²) with
    /// e = exp(-2/3 K t), and that of absorption alone, e = exp(-K t / 2); both are one for K = 0.
    /// </summary>
    [Theory]
    [InlineData(0.0, 1.0, 1.5)]
    [InlineData(0.4, 1.0, 1.5)]
    [InlineData(3.0, 0.7, 1.53)]
    [InlineData(1.0, 2.0, 2.15)]
    [InlineData(20.0, 1.0, 1.33)]
    public void A_clear_slab_passes_what_the_closed_form_says(double k, double mm, double index)
    {
        double f = Math.Pow((index - 1) / (index + 1), 2);
        double Beam(double e) => (1 - f) * (1 - f) * e / (1 - (f * f * e * e));
        Assert.InRange(
            Free(TransportModel.Default, k, mm, index), Beam(Math.Exp(-2 * k * mm / 3)) - 2e-6,
            Beam(Math.Exp(-k * mm / 2)) + 2e-6);
        double b = DiffuseInside(index), d = Math.Exp(-k * mm);
        Assert.Equal((1 - f) * (1 - b) * d / (1 - (b * b * d * d)), Free(TwoFluxModel.Instance, k, mm, index), 1e-7);
    }

    /// <summary>Results say that K and S are those of two-flux theory, once for stacks of the same layers.</summary>
    [Theory]
    [MemberData(nameof(Theories))]
    public void Two_flux_constants_are_said(string model)
    {
        WallData data = Coarse(model);
        UncertainStack Stack(double mm) => new(new LayerStack([new Layer(data.Body, mm)], data.Dark), [0.02]);
        foreach (IReadOnlyList<Caution> cautions in new[]
        {
            StackAppearance.Find(Stack(0.8), Options).Cautions,
            StackAppearance.FindDifference(Stack(0.8), Stack(1.2), Options).Cautions,
        })
        {
            Caution[] theory = [.. cautions.Where(caution => caution.Kind == CautionKind.TwoFluxTheory)];
            Assert.Equal(data.Body.Model is TwoFluxModel ? 1 : 0, theory.Length);
            Assert.All(theory, caution => Assert.StartsWith(
                $"K and S of '{data.Body.Name}' are constants of two-flux theory.", caution.ToString(),
                StringComparison.Ordinal));
        }
    }

    /// <summary>
    /// What neither absorbs nor is lost comes back: reflected over black in air and passed make all light; with
    /// absorption less; and light passes alike both ways.
    /// </summary>
    [Theory]
    [MemberData(nameof(Theories))]
    public void Light_is_neither_made_nor_lost(string model)
    {
        WallData data = Coarse(model);
        Material clear = With(
            data.Body, new double[4], data.Body.Scattering.Values.ToArray(), data.Body.RefractiveIndex);
        LayerStack white = new([new Layer(clear, 0.8), new Layer(With(
            data.Film, new double[4], [2, 1.5, 1, 0.5], 1.5), 0.3)], Substrate.Black, CouplingMedium.Air);
        LayerStack turned = new(white.Layers.Reverse(), Substrate.Black, CouplingMedium.Air);
        LayerStack body = new([new Layer(data.Body, 0.8)], Substrate.Black, CouplingMedium.Air);
        for (int i = 0; i < 4; i++)
        {
            double diffuse = white.Transmittance(MeasurementGeometry.DiffuseDiffuse)[i];
            Assert.Equal(1, white.Reflectance(MeasurementGeometry.DiffuseDiffuse)[i] + diffuse, 1e-6);
            Assert.Equal(diffuse, turned.Transmittance(MeasurementGeometry.DiffuseDiffuse)[i], 1e-6);
            Assert.InRange(
                body.Reflectance(MeasurementGeometry.DiffuseDiffuse)[i]
                    + body.Transmittance(MeasurementGeometry.DiffuseDiffuse)[i], 0.2, 0.999);

            // What lies below the stack as given does not count.
            Assert.Equal(white.FreeTransmittance()[i], new LayerStack(white.Layers, data.Good).FreeTransmittance()[i]);
        }
    }

    /// <summary>The reading of a free disc that a characterization would expect is the free transmittance.</summary>
    [Theory]
    [MemberData(nameof(Theories))]
    public void The_free_transmittance_is_what_a_disc_reads(string model)
    {
        WallData data = Coarse(model);
        LayerStack disc = new([new Layer(data.Plain, 0.6)], Substrate.Black, CouplingMedium.Air);
        CharacterizationResult found = DiscCharacterization.Find(
            new DiscSet("disc", data.Plain.RefractiveIndex,
            [
                DiscReading.Transmittance("through", 0.6, disc.FreeTransmittance(), ReadingArea.Large),
                DiscReading.Reflectance("over black", 0.6, disc.Reflectance(), new Backing(
                    Substrate.Black, CouplingMedium.Air), MeasurementGeometry.DiffuseSpecularIncluded,
                        ReadingArea.Large),
            ]), new CharacterizationOptions { Model = ModelOf(model) });
        for (int i = 0; i < 4; i++)
        {
            Assert.Equal(data.Plain.Scattering[i], found.ToMaterial().Scattering[i], 1e-3);
        }
    }

    /// <summary>
    /// JCGM 101 by brute force: the whole stack is built again with pseudo-random inputs, 4,000 times. Standard
    /// uncertainties agree within 6 %: 2 standard errors of a standard deviation of so many are 2.2 %, the rest is what
    /// second order and the coarse form of the theory leave.
    /// </summary>
    [Theory]
    [InlineData("two-flux", 4000)]
    [InlineData("transport", 300)]
    public void Uncertainties_equal_those_of_brute_force(string model, int samples)
    {
        WallData data = Coarse(model);
        UncertainStack stack = new(
            new LayerStack([new Layer(data.Enamel, 0.4), new Layer(data.Body, 0.8)], data.Dark), [0.02, 0.03], Inputs);
        AppearanceResult result = StackAppearance.Find(stack, Options);
        Random random = new(11);
        List<double[]> drawn = [];
        for (int n = 0; n < samples; n++)
        {
            Layer[] layers = [Drawn(data.Enamel, 0.4, 0.02, random), Drawn(data.Body, 0.8, 0.03, random)];
            double shift = 0.01 * Gauss(random);
            Lab own = Lab(new LayerStack(layers, Shifted(data, shift)).Reflectance());
            LayerStack over = new(layers, Substrate.Black);
            ReflectanceSpectrum black = over.Reflectance(), white = over.WithSubstrate(Substrate.White).Reflectance();
            Lab through = Colorimeter.D65TwoDegree.ToLab(over.FreeTransmittance());
            drawn.Add(
            [
                own.L, own.A, own.B, through.L, Translucency.Parameter(Lab(black), Lab(white)),
                Translucency.Parameter00(Lab(black), Lab(white)),
                Translucency.ContrastRatio(Y(black), Y(white)), ColorIndices.Opalescence(through, Lab(black)),
            ]);
        }

        UncertainValue[] stated =
        [
            result.Color.L, result.Color.A, result.Color.B, result.Transmitted.L, result.TranslucencyParameter,
            result.TranslucencyParameter00, result.ContrastRatio, result.Opalescence,
        ];
        double tolerance = 0.04 + (2 / Math.Sqrt(2.0 * samples));
        for (int f = 0; f < stated.Length; f++)
        {
            double mean = drawn.Average(values => values[f]);
            double u = Math.Sqrt(drawn.Sum(values => Math.Pow(values[f] - mean, 2)) / (samples - 1));
            Assert.Equal(u, stated[f].StandardUncertainty, tolerance * u);
            Assert.Equal(mean, stated[f].Mean, 4 * u / Math.Sqrt(samples) + (0.05 * u));
            Assert.InRange(stated[f].Value, stated[f].Interval95.Low, stated[f].Interval95.High);
        }
    }

    /// <summary>Stacks that share a material and a stump: brute force as above, with shared draws.</summary>
    [Fact]
    public void The_difference_of_two_stacks_knows_what_they_share()
    {
        WallData data = Coarse("two-flux");
        UncertainStack Of(double mm) =>
            new(new LayerStack([new Layer(data.Body, mm)], data.Dark), [0.03], Inputs);
        StackDifference result = StackAppearance.FindDifference(
            Of(0.8), Of(1.3), Options, ColorDifferenceFormula.Cie76);
        Random random = new(12);
        List<double> drawn = [];
        for (int n = 0; n < 4000; n++)
        {
            Material material = Drawn(data.Body, random, out double scale);
            Substrate stump = Shifted(data, 0.01 * Gauss(random));
            Lab At(double mm) => Lab(new LayerStack(
                [new Layer(material, (mm + (0.03 * Gauss(random))) * scale)], stump).Reflectance());
            drawn.Add(ColorDifference.Cie76(At(0.8), At(1.3)));
        }

        double mean = drawn.Average(), u = Math.Sqrt(drawn.Sum(value => Math.Pow(value - mean, 2)) / 3999);
        Assert.Equal(u, result.Difference.StandardUncertainty, 0.06 * u);
        Assert.Equal(mean, result.Difference.Mean, 0.06 * u);
        StackDifference same = StackAppearance.FindDifference(
            new UncertainStack(new LayerStack([new Layer(data.Body, 0.8)], data.Dark), [0], Inputs),
            new UncertainStack(new LayerStack([new Layer(data.Body, 0.8)], data.Dark), [0], Inputs), Options);
        Assert.Equal(0, same.Difference.StandardUncertainty, 1e-9);
    }

    /// <summary>
    /// An opaque stack has contrast ratio 1 and TP 0; a clear one over ideal backings nearly 0 and 100.
    /// </summary>
    [Fact]
    public void Ends_of_the_scales_are_met()
    {
        WallData data = Coarse("two-flux");
        AppearanceResult Of(double scattering, MeasurementGeometry geometry) => StackAppearance.Find(
            new UncertainStack(
                new LayerStack(
                    [new Layer(With(data.Plain, new double[4], [.. Enumerable.Repeat(scattering, 4)], 1.5), 1)],
                    data.Dark), [0], Sure), new AppearanceOptions(Colorimeter.D65TwoDegree, geometry));
        AppearanceResult opaque = Of(1e5, Geometry), clear = Of(0, MeasurementGeometry.Internal);
        Assert.Equal(1, opaque.ContrastRatio.Value, 1e-3);
        Assert.Equal(0, opaque.TranslucencyParameter.Value, 0.1);
        Assert.Equal(0, opaque.LuminousTransmittance.Value, 1e-3);
        Assert.Equal(0, clear.ContrastRatio.Value, 1e-12);
        Assert.Equal(100, clear.TranslucencyParameter.Value, 1e-6);
        Assert.Equal(0, clear.Opalescence.Value, 1e-6);
        Assert.Equal(0, clear.TranslucencyParameter.StandardUncertainty, 1e-9);
    }

    /// <summary>
    /// An error of one cause moves K and S at all wavelengths together: with nothing else uncertain, the standard
    /// uncertainty of L* and b* is half of what lies between the colours with the whole cause added and taken away.
    /// </summary>
    [Theory]
    [MemberData(nameof(Theories))]
    public void An_error_that_all_wavelengths_share_moves_the_colour(string model)
    {
        WallData data = Coarse(model);
        double[] k = data.Plain.Absorption.Values.ToArray(), s = data.Plain.Scattering.Values.ToArray(),
            byK = [0.05, 0.01, 0.003, 0.001], byS = [-0.06, -0.05, -0.05, -0.04], none = new double[4];
        Material shared = data.Make(
            "plain", 0.03, 0.27, 3, 1.53, new CoefficientUncertainty(none, none, none, 0, byK, byS));
        AppearanceResult result = StackAppearance.Find(
            new UncertainStack(new LayerStack([new Layer(shared, 0.8)], data.Dark), [0], Sure), Options);
        Lab With(int sign) => Lab(new LayerStack(
            [new Layer(
                WallData.With(
                    data.Plain, [.. k.Select((value, i) => value + (sign * byK[i]))],
                    [.. s.Select((value, i) => value + (sign * byS[i]))], 1.53), 0.8)],
            data.Dark).Reflectance());
        double l = Math.Abs(With(1).L - With(-1).L) / 2, b = Math.Abs(With(1).B - With(-1).B) / 2;
        Assert.True(l > 0.05 && b > 0.02);
        Assert.Equal(l, result.Color.L.StandardUncertainty, 0.03 * l);
        Assert.Equal(b, result.Color.B.StandardUncertainty, 0.03 * b);
    }

    /// <summary>
    /// A stack that absorbs nearly all light is as dark over white as over black, whatever the theory's own error.
    /// </summary>
    [Fact]
    public void The_contrast_ratio_of_what_is_nearly_black_stays_within_its_scale()
    {
        WallData data = Coarse("two-flux");
        Material black = With(
            data.Plain, [.. Enumerable.Repeat(500.0, 4)], [.. Enumerable.Repeat(0.1, 4)], 1.53);
        UncertainValue ratio = StackAppearance.Find(
            new UncertainStack(
                new LayerStack([new Layer(black, 1)], data.Dark), [0], Sure with { ModelColor = 1 }),
            new AppearanceOptions(Colorimeter.D65TwoDegree, MeasurementGeometry.Internal)).ContrastRatio;
        Assert.Equal(1, ratio.Value, 1e-9);
        Assert.InRange(ratio.Mean, 0, 1);
        Assert.InRange(ratio.Interval95.High, 0, 1);
        Assert.InRange(ratio.StandardUncertainty, 0, 1);
    }

    /// <summary>A restoration has the colour that its other decisions see.</summary>
    [Fact]
    public void A_restoration_is_seen_with_its_own_uncertainties()
    {
        WallData data = Coarse("two-flux");
        Restoration crown = data.Crown(Zone(data.Dark, MaskingReference.SelfBacked)) with { Uncertainty = Inputs };
        UncertainStack stack = UncertainStack.Of(crown, crown.Zones[0]);
        Assert.Equal([0.02, 0.01], stack.ThicknessStandardUncertaintiesMm);
        Lab expected = Lab(crown.StackOver(data.Dark, 1.2).Reflectance());
        Assert.Equal(expected.L, StackAppearance.Find(stack, Options).Color.L.Value, 1e-9);
    }

    private static InputUncertainty Inputs { get; } = new()
    {
        CoreMm = 0.02, CementMm = 0.01, StumpReflectance = 0.01, RefractiveIndex = 0.01, ModelColor = 0,
    };

    private static Lab Lab(ReflectanceSpectrum spectrum) => Colorimeter.D65TwoDegree.ToLab(spectrum);

    private static Xyz Y(ReflectanceSpectrum spectrum) => Colorimeter.D65TwoDegree.ToXyz(spectrum);

    private static double Free(IOpticalModel model, double k, double mm, double index)
    {
        WavelengthGrid grid = WavelengthGrid.Range(400, 700, 100);
        Material material = new(
            "clear", model, AbsorptionSpectrum.Uniform(grid, k), ScatteringSpectrum.Uniform(grid, 0), index);
        return new LayerStack([new Layer(material, mm)], Substrate.White).FreeTransmittance()[2];
    }

    // 1 less (1 less the diffuse reflectance from outside) / n², by the midpoint rule in the cosine.
    private static double DiffuseInside(double n)
    {
        const int Steps = 200_000;
        double outside = 0;
        for (int i = 0; i < Steps; i++)
        {
            double c = (i + 0.5) / Steps, t = Math.Sqrt(1 - ((1 - (c * c)) / (n * n)));
            double s = (c - (n * t)) / (c + (n * t)), p = ((n * c) - t) / ((n * c) + t);
            outside += 2 * c * ((s * s) + (p * p)) / 2 / Steps;
        }

        return 1 - ((1 - outside) / (n * n));
    }

    private static Substrate Shifted(WallData data, double by) => Substrate.FromInternalReflectance(
        "moved", new ReflectanceSpectrum(
            data.Grid, [.. Enumerable.Range(0, 4).Select(i => Math.Max(0, 0.05 + (0.15 * i / 3) + by))]), 1.54);

    private static Layer Drawn(Material material, double mm, double u, Random random)
    {
        Material drawn = Drawn(material, random, out double scale);
        return new Layer(drawn, Math.Max(0, mm + (u * Gauss(random))) * scale);
    }

    private static Material Drawn(Material material, Random random, out double scale)
    {
        CoefficientUncertainty uncertainty = material.Uncertainty!;
        double[] k = material.Absorption.Values.ToArray(), s = material.Scattering.Values.ToArray();
        for (int i = 0; i < k.Length; i++)
        {
            double one = Gauss(random), other = Gauss(random), rho = uncertainty.Correlation[i];
            k[i] = Math.Max(0, k[i] + (uncertainty.AbsorptionPerMm[i] * one));
            s[i] = Math.Max(
                0, s[i] + (uncertainty.ScatteringPerMm[i] * ((rho * one) + (Math.Sqrt(1 - (rho * rho)) * other))));
        }

        scale = 1 + (uncertainty.RelativeScale * Gauss(random));
        return With(material, k, s, material.RefractiveIndex.Constant + (0.01 * Gauss(random)));
    }
}
