using CeramicOptics.Layers;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Appearance;

/// <summary>
/// What must be shown with the colour of a stack: estimates, areas, short spectra, unknown uncertainties, theory.
/// </summary>
internal static class StackCautions
{
    public static IReadOnlyList<Caution> Of(
        AppearanceOptions options, IEnumerable<UncertainStack> stacks, params Substrate[] backings)
    {
        UncertainStack[] given = [.. stacks];
        LayerStack[] all = [.. given.Select(stack => stack.Stack)];
        double held = options.Under.Weighting(all[0].Grid).HeldFraction;
        return Guard.Copy(
            all.Select(stack => stack.Substrate).Concat(backings).SelectMany(Caution.OfStump)
                .Concat(held > 0 ? [new Caution(CautionKind.ShortSpectrum, value: held)] : [])
                .Concat(all.SelectMany(stack => stack.Layers).Select(layer => layer.Material)
                    .Where(material => material.Uncertainty is null)
                    .Select(material => new Caution(CautionKind.UncertaintyIncomplete, material.Name)))
                .Distinct()
                .Concat(given.Where(stack => stack.Stack.Model is TwoFluxModel).GroupBy(Names)
                    .Select(group => new Caution(
                        CautionKind.TwoFluxTheory, group.Key,
                        Math.Round(group.Max(stack => stack.OwnError.L), 2)))));
    }

    private static string Names(UncertainStack stack) =>
        string.Join(", ", stack.Stack.Layers.Select(layer => layer.Material.Name).Distinct());
}
