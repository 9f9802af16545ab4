using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Layers;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Native;

/// <summary>Makes the map that a <c>ceramic_case</c> of the header describes.</summary>
internal static unsafe class CaseReader
{
    private const int MaximumWavelengths = 10_000;

    public static NativeMap Compile(in CaseInput input, ProgressCall progress)
    {
        Fields.Size(input.Size, sizeof(CaseInput), "ceramic_case");
        double min = input.MinMm, max = input.MaxMm, veneerMin = input.VeneerMinMm, veneerMax = input.VeneerMaxMm;
        double startNm = input.StartNm, stepNm = input.StepNm, share = input.ReliableShare;
        int count = Fields.InRange(input.Wavelengths, 2, MaximumWavelengths, "case.wavelengths");
        WavelengthGrid grid = Fields.Of("case.", () => new WavelengthGrid(startNm, stepNm, count));
        ThicknessRange range = Fields.Of("case.", () => new ThicknessRange(min, max));
        ThicknessRange? veneer = double.IsNaN(veneerMin) && double.IsNaN(veneerMax)
            ? null
            : Fields.Of("case.veneer_", () => new ThicknessRange(veneerMin, veneerMax));
        Dictionary<LayerRole, Layer> layers = LayerReader.Read(input, grid, isVeneered: veneer is not null);
        List<Zone> zones = ZoneReader.Read(input, grid, range.MaxMm);
        Restoration restoration = RestorationOf(input, layers, zones, CriterionOf(input)) with
        {
            Viewing = ZoneReader.ViewingOf(input),
            Uncertainty = ZoneReader.UncertaintyOf(input.Uncertainty),
        };
        MaskingOptions masking = double.IsNaN(share)
            ? new MaskingOptions()
            : Fields.Of("case.reliable_share", () => new MaskingOptions { Share = share });
        if (veneer is not ThicknessRange varied)
        {
            restoration = restoration with { WallRange = range };
            return Fields.Of<NativeMap>("case", () => new OneLayerMap([.. zones.Select((zone, i) =>
                ThicknessResponse.Compile(
                    restoration, zone, masking, progress.Part(i, zones.Count), progress.Cancellation))]));
        }

        return Fields.Of<NativeMap>("case", () => new TwoLayerNativeMap([.. zones.Select((zone, i) =>
            TwoLayerResponse.Compile(
                restoration, zone, varied, range, masking, progress.Part(i, zones.Count),
                progress.Cancellation))]));
    }

    private static ColorCriterion CriterionOf(in CaseInput input)
    {
        double limit = input.Limit;
        ColorDifferenceFormula formula = Fields.Choice(
            input.Formula, 2, "case.formula", "CERAMIC_CIEDE2000 (1) or CERAMIC_CIELAB (2)") == 1
            ? ColorDifferenceFormula.Ciede2000
            : ColorDifferenceFormula.Cie76;
        return Fields.Of(
            "case.limit", () => new ColorCriterion("limit of the caller", formula, limit, "the caller"));
    }

    private static Restoration RestorationOf(
        in CaseInput input, Dictionary<LayerRole, Layer> layers, List<Zone> zones, ColorCriterion criterion)
    {
        double index = input.CouplingIndex;
        Ceramic core = new("core", 1, layers[LayerRole.Core].Material);
        Layer? veneer = layers.GetValueOrDefault(LayerRole.Veneer);
        Restoration made;
        if (layers.TryGetValue(LayerRole.Cement, out Layer? cement))
        {
            Fields.Unset(index, "case.coupling_index", "a cement fills the gap above the stump");
            made = Fields.Of("case.zones", () => new Restoration(zones, core, cement, criterion));
        }
        else
        {
            CouplingMedium medium = Fields.Of(
                "case.coupling_index (there is no cement)", () => new CouplingMedium("coupling medium", index));
            made = Fields.Of("case.zones", () => new Restoration(zones, core, medium, criterion));
        }

        return made with
        {
            Glaze = layers.GetValueOrDefault(LayerRole.Glaze),
            Liner = layers.GetValueOrDefault(LayerRole.Liner),
            Veneer = veneer is null
                ? null
                : Fields.Of(
                    "thickness_mm of the veneer", () => Veneer.OfThickness(veneer.Material, veneer.ThicknessMm)),
        };
    }
}
