using CeramicOptics.Characterization;
using CeramicOptics.Decisions.Staining;
using static CeramicOptics.Tests.WallData;

namespace CeramicOptics.Tests.Unit;

/// <summary>Pigments from drawn-down layers of known load.</summary>
public class PigmentTests
{
    private const double Mm = 0.05;

    private static readonly double[] K = [9, 4, 1.5, 0.4], S = [3, 2.5, 2, 1.5];

    public static TheoryData<string> Theories => WallData.Models;

    /// <summary>Readings made with added coefficients give the pigment and the carrier back.</summary>
    [Theory]
    [MemberData(nameof(Theories))]
    public void Loads_give_back_the_pigment_and_its_carrier(string model)
    {
        WallData data = Coarse(model);
        Material carrier = data.Make("glaze", 0.2, 0.3, 6, 1.5);
        CharacterizationOptions options = new() { Model = ModelOf(model) };
        Drawdown[] layers = [Draw(data, carrier, 0), Draw(data, carrier, 0.5), Draw(data, carrier, 1.5)];
        foreach (PigmentResult result in (PigmentResult[])[
            PigmentCharacterization.Find("ochre", layers, options: options),
            PigmentCharacterization.Find("ochre", [layers[2]], carrier, options)])
        {
            Assert.True(result.IsComplete, string.Join("; ", result.Findings));
            Pigment pigment = result.ToPigment();
            for (int i = 0; i < K.Length; i++)
            {
                Assert.Equal(K[i], pigment.Absorption[i], 2e-4 * K[i]);
                Assert.Equal(S[i], pigment.Scattering[i], 2e-4 * S[i]);
                Assert.Equal(carrier.Absorption[i], result.ToCarrier().Absorption[i], 2e-3 * carrier.Absorption[i]);
                Assert.Equal(carrier.Scattering[i], result.ToCarrier().Scattering[i], 2e-4 * carrier.Scattering[i]);
            }
        }
    }

    /// <summary>A layer stained and fired by <see cref="StainLayer"/>, read as fired, gives back the pigment.</summary>
    [Fact]
    public void What_a_stain_layer_fires_is_what_the_pigment_came_from()
    {
        WallData data = Coarse("two-flux");
        Pigment ochre = new(
            "ochre", ModelOf("two-flux"), new AbsorptionSpectrum(data.Grid, K), new ScatteringSpectrum(data.Grid, S));
        StainLayer layer = new(data.Glaze, 0.2, firingShrinkage: 0.4);
        Layer fired = layer.Fired([new StainPart(ochre, 0.5)]);
        Pigment found = PigmentCharacterization.Find(
            "ochre", [new Drawdown(0.5, Read(fired.Material, fired.ThicknessMm)) { FiringShrinkage = 0.4 }], data.Glaze,
            new CharacterizationOptions { Model = ModelOf("two-flux") }).ToPigment();
        for (int i = 0; i < K.Length; i++)
        {
            Assert.Equal(K[i], found.Absorption[i], 1e-5 * K[i]);
            Assert.Equal(S[i], found.Scattering[i], 1e-5 * S[i]);
        }
    }

    /// <summary>
    /// JCGM 101: of pigments found from readings, thicknesses and loads with errors drawn as stated, the truth lies
    /// within two standard uncertainties in 95.4 %, here of 400 values of 50 runs (three standard errors of that share
    /// are 4 %, and values of one run share their errors of thickness and load).
    /// </summary>
    [Fact]
    public void Stated_uncertainties_cover_the_truth()
    {
        WallData data = Coarse("two-flux");
        Material carrier = data.Make("glaze", 0.2, 0.3, 6, 1.5);
        CharacterizationOptions options = new() { Model = ModelOf("two-flux") };
        Random random = new(5);
        int within = 0, all = 0;
        for (int run = 0; run < 50; run++)
        {
            PigmentResult result = PigmentCharacterization.Find(
                "ochre", [.. new double[] { 0, 0.5, 1.5 }.Select(load => Draw(data, carrier, load, random))],
                options: options);
            Pigment pigment = result.ToPigment();
            for (int i = 0; i < K.Length; i++)
            {
                double scale = pigment.Uncertainty!.RelativeScale;
                Count(pigment.Absorption[i] - K[i], pigment.Uncertainty.AbsorptionPerMm[i], scale * K[i]);
                Count(pigment.Scattering[i] - S[i], pigment.Uncertainty.ScatteringPerMm[i], scale * S[i]);
            }
        }

        Assert.InRange(within / (double)all, 0.90, 0.995);

        void Count(double error, double noise, double scale)
        {
            all++;
            within += Math.Abs(error) < 2 * Math.Sqrt((noise * noise) + (scale * scale)) ? 1 : 0;
        }
    }

