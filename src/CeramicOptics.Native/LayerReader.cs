using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Native;

/// <summary>Reads the layers of a case by their roles.</summary>
internal static unsafe class LayerReader
{
    // Any thickness will do for a layer whose thickness varies.
    private const double Varies = 1;

    // By their numbers in the header, from 1.
    private static readonly LayerRole[] Roles = [LayerRole.Glaze, LayerRole.Veneer, LayerRole.Core, LayerRole.Liner,
        LayerRole.Cement];

    public static Dictionary<LayerRole, Layer> Read(in CaseInput input, WavelengthGrid grid, bool isVeneered)
    {
        IOpticalModel model = Fields.Choice(
            input.Model, 2, "case.model", "CERAMIC_TWO_FLUX (1) or CERAMIC_RADIATIVE_TRANSFER (2), the theory by "
                + "which absorption and scattering were found") == 1
            ? TwoFluxModel.Instance
            : TransportModel.Default;
        Dictionary<LayerRole, Layer> layers = [];
        int count = Fields.InRange(input.LayerCount, 1, Roles.Length, "case.layer_count");
        Fields.Pointer(input.Layers, "case.layers");
        for (int i = 0; i < count; i++)
        {
            string place = $"case.layers[{i}]";
            Fields.Size(input.Layers[i].Size, sizeof(LayerInput), "ceramic_layer");
            LayerRole role = Roles[Fields.Choice(
                input.Layers[i].Role, Roles.Length, $"{place}.role", "CERAMIC_GLAZE (1) to CERAMIC_CEMENT (5)") - 1];
            bool varies = role == LayerRole.Core || (isVeneered && role == LayerRole.Veneer);
            if (!layers.TryAdd(role, LayerOf(input.Layers[i], place, role, model, grid, varies)))
            {
                throw new FieldException($"{place}.role is that of a layer before it; each can be given once.");
            }
        }

        if (!layers.ContainsKey(LayerRole.Core))
        {
            throw new FieldException("one of case.layers must have the role CERAMIC_CORE.");
        }

        return isVeneered && !layers.ContainsKey(LayerRole.Veneer)
            ? throw new FieldException(
                "case.veneer_min_mm and case.veneer_max_mm are given, but no layer has the role CERAMIC_VENEER.")
            : layers;
    }

    private static Layer LayerOf(
        LayerInput input, string place, LayerRole role, IOpticalModel model, WavelengthGrid grid, bool varies)
    {
        if (varies)
        {
            Fields.Unset(input.ThicknessMm, $"{place}.thickness_mm", "the map is over this thickness");
        }

        double[] k = Fields.Numbers(input.Absorption, grid.Count, $"{place}.absorption");
        double[] s = Fields.Numbers(input.Scattering, grid.Count, $"{place}.scattering");
        CoefficientUncertainty? uncertainty = double.IsNaN(input.RelativeUncertainty)
            ? null
            : Fields.Of(
                $"{place}.relative_uncertainty", () => CoefficientUncertainty.OfScale(grid, input.RelativeUncertainty));
        AbsorptionSpectrum absorption = Fields.Of($"{place}.absorption", () => new AbsorptionSpectrum(grid, k));
        ScatteringSpectrum scattering = Fields.Of($"{place}.scattering", () => new ScatteringSpectrum(grid, s));
        RefractiveIndex index = Fields.Of<RefractiveIndex>($"{place}.refractive_index", () => input.RefractiveIndex);
        Material material = Fields.Of(
            place, () => new Material(
                role.ToString().ToLowerInvariant(), model, absorption, scattering, index, uncertainty));
        return Fields.Of(
            $"{place}.thickness_mm", () => new Layer(material, varies ? Varies : input.ThicknessMm));
    }
}
