using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Appearance;

/// <summary>
/// What must be shown with the colour of a stack: estimates, areas, short spectra, unknown uncertainties.
/// </summary>
internal static class StackCautions
{
    public static IReadOnlyList<Caution> Of(
        AppearanceOptions options, IEnumerable<UncertainStack> stacks, params Substrate[] backings)
    {
        LayerStack[] all = [.. stacks.Select(stack => stack.Stack)];
        double held = options.Under.Weighting(all[0].Grid).HeldFraction;
        return Guard.Copy(
            all.Select(stack => stack.Substrate).Concat(backings).SelectMany(Caution.OfStump)
                .Concat(held > 0 ? [new Caution(CautionKind.ShortSpectrum, value: held)] : [])
                .Concat(all.SelectMany(stack => stack.Layers).Select(layer => layer.Material)
                    .Where(material => material.Uncertainty is null)
                    .Select(material => new Caution(CautionKind.UncertaintyIncomplete, material.Name)))
                .Distinct());
    }
}