    /// <summary>
    /// An error that the carrier has at all wavelengths together moves the pigment by what a fit with the other carrier
    /// differs; squares of uncertainties grow by the squares of that, summed over all coefficients.
    /// </summary>
    [Fact]
    public void An_error_that_the_carrier_has_at_all_wavelengths_reaches_the_pigment()
    {
        WallData data = Coarse("two-flux");
        double[] byK = [0.02, 0.015, 0.01, 0.01], byS = [-0.1, -0.12, -0.1, -0.08], none = new double[4];
        Material Carrier(int added, CoefficientUncertainty? uncertainty = null)
        {
            Material plain = data.Make("glaze", 0.2, 0.3, 6, 1.5);
            return new Material(
                "glaze", plain.Model,
                new AbsorptionSpectrum(data.Grid, [.. byK.Select((k, i) => plain.Absorption[i] + (added * k))]),
                new ScatteringSpectrum(data.Grid, [.. byS.Select((s, i) => plain.Scattering[i] + (added * s))]),
                1.5, uncertainty);
        }

        Drawdown[] layers = [Draw(data, Carrier(0), 1.5)];
        Pigment With(Material carrier) => PigmentCharacterization.Find(
            "ochre", layers, carrier, new CharacterizationOptions { Model = ModelOf("two-flux") }).ToPigment();
        double Squares(Pigment pigment)
        {
            CoefficientUncertainty u = pigment.Uncertainty!;
            return Enumerable.Range(0, 4).Sum(i =>
                Math.Pow(u.AbsorptionPerMm[i], 2) + Math.Pow(u.ScatteringPerMm[i], 2) + (Math.Pow(u.RelativeScale, 2)
                    * (Math.Pow(pigment.Absorption[i], 2) + Math.Pow(pigment.Scattering[i], 2))));
        }

        Pigment more = With(Carrier(1)), less = With(Carrier(-1));
        double moved = Enumerable.Range(0, 4).Sum(i =>
            Math.Pow((more.Absorption[i] - less.Absorption[i]) / 2, 2)
                + Math.Pow((more.Scattering[i] - less.Scattering[i]) / 2, 2));
        double grown = Squares(With(Carrier(0, new CoefficientUncertainty(none, none, none, 0, byK, byS))))
            - Squares(With(Carrier(0, new CoefficientUncertainty(none, none, none, 0))));
        Assert.True(moved > 1e-3);
        Assert.Equal(moved, grown, 0.02 * moved);
    }

    [Fact]
    public void Coefficients_that_do_not_add_are_found_out()
    {
        WallData data = Coarse("two-flux");
        Material carrier = data.Make("glaze", 0.2, 0.3, 6, 1.5);
        Drawdown wrong = new(9, Draw(data, carrier, 4).Layer);
        PigmentResult result = PigmentCharacterization.Find(
            "ochre", [Draw(data, carrier, 0), Draw(data, carrier, 1), wrong],
            options: new CharacterizationOptions { Model = ModelOf("two-flux") });
        Assert.Equal(2, result.DegreesOfFreedom);
        Assert.Contains(result.Findings, finding => finding.Kind == FindingKind.PoorFit);
    }

