using CeramicOptics.Characterization;
using CeramicOptics.Characterization.Photographs;
using CeramicOptics.Decisions.Delivered;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Decisions.Remedies;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Restorations;

namespace CeramicOptics.Tests.Unit;

/// <summary>
/// Every range of the documentation: its ends are taken, what lies beyond and NaN are refused, and the message names
/// quantity, range, value and unit.
/// </summary>
public class RangeTests
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 100);
    private static readonly Material Body = new(
        "body", TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(Grid, 0.1), ScatteringSpectrum.Uniform(Grid, 3), 1.5);
    private static readonly LayerStack Stack = new([new Layer(Body, 1), new Layer(Body, 0.1)], Substrate.Black);
    private static readonly TransportLayer Clear = new(0.1, 1, 0, 0.1, 1.5);
    private static readonly StainLayer Glaze = new(Body, 0.05);
    private static readonly Lab Grey = new(50, 0, 0), Other = new(60, 5, 5);
    private static readonly Xyz White = Colorimeter.D65TwoDegree.White;
    private static readonly MaskingReference Self = MaskingReference.SelfBacked;
    private static readonly ColorCriterion Criterion = ColorCriterion.AcceptabilityThreshold;

    public static TheoryData<string> Quantities => [.. Ranges.Keys];

    /// <summary>By name and place: name in the message, ends, unit, use of a value.</summary>
    private static Dictionary<string,
        (string Name, double Min, double Max, string Unit, Action<double> Use)> Ranges { get; } = new()
    {
        ["Fresnel from"] = ("fromIndex", 1, 4, "", value => Boundary.Fresnel(value, 1.5, 30)),
        ["Fresnel to"] = ("toIndex", 1, 4, "", value => Boundary.Fresnel(1.5, value, 30)),
        ["Fresnel angle"] = ("angleDegrees", 0, 90, "degrees", value => Boundary.Fresnel(1, 1.5, value)),
        ["boundary above"] = ("upperIndex", 1, 4, "", value => Boundary.Diffuse(value, 1.5)),
        ["boundary below"] = ("lowerIndex", 1, 4, "", value => Boundary.Diffuse(1.5, value)),
        ["layer"] = ("thicknessMm", 0, 100, "mm", value => _ = new Layer(Body, value)),
        ["disc of a material"] = ("thickness of a disc of 'body'", 1e-4, 100, "mm", value => _ = new Material(
            "body", TwoFluxModel.Instance, Body.Absorption, Body.Scattering, 1.5, null, [value])),
        ["thickness of a disc, uncertainty"] = ("thicknessStandardUncertaintyMm", 0, 1, "mm",
        value => DiscReading.Reflectance(
            "disc", 1, ReflectanceSpectrum.Uniform(Grid, 0.5), new Backing(Substrate.Black, null),
            MeasurementGeometry.Internal, ReadingArea.Large, 0.002, value)),
        ["thickness of a disc"] = ("thicknessMm", 1e-4, 20, "mm",
        value => DiscReading.Transmittance(
            "disc", value, new TransmittanceSpectrum(Grid, [0.5, 0.5, 0.5, 0.5]), ReadingArea.Large)),
        ["red of a patch"] = ("red mean of 'patch'", 0, 1, "of full scale",
        value => _ = new PatchReading("patch", new CameraRgb(value, 0.5, 0.5))),
        ["green of a patch"] = ("green mean of 'patch'", 0, 1, "of full scale",
        value => _ = new PatchReading("patch", new CameraRgb(0.5, value, 0.5))),
        ["blue of a patch"] = ("blue mean of 'patch'", 0, 1, "of full scale",
        value => _ = new PatchReading("patch", new CameraRgb(0.5, 0.5, value))),
        ["mean cosine of scattering"] = ("Anisotropy", 0, 0.95, "",
        value => _ = new CharacterizationOptions { Anisotropy = value }),
        ["smoothness"] = ("Smoothness", 0, 1e6, "", value => _ = new CharacterizationOptions { Smoothness = value }),
        ["weight of the newest piece"] = ("Weight", 0.05, 1, "", value => _ = new DriftOptions { Weight = value }),
        ["reflectance K"] = ("absorptionPerMm", 0, 1e6, "1/mm", value => TwoFluxLayer.Reflectance(value, 1, 1, 0.5)),
        ["reflectance S"] = ("scatteringPerMm", 0, 1e6, "1/mm", value => TwoFluxLayer.Reflectance(1, value, 1, 0.5)),
        ["reflectance t"] = ("thicknessMm", 0, 1e4, "mm", value => TwoFluxLayer.Reflectance(1, 1, value, 0.5)),
        ["reflectance backing"] = ("backing", 0, 1, "", value => TwoFluxLayer.Reflectance(1, 1, 1, value)),
        ["infinite K"] = ("absorptionPerMm", 0, 1e6, "1/mm", value => TwoFluxLayer.InfiniteReflectance(value, 1)),
        ["infinite S"] = ("scatteringPerMm", 0, 1e6, "1/mm", value => TwoFluxLayer.InfiniteReflectance(1, value)),
        ["on backing"] = ("backing", 0, 1, "", value => TwoFluxLayer.Slab(1, 1, 1).OnBacking(value)),
        ["refractive index"] = ("refractive index", 1, 4, "", value => _ = new RefractiveIndex(value)),
        ["Cauchy term"] = ("cauchyNm2", -1e6, 1e6, "nm²", value => _ = new RefractiveIndex(1.5, value)),
        ["index at a wavelength"] = ("wavelengthNm", 200, 3000, "nm",
        value => new RefractiveIndex(1.5, 4000).At(value)),
        ["internal reflectance"] = ("internalReflectance", 0, 1, "",
        value => new SurfaceCorrection(MeasurementGeometry.DiffuseSpecularIncluded, 1.5).ToMeasured(value)),
        ["compiled thickness"] = ("thicknessMm", 0.2, 3, "mm", value => Compiled().Reflectance(null, value)),
        ["compiled thickness into memory"] = ("thicknessMm", 0.2, 3, "mm",
        value => Compiled().Reflectance([value], Substrate.Black, new double[4])),
        ["slope of a part"] = ("slope of a part", -1, 1, "",
        value => _ = new VariableThickness([new LayerPart(0, value, 50)], new ThicknessRange(0, 1))),
        ["graded thickness"] = ("thicknessMm", 1e-6, 100, "mm", value => GradedSlices.Cut(Body, Body, value, _ => 0.5)),
        ["graded tolerance"] = ("tolerance", 1e-9, 0.01, "", value => GradedSlices.Cut(Body, Body, 1, _ => 0.5, value)),
        ["graded fraction"] = ("lowerFraction", 0, 1, "", value => GradedSlices.Cut(Body, Body, 1, _ => value)),
        ["uncertainty of scale"] = ("relativeScale", 0, 1, "", value => CoefficientUncertainty.OfScale(Grid, value)),
        ["uncertainty of K"] = ("absorption uncertainty [0]", 0, 1e6, "1/mm",
        value => _ = new CoefficientUncertainty([value], [1], [0], 0)),
        ["uncertainty of S"] = ("scattering uncertainty [0]", 0, 1e6, "1/mm",
        value => _ = new CoefficientUncertainty([1], [value], [0], 0)),
        ["correlation"] = ("correlation [0]", -1, 1, "", value => _ = new CoefficientUncertainty([1], [1], [value], 0)),
        ["transport K"] = ("absorptionPerMm", 0, 1e6, "1/mm", value => _ = new TransportLayer(value, 1, 0, 1, 1.5)),
        ["transport S"] = ("scatteringPerMm", 0, 1e6, "1/mm", value => _ = new TransportLayer(1, value, 0, 1, 1.5)),
        ["transport g"] = ("anisotropy", 0, 0.99, "", value => _ = new TransportLayer(1, 1, value, 1, 1.5)),
        ["transport t"] = ("thicknessMm", 0, 1e6, "mm", value => _ = new TransportLayer(1, 1, 0, value, 1.5)),
        ["transport index"] = ("refractiveIndex", 1, 4, "", value => _ = new TransportLayer(1, 1, 0, 1, value)),
        ["two-flux anisotropy"] = ("anisotropy", 0, 0.99, "", value => TransportLayer.FromTwoFlux(1, 1, value, 1, 1.5)),
        ["transfer from"] = ("upperIndex", 1, 4, "", value => RadiativeTransfer.Solve([Clear], value, 1.5, 0.1)),
        ["transfer to"] = ("lowerIndex", 1, 4, "", value => RadiativeTransfer.Solve([Clear], 1, value, 0.1)),
        ["transfer tolerance"] = ("tolerance", 1e-8, 0.1, "",
        value => RadiativeTransfer.Solve([Clear], 1.5, 1.5, value)),
        ["model anisotropy"] = ("anisotropy", 0, 0.95, "", value => _ = new TransportModel(6, value)),
        ["degree of adaptation"] = ("degree", 0, 1, "",
        value => ChromaticAdaptation.Adapt(White, White, White, AdaptationMethod.Cat16, value)),
        ["adapted white X"] = ("fromWhite.X", 1e-9, 1e9, "",
        value => ChromaticAdaptation.Adapt(White, new Xyz(value, 100, 100), White)),
        ["adapted white Y"] = ("fromWhite.Y", 1e-9, 1e9, "",
        value => ChromaticAdaptation.Adapt(White, new Xyz(100, value, 100), White)),
        ["adapted white Z"] = ("toWhite.Z", 1e-9, 1e9, "",
        value => ChromaticAdaptation.Adapt(White, White, new Xyz(100, 100, value))),
        ["luminance factor of yellowness"] = ("Y", 1e-9, 1e9, "",
        value => ColorIndices.YellownessE313(new Xyz(80, value, 80), Colorimeter.D65TwoDegree)),
        ["reference L*"] = ("reference.L", -1e9, 1e9, "", value => ColorDifference.Cie76(new Lab(value, 0, 0), Grey)),
        ["sample a*"] = ("sample.A", -1e9, 1e9, "", value => ColorDifference.Ciede2000(Grey, new Lab(50, value, 0))),
        ["sample b*"] = ("sample.B", -1e9, 1e9, "", value => ColorDifference.Cie94(Grey, new Lab(50, 0, value))),
        ["reference a*"] = ("reference.A", -1e9, 1e9, "", value => ColorDifference.Cmc(new Lab(50, value, 0), Grey)),
        ["within"] = ("within", 0.001, 1, "",
        value => MetamerSpread.Find(Grey, Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree, Grid, value)),
        ["daylight"] = ("temperatureKelvin", 4000, 25000, "K", value => Illuminant.Daylight(value)),
        ["black body"] = ("temperatureKelvin", 1000, 100000, "K", value => Illuminant.Planckian(value)),
        ["limit"] = ("limit", 1e-6, 100, "",
        value => _ = new ColorCriterion("name", ColorDifferenceFormula.Ciede2000, value, "source")),
        ["CIE94 kL"] = ("kL", 1e-6, 1e6, "", value => ColorDifference.Cie94(Grey, Other, value)),
        ["CMC l"] = ("l", 1e-6, 1e6, "", value => ColorDifference.Cmc(Grey, Other, value, 1)),
        ["CMC c"] = ("c", 1e-6, 1e6, "", value => ColorDifference.Cmc(Grey, Other, 1, value)),
        ["CIEDE2000 kL"] = ("kL", 1e-6, 1e6, "", value => ColorDifference.Ciede2000(Grey, Other, value)),
        ["CIEDE2000 kC"] = ("kC", 1e-6, 1e6, "", value => ColorDifference.Ciede2000(Grey, Other, 1, value)),
        ["CIEDE2000 kH"] = ("kH", 1e-6, 1e6, "", value => ColorDifference.Ciede2000(Grey, Other, 1, 1, value)),
        ["grade"] = ("grade", 1, 100, "", value => _ = new Ceramic("family", Whole(value), Body)),
        ["strength limit"] = ("strength limit", 0.1, 100, "mm", value => StrengthLimit.Of(value)),
        ["veneer thickness"] = ("veneer thickness", 0.01, 10, "mm", value => Veneer.OfThickness(Body, value)),
        ["share of a veneer"] = ("veneer share", 0.01, 0.99, "", value => Veneer.OfShare(Body, value)),
        ["available"] = ("available thickness of zone 'zone'", 1e-3, 100, "mm",
        value => _ = new Zone("zone", Substrate.Black, value, Self)),
        ["wall of a zone"] = ("wall of zone 'zone'", 1e-3, 100, "mm",
        value => new Zone("zone", Substrate.Black, 2, Self).WithWall(value)),
        ["thinnest"] = ("ThinnestMm", 1e-3, 2, "mm",
        value => _ = new Zone("zone", Substrate.Black, 2, Self) { ThinnestMm = value }),
        ["weight"] = ("Weight", 0, 1000, "",
        value => _ = new Zone("zone", Substrate.Black, 2, Self) { Weight = value }),
        ["uncertainty of CoreMm"] = ("CoreMm", 0, 1, "mm", value => _ = new InputUncertainty { CoreMm = value }),
        ["uncertainty of VeneerMm"] = ("VeneerMm", 0, 1, "mm", value => _ = new InputUncertainty { VeneerMm = value }),
        ["uncertainty of GlazeMm"] = ("GlazeMm", 0, 1, "mm", value => _ = new InputUncertainty { GlazeMm = value }),
        ["uncertainty of LinerMm"] = ("LinerMm", 0, 1, "mm", value => _ = new InputUncertainty { LinerMm = value }),
        ["uncertainty of CementMm"] = ("CementMm", 0, 1, "mm", value => _ = new InputUncertainty { CementMm = value }),
        ["stump reflectance"] = ("StumpReflectance", 0, 0.2, "",
        value => _ = new InputUncertainty { StumpReflectance = value }),
        ["target color"] = ("TargetColor", 0, 10, "", value => _ = new InputUncertainty { TargetColor = value }),
        ["index uncertainty"] = ("RefractiveIndex", 0, 0.2, "",
        value => _ = new InputUncertainty { RefractiveIndex = value }),
        ["model uncertainty"] = ("ModelColor", 0, 10, "", value => _ = new InputUncertainty { ModelColor = value }),
        ["L* of a target"] = ("L*", 0, 100, "",
        value => Target.FromColor("wish", new Lab(value, 0, 0), Colorimeter.D65TwoDegree,
        MeasurementGeometry.Internal)),
        ["range from"] = ("minMm", 0, 100, "mm", value => _ = new ThicknessRange(value, 100)),
        ["range to"] = ("maxMm", 0.5, 100, "mm", value => _ = new ThicknessRange(0.5, value)),
        ["liner"] = ("MaximumMm", 0.01, 2, "mm", value => _ = new BlockingLinerOptions { MaximumMm = value }),
        ["wanted translucency"] = ("wantedTranslucency", 0, 100, "",
        value => Match.FindPareto(Matching, Options(), value)),
        ["veneer share"] = ("veneer share", 0.01, 0.99, "", value => _ = Options() with { VeneerShares = [value] }),
        ["step"] = ("ThicknessStepMm", 0.001, 1, "mm", value => _ = Options() with { ThicknessStepMm = value }),
        ["keep"] = ("Keep", 1, 100_000, "", value => _ = Options() with { Keep = Whole(value) }),
        ["applied"] = ("appliedThicknessMm", 0.001, 1, "mm", value => _ = new StainLayer(Body, value)),
        ["shrinkage"] = ("firingShrinkage", 0, 0.9, "", value => _ = new StainLayer(Body, 0.05, value)),
        ["maximum load"] = ("MaximumLoad", 1e-9, 1e6, "", value => _ = Stains() with { MaximumLoad = value }),
        ["maximum pigments"] = ("MaximumPigments", 1, 4, "",
        value => _ = Stains() with { MaximumPigments = Whole(value) }),
        ["load"] = ("load of 'straw'", 0, 1e6, "",
        value => Glaze.Fired(
            [new StainPart(
                new Pigment("straw", TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(Grid, 0),
                ScatteringSpectrum.Uniform(Grid, 0)), value)])),
        ["infinite layer"] = ("layer", 0, 1, "", value => Stack.InfiniteReflectance(Whole(value))),
        ["layer of a stack"] = ("layer", 0, 1, "", value => Stack.WithThickness(Whole(value), 1)),
        ["share of pieces"] = ("Share", 0.5, 0.999, "", value => _ = new MaskingOptions { Share = value }),
        ["samples of masking"] = ("Samples", 256, 1_000_000, "",
        value => _ = new MaskingOptions { Samples = Whole(value) }),
        ["samples"] = ("Samples", 256, 10_000_000, "", value => _ = new SamplingOptions { Samples = Whole(value) }),
        ["streams"] = ("streams", 6, 128, "", value => _ = new TransportModel(Whole(value))),
    };

    private static Restoration Matching => new(
        [new Zone("zone", Substrate.Black, 2,
        Target.FromReflectance("wish", ReflectanceSpectrum.Uniform(Grid, 0.5),
        MeasurementGeometry.DiffuseSpecularIncluded))],
        new Ceramic("family", 1, Body), new Layer(Body, 0.05), Criterion);

    private static Pigment Ochre =>
        new("ochre", TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(Grid, 1), ScatteringSpectrum.Uniform(Grid, 1));

    [Theory]
    [MemberData(nameof(Quantities))]
    public void Ends_are_taken_and_what_lies_beyond_is_refused_with_its_name(string quantity)
    {
        (string name, double min, double max, string unit, Action<double> use) = Ranges[quantity];
        use(min);
        use(max);
        bool isWhole = Wholes.Contains(quantity);
        string suffix = unit.Length == 0 ? "" : " " + unit;
        double below = isWhole
            ? min - 1
            : min - (1e-3 * Math.Max(1e-6, Math.Abs(min))), above = isWhole
            ? max + 1
            : max + (1e-3 * max);
        foreach (double value in isWhole ? [below, above] : (double[])[below, above, double.NaN])
        {
            ArgumentOutOfRangeException error = Assert.Throws<ArgumentOutOfRangeException>(() => use(value));
            Assert.StartsWith(
                FormattableString.Invariant($"{name} must be in [{min:R}, {max:R}]{suffix} but is {value:R}{suffix}."),
                error.Message, StringComparison.Ordinal);
        }
    }

    private static readonly string[] Wholes =
        ["grade", "keep", "maximum pigments", "infinite layer", "layer of a stack", "streams", "samples of masking",
            "samples"];

    private static int Whole(double value) => (int)value;

    private static MatchOptions Options() => new([new Ceramic("family", 1, Body)]);

    private static StainOptions Stains() => new(Glaze, [Ochre]);

    private static StackResponse Compiled() =>
        Stack.Compile(MeasurementGeometry.Internal, [new VariableThickness(0, new ThicknessRange(0.2, 3))]);
}
