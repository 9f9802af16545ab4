using CeramicOptics.Characterization;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;

namespace CeramicOptics.Tests.Unit;

/// <summary>A disc that lay dry and is recorded as in contact, or the other way round.</summary>
public class CouplingCheckTests
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 50);
    private static readonly Substrate White = Tile("white tile", 0.85), Black = Tile("black tile", 0.045);

    public static TheoryData<string, bool, bool> Cases => new()
    {
        { "two-flux", true, true }, { "two-flux", true, false }, { "two-flux", false, true },
        { "two-flux", false, false }, { "transport", true, false }, { "transport", false, false },
        { "transport", true, true },
    };

    /// <summary>
    /// Discs of two thicknesses over black and white tiles, with noise of 0.002: the wrong record is found, the right
    /// one is not called wrong.
    /// </summary>
    [Theory]
    [MemberData(nameof(Cases))]
    public void Readings_of_two_thicknesses_tell_the_film(string theory, bool isDry, bool isRecordRight)
    {
        IOpticalModel model = theory == "transport" ? TransportModel.Default : TwoFluxModel.Instance;
        Random random = new(2);
        for (int repeat = 0; repeat < (theory == "transport" ? 2 : 20); repeat++)
        {
            Material truth = Truth(model, random);
            CouplingMedium lain = isDry ? CouplingMedium.Air : CouplingMedium.Glycerine;
            CouplingMedium stated = isDry == isRecordRight ? CouplingMedium.Air : CouplingMedium.Glycerine;
            CharacterizationResult result = DiscCharacterization.Find(
                new DiscSet("disc", 1.53, Readings(truth, [0.5, 1.2], lain, stated, random, Black)),
                new CharacterizationOptions { Model = model });
            CouplingCheck check = result.Coupling!;
            Assert.Equal((stated.Name, 14), (check.Stated, check.DegreesOfFreedom));
            Assert.Equal(isRecordRight ? CouplingVerdict.Supported : CouplingVerdict.Doubtful, check.Verdict);
            Assert.Equal(
                isRecordRight ? 0 : 1, result.Findings.Count(one => one.Kind == FindingKind.CouplingDoubtful));
            if (isRecordRight)
            {
                Assert.Equal(truth.Scattering[3], check.ScatteringPerMm!.Value, 0.05 * truth.Scattering[3]);
                Assert.Equal(truth.Absorption[3], check.AbsorptionPerMm!.Value, 0.01 + (0.05 * truth.Absorption[3]));
            }
            else
            {
                // What would come out with the right film is what is true.
                Assert.Equal(truth.Scattering[3], check.OtherScatteringPerMm, 0.05 * truth.Scattering[3]);
                Assert.Equal(truth.Absorption[3], check.OtherAbsorptionPerMm, 0.01 + (0.05 * truth.Absorption[3]));
                Assert.StartsWith("another film between disc", result.Findings[0].ToString(), StringComparison.Ordinal);
                Assert.Contains(", not the stated ", check.ToString(), StringComparison.Ordinal);
            }
        }
    }

    /// <summary>
    /// Two readings over tiles fit either film; the result then says so, and what the other would give: the truth.
    /// </summary>
    [Fact]
    public void Two_readings_leave_the_film_open_and_say_what_hangs_on_it()
    {
        Random random = new(3);
        foreach (IOpticalModel model in new IOpticalModel[] { TransportModel.Default, TwoFluxModel.Instance })
        {
            Material truth = Truth(model, random);
            CharacterizationResult result = DiscCharacterization.Find(
                new DiscSet("disc", 1.53, Readings(
                    truth, [0.8], CouplingMedium.Air, null, random, Black)),
                new CharacterizationOptions { Model = model });
            CouplingCheck check = result.Coupling!;
            Assert.Equal(
                ("contact", "air", 0, CouplingVerdict.Open),
                (check.Stated, check.Other, check.DegreesOfFreedom, check.Verdict));
            Assert.Equal(truth.Scattering[3], check.OtherScatteringPerMm, 0.05 * truth.Scattering[3]);
            Assert.True(check.ScatteringPerMm > 1.2 * check.OtherScatteringPerMm, $"{check}");
            Assert.Contains(
                "contact and air between disc and backing equally well; with air, S would be", check.ToString());
            Assert.Empty(result.Findings);
        }
    }

    [Fact]
    public void Discs_without_a_tile_or_with_several_films_are_not_compared()
    {
        Random random = new(4);
        Material truth = Truth(TwoFluxModel.Instance, random);
        DiscReading[] wet = Readings(truth, [0.5], CouplingMedium.Glycerine, CouplingMedium.Glycerine, random, Black);
        DiscReading[] dry = Readings(truth, [0.5], CouplingMedium.Air, CouplingMedium.Air, random, Black);
        CouplingCheck? Check(params DiscReading[] readings) => DiscCharacterization.Find(
            new DiscSet("disc", 1.53, readings),
            new CharacterizationOptions { Model = TwoFluxModel.Instance }).Coupling;
        Assert.Null(Check(wet[0], dry[1]));
        Assert.Null(Check(DiscReading.Reflectance(
            "trap", 0.5, (ReflectanceSpectrum)wet[0].Values, new Backing(Substrate.Black, CouplingMedium.Air),
            MeasurementGeometry.DiffuseSpecularIncluded, ReadingArea.Large),
            DiscReading.Transmittance(
                "through", 0.5, new TransmittanceSpectrum(Grid, Repeat(0.3)), ReadingArea.Large)));
    }

    /// <summary>Where the film stated determines nothing there is no K and S, and not zero.</summary>
    [Fact]
    public void Nothing_determined_is_nothing_and_not_zero()
    {
        ReflectanceSpectrum read = ReflectanceSpectrum.Uniform(Grid, 0.41);
        CharacterizationResult result = DiscCharacterization.Find(
            DiscSet.OverBlackAndWhite(
                "disc", 1.53, 0.8, read, read, new Backing(Black, CouplingMedium.Glycerine),
                new Backing(White, CouplingMedium.Glycerine), MeasurementGeometry.DiffuseSpecularIncluded,
                ReadingArea.Large),
            new CharacterizationOptions { Model = TwoFluxModel.Instance });
        CouplingCheck check = result.Coupling!;
        Assert.Null(check.AbsorptionPerMm);
        Assert.Null(check.ScatteringPerMm);
        Assert.True(check.OtherScatteringPerMm > 0);
        Assert.DoesNotContain("instead of", check.ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(3.9, false)]
    [InlineData(8, true)]
    public void Disc_of_many_millimetres_is_doubted(double thicknessMm, bool isDoubted)
    {
        Material clear = new(
            "clear", TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(Grid, 0.01),
            ScatteringSpectrum.Uniform(Grid, 0.2),
            1.53);
        Finding[] thick = [.. DiscCharacterization.Find(
            new DiscSet(clear.Name, 1.53, Readings(
                clear, [thicknessMm], CouplingMedium.Air, CouplingMedium.Air, new Random(1), Black)),
            new CharacterizationOptions { Model = TwoFluxModel.Instance })
            .Findings.Where(finding => finding.Kind == FindingKind.ThickDisc)];
        Assert.Equal(isDoubted ? [8.0] : [], thick.SelectMany(finding => finding.Values));
        Assert.All(thick, finding => Assert.True(finding.IsDetermined && finding.WavelengthNm is null));
    }

    private static DiscReading[] Readings(
        Material truth, double[] thicknesses, CouplingMedium lain, CouplingMedium? stated, Random random,
        Substrate black) =>
    [
        .. thicknesses.SelectMany(mm => new[]
        {
            ("black", black), ("white", White),
        }.Select(item =>
        {
            bool isTrap = item.Item2 == Substrate.Black;
            ReflectanceSpectrum exact = new LayerStack(
                [new Layer(truth, mm)], item.Item2, isTrap ? CouplingMedium.Air : lain)
                .Reflectance(MeasurementGeometry.DiffuseSpecularIncluded);
            return DiscReading.Reflectance(
                $"{mm} mm over {item.Item1}", mm,
                new ReflectanceSpectrum(
                    Grid, [.. exact.Values.ToArray().Select(value => value + (0.002 * WallData.Gauss(random)))]),
                new Backing(item.Item2, isTrap ? CouplingMedium.Air : stated),
                MeasurementGeometry.DiffuseSpecularIncluded, ReadingArea.Large);
        })),
    ];

    private static Material Truth(IOpticalModel model, Random random) => new(
        "disc", model, new AbsorptionSpectrum(Grid, Repeat(0.02 + (0.2 * random.NextDouble()))),
        new ScatteringSpectrum(Grid, Repeat(1 + (3 * random.NextDouble()))), 1.53);

    private static Substrate Tile(string name, double value) =>
        Substrate.FromMeasuredReflectance(name, ReflectanceSpectrum.Uniform(Grid, value), 1.5,
            MeasurementGeometry.DiffuseSpecularIncluded);

    private static double[] Repeat(double value) => [.. Enumerable.Repeat(value, Grid.Count)];
}
