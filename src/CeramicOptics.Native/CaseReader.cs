using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Native;

/// <summary>Makes the restoration that a <c>ceramic_case</c> of the header describes.</summary>
internal static unsafe class CaseReader
{
    private const int MaximumWavelengths = 10_000;

    // By their numbers in the header.
    private static readonly LayerRole[] Roles = [LayerRole.Glaze, LayerRole.Veneer, LayerRole.Core, LayerRole.Liner,
        LayerRole.Cement];

    public static Restoration Read(in CaseInput input)
    {
        int count = Exports.InRange(input.Wavelengths, 2, MaximumWavelengths, "wavelengths");
        WavelengthGrid grid = new(input.StartNm, input.StepNm, count);
        IOpticalModel model = ModelOf(input.Model);
        Dictionary<LayerRole, (Material Material, double ThicknessMm)> layers = LayersOf(input, grid, model);
        if (!layers.TryGetValue(LayerRole.Core, out (Material Material, double ThicknessMm) core))
        {
            throw new ArgumentException("one layer must have the role CERAMIC_CORE.");
        }

        ThicknessRange range = new(input.MinMm, input.MaxMm);
        Zone zone = new("zone", StumpOf(input, grid), range.MaxMm, ReferenceOf(input));
        Ceramic ceramic = new("core", 1, core.Material) { Strength = StrengthOf(input) };
        ColorDifferenceFormula formula = Exports.InRange(input.Formula, 0, 1, "formula") == 0
            ? ColorDifferenceFormula.Ciede2000
            : ColorDifferenceFormula.Cie76;
        ColorCriterion criterion = new("limit of the caller", formula, input.Limit, "the caller");
        Layer? LayerOf(LayerRole role) =>
            layers.TryGetValue(role, out var layer) ? new Layer(layer.Material, layer.ThicknessMm) : null;
        Layer? cement = LayerOf(LayerRole.Cement);
        Restoration restoration = cement is not null
            ? new Restoration([zone], ceramic, cement, criterion)
            : new Restoration([zone], ceramic, new CouplingMedium("coupling medium", input.CouplingIndex), criterion);
        return restoration with
        {
            WallRange = range,
            Glaze = LayerOf(LayerRole.Glaze),
            Liner = LayerOf(LayerRole.Liner),
            Veneer = layers.TryGetValue(LayerRole.Veneer, out var veneer) ? Veneer.OfThickness(veneer.Material,
            veneer.ThicknessMm) : null,
        };
    }

    private static IOpticalModel ModelOf(int model) => model switch
    {
        1 => TwoFluxModel.Instance,
        2 => TransportModel.Default,
        0 => throw new ArgumentException(
            "model is not stated: say by which theory K and S were found, CERAMIC_TWO_FLUX or "
                + "CERAMIC_RADIATIVE_TRANSFER."),
        _ => throw new ArgumentException(
            $"model must be 1 (CERAMIC_TWO_FLUX) or 2 (CERAMIC_RADIATIVE_TRANSFER) but is {model}."),
    };

    private static Dictionary<LayerRole, (Material Material, double ThicknessMm)> LayersOf(
        in CaseInput input, WavelengthGrid grid, IOpticalModel model)
    {
        Dictionary<LayerRole, (Material Material, double ThicknessMm)> layers = [];
        Exports.InRange(input.Layers, 1, Roles.Length, "layer_count");
        Exports.Require(input.Layer, "layers");
        for (int i = 0; i < input.Layers; i++)
        {
            LayerInput layer = input.Layer[i];
            LayerRole role = Roles[Exports.InRange(layer.Role, 1, Roles.Length, $"role of layer {i}") - 1];
            Exports.Require(layer.Absorption, $"absorption of layer {i}");
            Exports.Require(layer.Scattering, $"scattering of layer {i}");
            double[] k = new ReadOnlySpan<double>(layer.Absorption, grid.Count).ToArray();
            double[] s = new ReadOnlySpan<double>(layer.Scattering, grid.Count).ToArray();
            CoefficientUncertainty? uncertainty =
                double.IsNaN(layer.RelativeUncertainty)
                    ? null
                    : CoefficientUncertainty.OfScale(grid, layer.RelativeUncertainty);
            Material material = new(
                role.ToString().ToLowerInvariant(), model, new AbsorptionSpectrum(grid, k),
                new ScatteringSpectrum(grid, s), layer.RefractiveIndex, uncertainty);
            if (!layers.TryAdd(role, (material, layer.ThicknessMm)))
            {
                throw new ArgumentException(
                    $"layer {i} has the role of a layer before it; each role can be given once.");
            }
        }

        return layers;
    }

    private static Substrate StumpOf(in CaseInput input, WavelengthGrid grid)
    {
        Exports.Require(input.StumpReflectance, "stump_reflectance");
        ReflectanceSpectrum bare = new(grid, new ReadOnlySpan<double>(input.StumpReflectance, grid.Count).ToArray());
        return Substrate.FromMeasuredReflectance("stump", bare, input.StumpRefractiveIndex);
    }

    private static ColorReference ReferenceOf(in CaseInput input) =>
        Exports.InRange(input.Reference, 0, 1, "reference") == 0
        ? MaskingReference.SelfBacked
        : Target.FromColor(
            "target", new Lab(input.TargetL, input.TargetA, input.TargetB), Colorimeter.D65TwoDegree,
            MeasurementGeometry.DiffuseSpecularIncluded);

    private static StrengthLimit StrengthOf(in CaseInput input) => double.IsNaN(input.StrengthLimitMm)
        ? StrengthLimit.NotGiven
        : StrengthLimit.Of(
            input.StrengthLimitMm,
            Exports.InRange(input.StrengthScope, 0, 1,
            "strength_scope") == 0 ? StrengthScope.Core : StrengthScope.CoreAndVeneer);
}
