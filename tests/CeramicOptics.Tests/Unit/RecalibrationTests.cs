using CeramicOptics.Characterization;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;

namespace CeramicOptics.Tests.Unit;

public class RecalibrationTests
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 50);

    public static TheoryData<IOpticalModel, IOpticalModel> Pairs => new()
    {
        { TwoFluxModel.Instance, TransportModel.Default },
        { TransportModel.Default, TwoFluxModel.Instance },
        { TransportModel.Default, new TransportModel(anisotropy: 0.7) },
    };

    /// <summary>
    /// K and S differ with the theory, colours of the material's own disc do not, and those of a disc three times as
    /// thick do.
    /// </summary>
    [Theory]
    [MemberData(nameof(Pairs))]
    public void Predictions_agree_at_the_thickness_of_the_disc(IOpticalModel from, IOpticalModel to)
    {
        Material old = Ceramic(from);
        RecalibrationResult result = Recalibration.Find(old, to, new RecalibrationOptions { DiscThicknessMm = 0.7 });
        Material found = result.Material;
        Assert.Equal((to, old.Name, old.RefractiveIndex), (found.Model, found.Name, found.RefractiveIndex));
        Assert.Equal([0.7], found.DiscThicknessesMm);
        Assert.Equal([0.7], result.DiscThicknessesMm);
        foreach (Substrate under in (Substrate[])[Substrate.Black, Substrate.White])
        {
            double Miss(double mm) =>
                Enumerable.Range(0, Grid.Count).Max(i => Math.Abs(Read(old, mm, under)[i] - Read(found, mm, under)[i]));
            Assert.InRange(Miss(0.7), 0, 1e-6);
            Assert.InRange(result.LargestResidual, Miss(0.7) - 1e-7, 1e-6);
        }

        Assert.InRange(result.LargestColorDifference!.Value, 0, 1e-3);
        Assert.All(
            Enumerable.Range(0, Grid.Count),
            i => Assert.True(Math.Abs(Math.Log(found.Scattering[i] / old.Scattering[i])) > 1e-4));
        if (from is TwoFluxModel || to is TwoFluxModel)
        {
            double away = ColorDifference.Ciede2000(
                Colorimeter.D65TwoDegree.ToLab(Read(old, 2.1, Substrate.Black)),
                Colorimeter.D65TwoDegree.ToLab(Read(found, 2.1, Substrate.Black)));
            Assert.True(away > 0.1, $"{away}");
        }
    }

    /// <summary>Rounded up, so that the words hold, to two digits or the least that is worth telling.</summary>
    [Theory]
    [InlineData(3e-10, 2e-7, "reflectance within 0.000001, colour within 0.001 CIEDE2000")]
    [InlineData(1.23e-6, 1.21e-3, "reflectance within 0.0000013, colour within 0.0013 CIEDE2000")]
    [InlineData(1.2e-4, 0.0341, "reflectance within 0.00012, colour within 0.035 CIEDE2000")]
    [InlineData(0.0995, 11.8, "reflectance within 0.1, colour within 12 CIEDE2000")]
    public void The_words_say_how_near_the_theories_are(double reflectance, double color, string words) =>
        Assert.EndsWith(words, new RecalibrationResult(
            Ceramic(TransportModel.Default), TwoFluxModel.Instance, reflectance, color).ToString());

    [Fact]
    public void There_and_back_is_where_it_began()
    {
        Material old = Ceramic(TwoFluxModel.Instance);
        RecalibrationOptions disc = new() { DiscThicknessMm = 0.7 };
        Material back = Recalibration.Find(
            Recalibration.Find(old, TransportModel.Default, disc).Material, TwoFluxModel.Instance).Material;
        for (int i = 0; i < Grid.Count; i++)
        {
            Assert.Equal(1, back.Absorption[i] / old.Absorption[i], 1e-4);
            Assert.Equal(1, back.Scattering[i] / old.Scattering[i], 1e-4);
            Assert.Equal(1, back.Uncertainty!.AbsorptionPerMm[i] / old.Uncertainty!.AbsorptionPerMm[i], 1e-2);
            Assert.Equal(old.Uncertainty.Correlation[i], back.Uncertainty.Correlation[i], 1e-2);
        }

        Assert.Equal(old.Uncertainty!.RelativeScale, back.Uncertainty!.RelativeScale);
    }

    /// <summary>
    /// Uncertainty by brute force: constants moved by one standard uncertainty along each axis of their ellipse are
    /// recalibrated too.
    /// </summary>
    [Theory]
    [InlineData(0.005, 0.05)]
    [InlineData(0.01, 0.0005)]
    public void Uncertainty_goes_with_the_constants(double ofK, double ofS)
    {
        Material old = Ceramic(TwoFluxModel.Instance, ofK, ofS), found = At(old);
        for (int i = 0; i < Grid.Count; i += 3)
        {
            double uK = old.Uncertainty!.AbsorptionPerMm[i], uS = old.Uncertainty.ScatteringPerMm[i],
                r = old.Uncertainty.Correlation[i];
            const double Step = 0.01;
            (double k1, double s1) = Change(Step * uK, Step * r * uS);
            (double k2, double s2) = Change(0, Step * Math.Sqrt(1 - (r * r)) * uS);
            double vK = ((k1 * k1) + (k2 * k2)) / (Step * Step), vS = ((s1 * s1) + (s2 * s2)) / (Step * Step);
            Assert.Equal(1, found.Uncertainty!.AbsorptionPerMm[i] / Math.Sqrt(vK), 0.01);
            Assert.Equal(1, found.Uncertainty.ScatteringPerMm[i] / Math.Sqrt(vS), 0.01);
            Assert.Equal(
                ((k1 * s1) + (k2 * s2)) / (Step * Step) / Math.Sqrt(vK * vS), found.Uncertainty.Correlation[i], 0.01);

            (double K, double S) Change(double byK, double byS)
            {
                double[] k = old.Absorption.Values.ToArray(), s = old.Scattering.Values.ToArray();
                (k[i], s[i]) = (k[i] + byK, s[i] + byS);
                Material moved = At(
                    new Material("moved", old.Model, new AbsorptionSpectrum(Grid, k), new ScatteringSpectrum(Grid, s),
                    old.RefractiveIndex));
                return (moved.Absorption[i] - found.Absorption[i], moved.Scattering[i] - found.Scattering[i]);
            }
        }

        Material At(Material material) =>
            Recalibration.Find(material, TransportModel.Default,
                new RecalibrationOptions { DiscThicknessMm = 0.7 }).Material;
    }

    [Fact]
    public void Several_discs_are_met_as_nearly_as_the_other_theory_can()
    {
        Material clear = new(
            "clear", TransportModel.Default, AbsorptionSpectrum.Uniform(Grid, 0.02),
            ScatteringSpectrum.Uniform(Grid, 0.5), 1.53, discThicknessesMm: [0.4, 2.0]);
        RecalibrationResult result = Recalibration.Find(clear, TwoFluxModel.Instance);
        double worst = 0;
        foreach (double mm in (double[])[0.4, 2.0])
        {
            foreach (Substrate under in (Substrate[])[Substrate.Black, Substrate.White])
            {
                worst = Math.Max(worst, Math.Abs(Read(clear, mm, under)[0] - Read(result.Material, mm, under)[0]));
            }
        }

        Assert.Equal(worst, result.LargestResidual, 1e-9);
        Assert.InRange(worst, 0.005, 0.1);
        Assert.True(result.LargestColorDifference > 0.3);
        Assert.Equal([0.4, 2.0], result.DiscThicknessesMm);
    }

    [Fact]
    public void What_cannot_be_recalibrated_is_said()
    {
        Material old = Ceramic(TwoFluxModel.Instance);
        Assert.StartsWith(
            "'ceramic' does not carry the thickness of its disc",
            Assert.Throws<ArgumentException>(() => Recalibration.Find(old, TransportModel.Default)).Message);
        Material opaque = new(
            "opaque", TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(Grid, 2), ScatteringSpectrum.Uniform(Grid, 60),
            1.53);
        Assert.Equal(
            "A disc of 'opaque' hides what is below it at 400 nm, so that its readings do not tell K from S; give a "
                + "thinner disc.",
            Assert.Throws<ArgumentException>(
                () => Recalibration.Find(opaque, TransportModel.Default,
                new RecalibrationOptions { DiscThicknessMm = 1 })).Message);

        RecalibrationResult same = Recalibration.Find(old, TwoFluxModel.Instance);
        Assert.Same(old, same.Material);
        Assert.Equal((0, 0.0), (same.LargestResidual, same.LargestColorDifference));

        // A range of wavelengths without a colour has no colour difference.
        WavelengthGrid green = WavelengthGrid.Range(500, 600, 50);
        Material part = new(
            "part", TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(green, 0.1), ScatteringSpectrum.Uniform(green, 3),
            1.53, discThicknessesMm: [0.7]);
        Assert.Null(Recalibration.Find(part, TransportModel.Default).LargestColorDifference);
    }

    private static ReflectanceSpectrum Read(Material material, double mm, Substrate under) => new LayerStack(
        [new Layer(material, mm)], under)
        .Reflectance();

    private static Material Ceramic(IOpticalModel model, double ofK = 0.005, double ofS = 0.05)
    {
        int n = Grid.Count;
        double[] k = [.. Enumerable.Range(0, n).Select(i => 0.04 + (0.3 * Math.Exp(-(Grid[i] - 400) / 60)))];
        double[] s = [.. Enumerable.Range(0, n).Select(i => 3 * Math.Pow(Grid[i] / 550, -1.2))];
        CoefficientUncertainty uncertainty = new(
            [.. Enumerable.Repeat(ofK, n)], [.. Enumerable.Repeat(ofS, n)],
            [.. Enumerable.Range(0, n).Select(i => 0.6 - (0.2 * i))], 0.012);
        return new Material(
            "ceramic", model, new AbsorptionSpectrum(Grid, k), new ScatteringSpectrum(Grid, s), 1.53, uncertainty);
    }
}
