using System.Text;
using CeramicOptics.Characterization;
using CeramicOptics.Exchange;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Decisions.Cementing;
using CeramicOptics.Decisions.Feasibility;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Delivered;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Decisions.Remedies;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;

namespace CeramicOptics.Tests.Design;

/// <summary>Every input of docs/errors.md gets exactly the message that stands there.</summary>
public class BadInputTests
{
    private const string Csv = "wavelength_nm,reflectance\n400,0.1\n410,0.2\n420,0.3\n";

    internal static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 100);
    private static readonly ReflectanceSpectrum Grey = ReflectanceSpectrum.Uniform(Grid, 0.5);
    private static readonly IOpticalModel Theory = TransportModel.Default;
    internal static readonly Material Ceramic = new(
        "ceramic", Theory, AbsorptionSpectrum.Uniform(Grid, 0.1), ScatteringSpectrum.Uniform(Grid, 2), 1.53);
    internal static readonly LayerStack Stack = new([new Layer(Ceramic, 1)], Substrate.Black);

    public static TheoryData<string> Inputs => [.. Cases.Keys, .. DeliveredBadInput.Found.Keys];

    private static Dictionary<string, Action> Cases { get; } = new(
        [.. PhotographBadInput.Cases, .. SpreadBadInput.Cases, .. ImportBadInput.Cases, .. DeliveredBadInput.Cases,
            .. PigmentBadInput.Cases, .. AppearanceBadInput.Cases, .. AreaBadInput.Cases,
            .. ResultBadInput.Cases, .. DiscBadInput.Cases, .. ChoiceBadInput.Cases])
    {
        ["thickness NaN"] = () => _ = new Layer(Ceramic, double.NaN),
        ["thickness negative"] = () => _ = new Layer(Ceramic, -0.1),
        ["thickness in micrometres"] = () => _ = new Layer(Ceramic, 900),
        ["scattering infinite"] = () => TwoFluxLayer.Reflectance(0.1, double.PositiveInfinity, 1, 0),
        ["absorption negative"] = () => _ = AbsorptionSpectrum.Uniform(Grid, -1e-9),
        ["backing above one"] = () => TwoFluxLayer.Reflectance(0.1, 1, 1, 1.2),
        ["refractive index below one"] = () => _ = new RefractiveIndex(0.9),
        ["refractive index left at its default"] = () => _ = new Material("x", Theory,
        AbsorptionSpectrum.Uniform(Grid, 0), ScatteringSpectrum.Uniform(Grid, 1), default),
        ["reflectance in percent"] = () => _ = new ReflectanceSpectrum(Grid, [10, 20, 30, 40]),
        ["reflectance NaN"] = () => _ = new ReflectanceSpectrum(Grid, [0.1, 0.2, double.NaN, 0.4]),
        ["too few values for the grid"] = () => _ = new ReflectanceSpectrum(Grid, [0.1, 0.2]),
        ["wavelength twice"] = () => WavelengthGrid.FromWavelengths([400, 410, 410, 420]),
        ["wavelengths falling"] = () => WavelengthGrid.FromWavelengths([420, 410, 400]),
        ["wavelengths unequally spaced"] = () => WavelengthGrid.FromWavelengths([400, 410, 425]),
        ["range not a whole number of steps"] = () => WavelengthGrid.Range(380, 735, 10),
        ["grids that differ"] = () => _ = new LayerStack([new Layer(Ceramic, 1)],
        Substrate.OpaqueMetal("post", ReflectanceSpectrum.Uniform(WavelengthGrid.Range(380, 780, 10), 0.5))),
        ["stack without layer"] = () => _ = new LayerStack([], Substrate.Black),
        ["no such layer"] = () => Stack.InfiniteReflectance(3),
        ["layer that varies is not there"] = () => Stack.Compile(MeasurementGeometry.Internal,
        [new VariableThickness(1, new ThicknessRange(0.2, 3))]),
        ["layer that varies twice"] = () => _ = new VariableThickness([new LayerPart(0), new LayerPart(0)],
        new ThicknessRange(0.2, 3)),
        ["thickness outside the range compiled"] = () => Compiled().Reflectance(null, 3.1),
        ["substrate of another index"] = () => Compiled().Reflectance(Substrate.FromInternalReflectance("tooth", Grey,
        1.54), 1),
        ["models mixed in a stack"] = () => _ = new LayerStack([new Layer(Ceramic, 1),
        new Layer(new Material("cement", TwoFluxModel.Instance, Ceramic.Absorption, Ceramic.Scattering, 1.52),
        0.05)], Substrate.Black),
        ["models mixed in a restoration"] = () => Case(MaskingReference.SelfBacked).WithCement(
            new Layer(
                new Material("cement", TwoFluxModel.Instance, Ceramic.Absorption, Ceramic.Scattering, 1.52), 0.05)),
        ["infinitely thick clear layer"] = () => new LayerStack(
            [new Layer(
                new Material("clear", Theory, AbsorptionSpectrum.Uniform(Grid, 0), ScatteringSpectrum.Uniform(Grid, 0),
                1.5), 1)], Substrate.Black)
            .InfiniteReflectance(0),
        ["restoration without cement"] = () => _ = new Restoration([Cervical(MaskingReference.SelfBacked)], Grade,
        (Layer)null!, ColorCriterion.AcceptabilityThreshold),
        ["two zones of one name"] = () => _ = Case(MaskingReference.SelfBacked)
            .WithZones([Cervical(Wish), Cervical(Wish)]),
        ["strength limit of nothing"] = () => StrengthLimit.Of(0),
        ["film of cement in micrometres"] = () => Case(MaskingReference.SelfBacked).WithCement(new Layer(Ceramic, 50)),
        ["veneer of all the wall"] = () => Veneer.OfShare(Ceramic, 1),
        ["wall thinner than its veneer"] = () => (
            Case(MaskingReference.SelfBacked) with { Veneer = Veneer.OfThickness(Ceramic, 0.5) })
            .StackOver(Substrate.Black, 0.4),
        ["target of another geometry"] = () => MaskingThickness.Find(
            Case(Target.FromReflectance("wish", Grey, MeasurementGeometry.FortyFiveZero))),
        ["target colour of no body"] = () => Target.FromColor("wish", new Lab(120, 0, 0), Colorimeter.D65TwoDegree,
        MeasurementGeometry.DiffuseSpecularIncluded),
        ["stain load in the wrong unit"] = () => new StainLayer(Ceramic,
        0.05).Fired([new StainPart(new Pigment("ochre", Theory, Ceramic.Absorption, Ceramic.Scattering), -0.1)]),
        ["stain layer in micrometres"] = () => _ = new StainLayer(Ceramic, 50),
        ["firing that leaves nothing"] = () => _ = new StainLayer(Ceramic, 0.05, 1),
        ["match without a target"] = () => Match.Find(Case(MaskingReference.SelfBacked), new MatchOptions([Grade])),
        ["too few samples for a tolerance"] = () => _ = new MaskingOptions { Samples = 255 },
        ["nothing to choose from"] = () => Match.Find(Case(Wish),
        new MatchOptions([Grade]) { AllowsMonolithic = false }),
        ["zone outside the range of thicknesses"] = () => GradeChoice.Find(
            Case(MaskingReference.SelfBacked) with { WallRange = new ThicknessRange(0.2, 0.9) }, [Grade]),
        ["no room in a zone"] = () => ReachableColors.Find(Case(Wish) with { WallRange = new ThicknessRange(1.2, 2) },
        Cervical(Wish), new MatchOptions([Grade])),
        ["target of another grid"] = () => Match.Find(
            Case(Target.FromReflectance("wish", ReflectanceSpectrum.Uniform(WavelengthGrid.Range(400, 700, 50), 0.5),
            MeasurementGeometry.DiffuseSpecularIncluded)), new MatchOptions([Grade])),
        ["stain compared with itself"] = () => Stain.Find(Case(MaskingReference.SelfBacked),
        new StainOptions(new StainLayer(Ceramic, 0.05), [Ochre(Grid)])),
        ["stain of 25 pigments"] = () => _ = new StainOptions(new StainLayer(Ceramic, 0.05),
        Enumerable.Repeat(Ochre(Grid), 25)),
        ["pigment of another grid"] = () => _ = new StainOptions(new StainLayer(Ceramic, 0.05),
        [Ochre(WavelengthGrid.Range(400, 700, 50))]),
        ["pigment of another grid in a layer"] = () => new StainLayer(Ceramic,
        0.05).Fired([new StainPart(Ochre(WavelengthGrid.Range(400, 700, 50)), 0.1)]),
        ["pigment of two grids"] = () => _ = new Pigment("ochre", Theory, AbsorptionSpectrum.Uniform(Grid, 1),
        ScatteringSpectrum.Uniform(WavelengthGrid.Range(400, 700, 50), 1)),
        ["too few samples"] = () => _ = new SamplingOptions { Samples = 10 },
        ["uncertainty in micrometres"] = () => _ = new InputUncertainty { CoreMm = 30 },
        ["stump darker than its surface"] = () => Substrate.FromMeasuredReflectance("stump",
        ReflectanceSpectrum.Uniform(Grid, 0.01), 1.54, MeasurementGeometry.DiffuseSpecularIncluded),
        ["thickness range reversed"] = () => _ = new ThicknessRange(2, 1),
        ["no illuminant"] = () => _ = new ViewingConditions { Colorimeters = [] },
        ["no zone"] = () => _ = Case(Wish).WithZones([]),
        ["unknown illuminant"] = () => Illuminant.Named("D60"),
        ["colour of no reflectance"] = () => Colorimeter.D65TwoDegree.SmoothestReflectance(new Lab(95, 80, 0), Grid),
        ["L* above 100"] = () => Colorimeter.D65TwoDegree.SmoothestReflectance(new Lab(120, 0, 0), Grid),
        ["colour difference of NaN"] = () => ColorDifference.Ciede2000(new Lab(50, 0, 0), new Lab(double.NaN, 0, 0)),
        ["colour of no body in L*u*v*"] = () => new Luv(50, 0, -1000).ToXyz(Colorimeter.D65TwoDegree.White),
        ["tristimulus value NaN"] = () => Lab.FromXyz(new Xyz(1, double.NaN, 1), Colorimeter.D65TwoDegree.White),
        ["white of zero"] = () => new Lab(50, 0, 0).ToXyz(default),
        ["yellowness under another light"] = () => ColorIndices.YellownessE313(new Xyz(80, 90, 100),
        Colorimeter.ATwoDegree),
        ["whiteness under another light"] = () => ColorIndices.WhitenessCie(new Xyz(80, 90, 100),
        Colorimeter.ATwoDegree),
        ["metamerism of black"] = () => ColorIndices.Metamerism(Grey, ReflectanceSpectrum.Uniform(Grid, 0),
        Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree),
        ["contrast ratio over a black white"] = () => Translucency.ContrastRatio(new Xyz(1, 1, 1), default),
        ["basis of four spectra"] = () => Colorimeter.D65TwoDegree.ReflectanceFromBasis(new Lab(50, 0, 0),
        [Grey, Grey, Grey, Grey]),
        ["basis of two grids"] = () => Colorimeter.D65TwoDegree.ReflectanceFromBasis(new Lab(50, 0, 0),
        [Grey, Grey, ReflectanceSpectrum.Uniform(WavelengthGrid.Range(400, 700, 50), 0.5)]),
        ["colour unlike the basis"] = () => Colorimeter.D65TwoDegree.ReflectanceFromBasis(new Lab(90, -60, 20),
        [new(Grid, [0.8, 0.3, 0.1, 0.1]), new(Grid, [0.2, 0.8, 0.2, 0.2]), new(Grid, [0.1, 0.1, 0.8, 0.8])]),
        ["reflectances of another grid"] = () => Colorimeter.D65TwoDegree.Weighting(Grid).ToLab(new double[5]),
        ["reflectances of one spectrum for two"] = () => Colorimeter.D65TwoDegree.Weighting(Grid).ToLab(new double[4],
        new Lab[2]),
        ["tristimulus values of one spectrum for two"] = () => Colorimeter.D65TwoDegree.Weighting(Grid)
            .ToXyz(new double[4], new Xyz[2]),
        ["lamp without blue"] = () => new Colorimeter(Observer.Cie1931TwoDegree,
        new Illuminant("red lamp",
        new PowerSpectrum(WavelengthGrid.Range(380, 780, 5),
        [.. Enumerable.Range(0, 81).Select(i => i > 66 ? 1.0 : 0)]))),
        ["observer that begins late"] = () => new Observer("mine", WavelengthGrid.Range(400, 780, 10), new double[39],
        new double[39], new double[39]),
        ["observer of coarse functions"] = () => new Observer("mine", WavelengthGrid.Range(380, 780, 20),
        new double[21], new double[21], new double[21]),
        ["observer with a negative function"] = () => new Observer("mine", WavelengthGrid.Range(380, 780, 10),
        Enumerable.Repeat(-0.1, 41).ToArray(), new double[41], new double[41]),
        ["observer without a function"] = () => new Observer("mine", WavelengthGrid.Range(380, 780, 10), new double[41],
        new double[41], new double[41]),
        ["yellowness for another observer"] = () => ColorIndices.YellownessE313(new Xyz(80, 80, 80),
        new Colorimeter(Observer.Cie2015TwoDegree, Illuminant.D65)),
        ["light that ends early"] = () => new Colorimeter(Observer.Cie1931TwoDegree,
        new Illuminant("lamp",
        new PowerSpectrum(WavelengthGrid.Range(380, 775, 5), Enumerable.Repeat(1.0, 80).ToArray()))).Weighting(Grid),
        ["light that begins late"] = () => new Colorimeter(Observer.Cie1931TwoDegree,
        new Illuminant("lamp",
        new PowerSpectrum(WavelengthGrid.Range(385, 780, 5), Enumerable.Repeat(1.0, 80).ToArray()))).Weighting(Grid),
        ["colours and differences not as many"] = () => ColorDifference.Ciede2000(new Lab[2], new Lab[3],
        new double[2]),
        ["coefficients of two grids"] = () => _ = new Material("glaze", Theory, AbsorptionSpectrum.Uniform(Grid, 0),
        ScatteringSpectrum.Uniform(WavelengthGrid.Range(400, 700, 50), 1), 1.5),
        ["uncertainty of another grid"] = () => _ = new Material("glaze", Theory, Ceramic.Absorption,
        Ceramic.Scattering, 1.5, CoefficientUncertainty.OfScale(WavelengthGrid.Range(400, 700, 50), 0.1)),
        ["uncertainties not as many"] = () => _ = new CoefficientUncertainty([0.1, 0.1], [0.1, 0.1], [0], 0),
        ["index that leaves its range"] = () => _ = new Material("glaze", Theory, Ceramic.Absorption,
        Ceramic.Scattering, new RefractiveIndex(3.95, 40_000)),
        ["graded blank of two indices"] = () => GradedSlices.Cut(Ceramic,
        new Material("glaze", Theory, Ceramic.Absorption, Ceramic.Scattering, 1.4), 1, depth => depth),
        ["graded blank of two grids"] = () => GradedSlices.Cut(Ceramic,
        new Material("glaze", Theory, AbsorptionSpectrum.Uniform(WavelengthGrid.Range(400, 700, 50), 0),
        ScatteringSpectrum.Uniform(WavelengthGrid.Range(400, 700, 50), 1), 1.53), 1, depth => depth),
        ["graded blank with a step"] = () => GradedSlices.Cut(
        new Material("ceramic", TwoFluxModel.Instance, Ceramic.Absorption, Ceramic.Scattering, 1.53),
        new Material("glaze", TwoFluxModel.Instance, Ceramic.Absorption, ScatteringSpectrum.Uniform(Grid, 9), 1.53), 1,
        depth => depth < 0.3 ? 0 : 1, 1e-9),
        ["layer left at its default"] = () => RadiativeTransfer.Solve([default], 1, 1),
        ["light between two perfect mirrors"] = () => new LayerOptics(0, 1, 1, 0).OnBacking(1),
        ["sweep into memory of another size"] = () => Compiled().Reflectance([1], Substrate.Black, new double[3]),
        ["disc of no thickness"] = () => Disc(0, Grey, ReflectanceSpectrum.Uniform(Grid, 0.6)),
        ["black and white swapped"] = () => DiscCharacterization.Find(Disc(1, ReflectanceSpectrum.Uniform(Grid, 0.6),
        Grey)).ToMaterial(),
        ["disc too opaque"] = () => DiscCharacterization.Find(Disc(1, Grey,
        ReflectanceSpectrum.Uniform(Grid, 0.502))).ToMaterial(),
        ["disc set: thickness zero"] = () => MeasurementFile.ToDiscs(ReadCsv(DiscSet("0, white, glycerine", 0.6))),
        ["disc set: unknown backing"] = () => MeasurementFile.ToDiscs(
            ReadCsv(DiscSet("0.5, chequered, glycerine", 0.6))),
        ["disc set: black above white"] = () => MeasurementFile.ToDiscs(ReadCsv(DiscSet("0.5, white, glycerine", 0.4))),
        ["disc set: more than all light"] = () => MeasurementFile.ToDiscs(ReadCsv(DiscSet("0.5, transmittance", 0.7))),
        ["disc set: no such reading"] = () => MeasurementFile.ToDiscs(
            ReadCsv(DiscSet("0.5, white, glycerine", 0.6) + "# disc_third = 1, white\n")),
        ["disc set: one reading"] = () => MeasurementFile.ToDiscs(
            ReadCsv("# material = m\n# refractive_index = 1.53\n# geometry = di:8\n# origin = invented\n"
                + "# disc_reflectance = 1, trap\n" + Csv)),
        ["catalogue: not JSON"] = () => ReadCatalog("{ \"format\": "),
        ["catalogue: unknown key"] = () => ReadCatalog(
            "{ \"format\": \"ceramic-optics-material-catalog\", \"version\": 1, \"name\": \"n\", \"colour\": 1, "
                + "\"entries\": [] }"),
        ["catalogue: key twice"] = () => ReadCatalog("{\n \"name\": \"a\",\n \"name\": \"b\" }"),
        ["catalogue: other version"] = () => ReadCatalog(
            "{ \"format\": \"ceramic-optics-material-catalog\", \"version\": 7, \"name\": \"n\", \"entries\": [] }"),
        ["catalogue: empty"] = () => ReadCatalog(
            "{ \"format\": \"ceramic-optics-material-catalog\", \"version\": 1, \"name\": \"n\", \"entries\": [] }"),
        ["catalogue: negative coefficient"] = () => ReadCatalog(Entry("-1")),
        ["catalogue: text for a number"] = () => ReadCatalog(Entry("\"1\"")),
        ["thickness response: other format"] = () => ReadResponse("ceramic-optics-material-catalog", "one layer",
        "[1, 2]"),
        ["thickness response: other version"] = () => ReadResponse("CeramicOptics thickness response", "one layer",
        "[1, 2]"),
    };

    /// <summary>CERAMICOPTICS_APPROVE=1 writes the table again, to be read before it is committed.</summary>
    [Fact]
    public void The_table_lists_every_input()
    {
        string path = Repository.PathOf("docs", "errors.md");
        if (Environment.GetEnvironmentVariable("CERAMICOPTICS_APPROVE") == "1")
        {
            StringBuilder text = new(
                "# What bad input gets\n\nEach row is tested: this input, exactly this message.\n\n| input | error or "
                    + "finding | message |\n|---|---|---|\n");
            foreach (string input in Cases.Keys.Concat(DeliveredBadInput.Found.Keys))
            {
                text.Append(RowFor(input)).Append('\n');
            }

            File.WriteAllText(path, text.ToString());
        }

        Assert.Equal(
            Cases.Count + DeliveredBadInput.Found.Count,
            File.ReadLines(path).Count(line => line.StartsWith("| ", StringComparison.Ordinal)) - 1);
    }

    [Theory]
    [MemberData(nameof(Inputs))]
    public void Input_gets_the_message_of_the_table(string input) =>
        Assert.Contains(RowFor(input), File.ReadAllLines(Repository.PathOf("docs", "errors.md")));

    private static string RowFor(string input)
    {
        if (DeliveredBadInput.Found.TryGetValue(input, out Func<CorrectionFinding>? find))
        {
            CorrectionFinding finding = find();
            return $"| {input} | finding {finding.Kind} | {finding} |";
        }

        Exception? error = Record.Exception(Cases[input]);
        Assert.NotNull(error);
        return $"| {input} | {error.GetType().Name} | {error.Message.Replace("|", "\\|", StringComparison.Ordinal)} |";
    }

    internal static Restorations.Ceramic Grade => new("family", 1, Ceramic);

    internal static Target Wish => Target.FromReflectance("wish", Grey, MeasurementGeometry.DiffuseSpecularIncluded);

    internal static Zone Cervical(ColorReference reference) => new("cervical", Substrate.Black, 1, reference);

    internal static Restoration Case(ColorReference reference) =>
        new([Cervical(reference)], Grade, new Layer(Ceramic, 0.05), ColorCriterion.AcceptabilityThreshold);

    private static StackResponse Compiled() =>
        Stack.Compile(MeasurementGeometry.Internal, [new VariableThickness(0, new ThicknessRange(0.2, 3))]);

    internal static Pigment Ochre(WavelengthGrid grid) =>
        new("ochre", Theory, AbsorptionSpectrum.Uniform(grid, 1), ScatteringSpectrum.Uniform(grid, 1));

    private static void ReadResponse(string format, string kind, string differences) => ResponseJson.Read(
        new MemoryStream(
            Encoding.UTF8.GetBytes(
                $$"""{ "format": "{{format}}", "version": 1, "kind": "{{kind}}", "differences": {{differences}} }""")),
            "response.json");

    private static DiscSet Disc(double thicknessMm, ReflectanceSpectrum black, ReflectanceSpectrum white) =>
        Characterization.DiscSet.OverBlackAndWhite(
        "disc", 1.53, thicknessMm, black, white, new Backing(Substrate.Black, null),
        new Backing(Substrate.White, null), MeasurementGeometry.DiffuseSpecularIncluded, ReadingArea.Large);

    private static string DiscSet(string second, double value) => string.Create(
        System.Globalization.CultureInfo.InvariantCulture,
        $"# material = m\n# refractive_index = 1.53\n# geometry = di:8\n# origin = invented\n# disc_first = 0.5, "
            + $"trap\n# disc_second = "
            + $"{second}\nwavelength_nm,first,second,white\n400,0.5,{value},0.9\n410,0.5,{value},0.9\n");

    private static SpectralTable ReadCsv(string text) => SpectralTable.Read(new StringReader(text), "readings.csv");

    private static MaterialCatalog ReadCatalog(string json) =>
        MaterialCatalog.Read(new MemoryStream(Encoding.UTF8.GetBytes(json)), "catalog.json");

    private static string Entry(string coefficient) =>
        $$"""
        { "format": "ceramic-optics-material-catalog", "version": 1, "name": "n", "entries": [
          { "name": "m", "role": "cement", "refractiveIndex": { "constant": 1.5 },
            "wavelengths": { "startNm": 400, "stepNm": 10, "count": 2 },
            "absorptionPerMm": [0.1, {{coefficient}}], "scatteringPerMm": [1, 1],
            "provenance": { "origin": "invented", "instrument": "none", "geometry": "internal" } } ] }
        """;
}