    [Fact]
    public void Layers_that_hide_their_backings_leave_the_pigment_open()
    {
        WallData data = Coarse("two-flux");
        Material carrier = data.Make("opaque", 0.2, 0.3, 400, 1.5);
        PigmentResult result = PigmentCharacterization.Find(
            "ochre", [Draw(data, carrier, 0), Draw(data, carrier, 4)],
            options: new CharacterizationOptions { Model = ModelOf("two-flux") });
        Assert.False(result.IsComplete);
        Assert.All(result.Findings, finding => Assert.Equal(FindingKind.Undetermined, finding.Kind));
        Assert.All(result.Points, point => Assert.False(point.IsDetermined));
        Assert.Throws<InvalidOperationException>(() => result.ToPigment());
        Assert.Throws<InvalidOperationException>(result.ToCarrier);
    }

    /// <summary>Independent errors add in squares; of scale errors the largest is taken.</summary>
    [Fact]
    public void A_stained_layer_is_as_uncertain_as_what_it_is_made_of()
    {
        WallData data = Coarse("two-flux");
        CoefficientUncertainty uncertainty = new([0.3, 0.2, 0.1, 0.1], [0.1, 0.1, 0.1, 0.1], [0.5, 0, 0, 0], 0.05);
        Pigment ochre = new(
            "ochre", ModelOf("two-flux"), new AbsorptionSpectrum(data.Grid, K), new ScatteringSpectrum(data.Grid, S),
            uncertainty);
        Material carrier = data.Make("glaze", 0.2, 0.3, 6, 1.5, new CoefficientUncertainty(
            [0.4, 0, 0, 0], [0.2, 0, 0, 0], [0, 0, 0, 0], 0.02));
        CoefficientUncertainty of = new StainLayer(carrier, 0.1, 0.5).Fired([new StainPart(ochre, 0.5)])
            .Material.Uncertainty!;
        Assert.Equal(Math.Sqrt(0.16 + 0.09), of.AbsorptionPerMm[0], 1e-12);
        Assert.Equal(Math.Sqrt(0.04 + 0.01), of.ScatteringPerMm[0], 1e-12);
        Assert.Equal(0.5 * 0.3 * 0.1 / (Math.Sqrt(0.25) * Math.Sqrt(0.05)), of.Correlation[0], 1e-12);
        Assert.Equal(0.05, of.RelativeScale);
        Assert.Null(new StainLayer(data.Plain, 0.1).Fired([new StainPart(ochre, 0.5)]).Material.Uncertainty);
    }

    private static Drawdown Draw(WallData data, Material carrier, double load, Random? random = null)
    {
        double[] k = [.. K.Select((value, i) => carrier.Absorption[i] + (load * value))], s =
            [.. S.Select((value, i) => carrier.Scattering[i] + (load * value))];
        Material material = With(carrier, k, s, carrier.RefractiveIndex);
        double stated = random is null ? load : load * (1 + (0.02 * Gauss(random)));
        return new Drawdown(stated, Read(material, Mm, random)) { LoadRelativeUncertainty = load > 0 ? 0.02 : 0 };
    }

    private static DiscSet Read(Material material, double mm, Random? random = null)
    {
        Substrate tile = Substrate.FromMeasuredReflectance(
            "tile", ReflectanceSpectrum.Uniform(material.Grid, 0.85), 1.5,
            MeasurementGeometry.DiffuseSpecularIncluded);
        ReflectanceSpectrum Over(Substrate substrate)
        {
            double[] values = new LayerStack([new Layer(material, mm)], substrate).Reflectance().Values.ToArray();
            return new ReflectanceSpectrum(
                material.Grid, [.. values.Select(value => value + (random is null ? 0 : 0.001 * Gauss(random)))]);
        }

        (ReflectanceSpectrum black, ReflectanceSpectrum white) = (Over(Substrate.Black), Over(tile));
        double stated = random is null ? mm : mm * (1 + (0.02 * Gauss(random)));
        return DiscSet.OverBlackAndWhite(
            "layer", material.RefractiveIndex, stated, black, white, new Backing(Substrate.Black, null),
            new Backing(tile, null), MeasurementGeometry.DiffuseSpecularIncluded, ReadingArea.Large,
            readingStandardUncertainty: 0.001,
            thicknessStandardUncertaintyMm: 0.02 * stated);
    }
}
