using CeramicOptics.Characterization;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;

namespace CeramicOptics.Tests.Unit;

public class CoefficientFitTests
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 20);

    private static readonly Backing Black = new(
        Substrate.FromInternalReflectance("black", ReflectanceSpectrum.Uniform(Grid, 0.01), 1.5),
        CouplingMedium.Glycerine);
    private static readonly Backing Grey = new(
        Substrate.FromInternalReflectance("grey", ReflectanceSpectrum.Uniform(Grid, 0.35), 1.5), null);
    private static readonly Backing White = new(
        Substrate.FromInternalReflectance("white", ReflectanceSpectrum.Uniform(Grid, 0.93), 1.5), CouplingMedium.Air);

    public static TheoryData<IOpticalModel> Models => [TwoFluxModel.Instance, new TransportModel(10)];

    [Theory]
    [MemberData(nameof(Models))]
    public void Coefficients_come_back_from_any_mix_of_readings(IOpticalModel model)
    {
        Material truth = Truth(model);
        CharacterizationResult result = Find(new DiscSet("disc", 1.53, Readings(truth, 1e-6, _ => 0)), model);
        Assert.Empty(result.Findings);
        Material found = result.ToMaterial();
        for (int i = 0; i < Grid.Count; i++)
        {
            // The transmittances of exact transfer come from a run with more streams.
            double tolerance = model is TransportModel ? 1e-4 : 1e-8;
            Assert.Equal(1, found.Absorption[i] / truth.Absorption[i], tolerance);
            Assert.Equal(1, found.Scattering[i] / truth.Scattering[i], tolerance);
        }
    }

    /// <summary>A disc that hides all backings tells K/S alone, and no smoothness tells more.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(1e6)]
    public void Smoothness_determines_nothing_of_an_opaque_disc(double smoothness)
    {
        Material truth = new(
            "opaque", TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(Grid, 0.5),
            ScatteringSpectrum.Uniform(Grid, 20), 1.5);
        DiscReading Of(Substrate body) => DiscReading.Reflectance(
            body.Name, 4, new LayerStack([new Layer(truth, 4)], body).Reflectance(), new Backing(body, null),
            MeasurementGeometry.DiffuseSpecularIncluded, ReadingArea.Large);
        CharacterizationResult result = DiscCharacterization.Find(
            new DiscSet("opaque", 1.5, [Of(Substrate.Black), Of(Grey.Substrate), Of(Substrate.White)]),
            new CharacterizationOptions { Model = TwoFluxModel.Instance, Smoothness = smoothness });
        Assert.Equal(Grid.Count, result.Findings.Count);
        Assert.All(result.Findings, finding => Assert.Equal(FindingKind.Undetermined, finding.Kind));
    }

    [Fact]
    public void Transmittance_of_two_flux_has_right_derivatives_and_a_plain_limit()
    {
        DiscSet set = new("disc", 1.53, [
            DiscReading.Transmittance("t", 0.7, Uniform(0.3), ReadingArea.Large),
            Read("r", 0.7, 0.3, Grey)]);
        TwoFluxDiscModel model = new(set);
        foreach ((double k, double s) in ((double, double)[])[(0.05, 2), (0.5, 10), (0.01, 0.01), (3, 0.5)])
        {
            for (int r = 0; r < 2; r++)
            {
                (_, double byK, double byS) = model.Evaluate(r, 0, k, s);
                double Difference(double dK, double dS) => (
                    model.Evaluate(r, 0, k + dK, s + dS).Value - model.Evaluate(r, 0, k - dK,
                    s - dS).Value) / (2 * (dK + dS));
                Assert.Equal(1, byK / Difference(1e-5 * k, 0), 1e-7);
                Assert.Equal(1, byS / Difference(0, 1e-5 * s), 1e-7);
            }
        }

        // A clear plate: normal light enters by 1 - F, is diffuse from there on in this theory, and leaves by
        // Lambertian transmittances.
        LayerOptics into = Boundary.Diffuse(1.53, 1);
        double expected = (1 - Boundary.Fresnel(1, 1.53, 0)) / (1 + into.ReflectanceFromAbove);
        Assert.Equal(expected, model.Evaluate(0, 0, 0, 0).Value, 1e-12);
    }

    [Fact]
    public void Chi_square_and_uncertainties_are_those_of_the_noise()
    {
        // 400 noisy repeats at 16 wavelengths: chi-square averages its degrees of freedom, and 95 % of errors lie
        // within 1.96 of the stated.
        Random random = new(3);
        Material truth = Truth(TwoFluxModel.Instance);
        double chi = 0;
        int within = 0, all = 0;
        for (int repeat = 0; repeat < 60; repeat++)
        {
            CharacterizationResult result = Find(
                new DiscSet("disc", 1.53, Readings(truth, 0.002, _ => 0.002 * Gauss(random))), TwoFluxModel.Instance);
            chi += result.Fit!.ChiSquare.ToArray().Average() / result.Fit.DegreesOfFreedom / 60;
            Material found = result.ToMaterial();
            for (int i = 0; i < Grid.Count; i++)
            {
                // The stated value is enlarged for an unlucky chi-square; undo that to test the law of the noise
                // itself.
                double enlargement = Math.Sqrt(Math.Max(1, result.Fit.ChiSquare[i] / result.Fit.DegreesOfFreedom));
                within += Math.Abs(found.Scattering[i] - truth.Scattering[i])
                    < 1.96 * found.Uncertainty!.ScatteringPerMm[i] / enlargement
                    ? 1
                    : 0;
                within += Math.Abs(found.Absorption[i] - truth.Absorption[i])
                    < 1.96 * found.Uncertainty.AbsorptionPerMm[i] / enlargement
                    ? 1
                    : 0;
                all += 2;
            }
        }

        Assert.Equal(1, chi, 0.06);
        Assert.InRange((double)within / all, 0.93, 0.97);
    }

    [Fact]
    public void A_spoilt_value_is_flagged_and_the_poor_fit_said()
    {
        Random random = new(5);
        CharacterizationResult result = Find(new DiscSet(
            "disc", 1.53,
            Readings(Truth(TwoFluxModel.Instance), 0.002,
            at => (0.002 * Gauss(random)) + (at == ("thick over grey", 5) ? 0.03 : 0))), TwoFluxModel.Instance);
        ReadingOutlier outlier = Assert.Single(result.Fit!.Outliers, item => Math.Abs(item.StudentizedResidual) > 8);
        Assert.Equal(("thick over grey", Grid[5]), (outlier.Reading, outlier.WavelengthNm));
        Assert.Contains(
            result.Findings, finding => finding.Kind == FindingKind.PoorFit && finding.WavelengthNm == Grid[5]);
        Assert.True(result.IsComplete);
    }

    [Fact]
    public void Two_flux_on_thin_clear_discs_is_called_a_poor_fit()
    {
        // Readings by exact transfer; two-flux theory cannot describe thin and thick discs of a clear ceramic at once.
        TransportModel exact = new(10);
        Material clear = new(
            "clear", exact, AbsorptionSpectrum.Uniform(Grid, 0.02), ScatteringSpectrum.Uniform(Grid, 0.5), 1.53);
        DiscSet set = new("disc", 1.53, Readings(clear, 0.002, _ => 0));
        Assert.Contains(Find(set, TwoFluxModel.Instance).Findings, finding => finding.Kind == FindingKind.PoorFit);
        Assert.DoesNotContain(Find(set, exact).Findings, finding => finding.Kind == FindingKind.PoorFit);
    }

    [Fact]
    public void Opaque_discs_leave_the_layer_open_and_that_is_said()
    {
        Material opaque = new(
            "opaque", TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(Grid, 2), ScatteringSpectrum.Uniform(Grid, 60),
            1.53);
        CharacterizationResult result = Find(
            new DiscSet("disc", 1.53, Readings(opaque, 0.002, _ => 0)), TwoFluxModel.Instance);
        Assert.All(result.Findings, finding => Assert.Equal(FindingKind.Undetermined, finding.Kind));
        Assert.False(result.IsComplete);
        Assert.Throws<InvalidOperationException>(() => result.ToMaterial());

        // The advice is a thinner disc.
        Assert.InRange(result.Fit!.Advice.ThicknessMm, 0.05, 0.2);
        Assert.InRange(result.Fit.Advice.UncertaintyRatio, 0, 0.5);
    }

    [Fact]
    public void Smoothness_takes_noise_out_and_leaves_the_truth_in()
    {
        Random random = new(11);
        Material truth = Truth(TwoFluxModel.Instance);
        double Squares(Material found) =>
            Enumerable.Range(0, Grid.Count).Sum(i => Math.Pow(found.Absorption[i] - truth.Absorption[i], 2));
        double plainSum = 0, smoothSum = 0;
        for (int repeat = 0; repeat < 20; repeat++)
        {
            DiscSet set = new("disc", 1.53, Readings(truth, 0.004, _ => 0.004 * Gauss(random)));
            Material plain = Find(set, TwoFluxModel.Instance)
                .ToMaterial(), smooth = Find(set, TwoFluxModel.Instance, 0.1).ToMaterial();
            (plainSum, smoothSum) = (plainSum + Squares(plain), smoothSum + Squares(smooth));
            Assert.True(smooth.Uncertainty!.AbsorptionPerMm[5] < plain.Uncertainty!.AbsorptionPerMm[5]);
        }

        Assert.True(smoothSum < 0.8 * plainSum, $"{smoothSum} {plainSum}");
    }

    /// <summary>One more reading always tells something: the ellipse of K and S becomes smaller.</summary>
    [Fact]
    public void Readings_of_transmittance_alone_get_advice_too()
    {
        Material truth = Truth(TwoFluxModel.Instance);
        CharacterizationResult result = Find(
            new DiscSet("disc", 1.53, new[] { 0.3, 0.7, 1.4 }.Select(mm => DiscReading.Transmittance(
                $"{mm} mm", mm, new TransmittanceSpectrum(
                    Grid, [.. Enumerable.Range(0, Grid.Count).Select(i => TransmittanceOf(truth, mm, i))]),
                ReadingArea.Large))),
            TwoFluxModel.Instance);
        Assert.InRange(result.Fit!.Advice.UncertaintyRatio, 0.01, 0.95);
    }

    [Fact]
    public void Contradictory_readings_are_refused_by_name_wavelength_and_value()
    {
        DiscReading dark = Read("dark", 0.5, 0.6, Black),
            light = Read("light", 0.5, 0.5, White);
        Assert.Equal(
            "'disc' at 400 nm reads 0.6 in 'dark' over a darker backing and 0.5 in 'light' over a lighter one; are "
                + "they swapped, or was the film between disc and backing another?",
            Assert.Throws<ArgumentException>(() => new DiscSet("disc", 1.53, [dark, light])).Message);

        DiscReading through = DiscReading.Transmittance(
            "through", 0.5, Uniform(0.55), ReadingArea.Large);
        Assert.Equal(
            "'disc' at 400 nm passes 0.55 in 'through' and reflects 0.6 over black in 'dark', together more than "
                + "all light.",
            Assert.Throws<ArgumentException>(() => new DiscSet("disc", 1.53, [dark, through])).Message);
    }

    private static double Gauss(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private static CharacterizationResult Find(DiscSet discs, IOpticalModel model, double smoothness = 0) =>
        DiscCharacterization.Find(discs, new CharacterizationOptions { Model = model, Smoothness = smoothness });

    private static Material Truth(IOpticalModel model)
    {
        double[] k = [.. Enumerable.Range(0, Grid.Count).Select(i => 0.04 + (0.3 * Math.Exp(-(Grid[i] - 400) / 60)))];
        double[] s = [.. Enumerable.Range(0, Grid.Count).Select(i => 3 * Math.Pow(Grid[i] / 550, -1.2))];
        return new Material("truth", model, new AbsorptionSpectrum(Grid, k), new ScatteringSpectrum(Grid, s), 1.53);
    }

    private static List<DiscReading> Readings(
        Material truth, double standardUncertainty, Func<(string Name, int Wavelength), double> noise)
    {
        List<DiscReading> readings = [];
        void Reflectance(string name, double mm, Backing backing, MeasurementGeometry geometry)
        {
            ReflectanceSpectrum exact = new LayerStack([new Layer(truth, mm)], backing.Substrate, backing.Coupling)
                .Reflectance(geometry);
            double[] values = [.. Enumerable.Range(0, Grid.Count).Select(i => exact[i] + noise((name, i)))];
            readings.Add(
                DiscReading.Reflectance(name, mm, new ReflectanceSpectrum(Grid, values), backing, geometry,
                ReadingArea.Large, standardUncertainty));
        }

        Reflectance("thin over black", 0.4, Black, MeasurementGeometry.DiffuseSpecularIncluded);
        Reflectance("thin over white", 0.4, White, MeasurementGeometry.DiffuseSpecularIncluded);
        Reflectance("thick over grey", 1.0, Grey, MeasurementGeometry.FortyFiveZero);
        Reflectance("thick over white", 1.0, White, MeasurementGeometry.DiffuseSpecularExcluded);
        double[] through = new double[Grid.Count];
        for (int i = 0; i < through.Length; i++)
        {
            through[i] = TransmittanceOf(truth, 0.7, i) + noise(("through", i));
        }

        readings.Add(
            DiscReading.Transmittance(
                "through", 0.7, new TransmittanceSpectrum(Grid, through), ReadingArea.Large, standardUncertainty));
        return readings;
    }

    private static DiscReading Read(string name, double mm, double value, Backing backing) => DiscReading.Reflectance(
        name, mm, ReflectanceSpectrum.Uniform(Grid, value), backing, MeasurementGeometry.DiffuseSpecularIncluded,
        ReadingArea.Large);

    // The public layer algebra (or the public solver) for a free disc under normal light, not the code of the fit.
    private static TransmittanceSpectrum Uniform(double value) =>
        new(Grid, ReflectanceSpectrum.Uniform(Grid, value).Values);

    private static double TransmittanceOf(Material truth, double mm, int i)
    {
        double k = truth.Absorption[i], s = truth.Scattering[i], n = truth.RefractiveIndex.Constant;
        if (truth.Model is TransportModel)
        {
            return RadiativeTransfer.Solve([TransportLayer.FromTwoFlux(k, s, 0, mm, n)], 1, 1,
                1e-7).NormalTransmittance;
        }

        double enters = 1 - Boundary.Fresnel(1, n, 0);
        LayerOptics top = Boundary.Diffuse(1, n) with { TransmittanceDown = enters };
        return top.Over(TwoFluxLayer.Slab(k, s, mm)).Over(Boundary.Diffuse(n, 1)).TransmittanceDown;
    }
}
