using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Appearance;

/// <summary>A stack with the uncertainties of its inputs.</summary>
/// <remarks>
/// Inputs are normal and independent, but one material is the same wherever it occurs: errors of its K, S and index are
/// shared by all layers of that <see cref="Material"/>, also in another stack, and so is the error of one
/// <see cref="Substrate"/>. Thicknesses of layers are independent. Immutable.
/// </remarks>
public sealed class UncertainStack : Formattable
{
    /// <summary>A stack.</summary>
    /// <param name="stack">The stack over its substrate.</param>
    /// <param name="thicknessStandardUncertaintiesMm">Standard uncertainty of the thickness of each layer, from the
    /// surface down, 0 to 1 mm.</param>
    /// <param name="inputs">Uncertainties of the substrate (<see cref="InputUncertainty.StumpReflectance"/>), of
    /// refractive indices and of the model; the others are not used. The default when null.</param>
    /// <exception cref="ArgumentException">Not one uncertainty for each layer.</exception>
    /// <exception cref="ArgumentOutOfRangeException">An uncertainty is outside its range or NaN.</exception>
    public UncertainStack(
        LayerStack stack, IEnumerable<double> thicknessStandardUncertaintiesMm, InputUncertainty? inputs = null)
    {
        Stack = Guard.NotNull(stack);
        ThicknessStandardUncertaintiesMm = Guard.Copy(thicknessStandardUncertaintiesMm);
        Inputs = inputs ?? new InputUncertainty();
        if (ThicknessStandardUncertaintiesMm.Count != stack.Layers.Count)
        {
            throw new ArgumentException(
                $"The stack has {Guard.Text(stack.Layers.Count)} layer(s) but "
                    + $"{Guard.Text(ThicknessStandardUncertaintiesMm.Count)} uncertainties of thickness are given.",
                nameof(thicknessStandardUncertaintiesMm));
        }

        for (int j = 0; j < stack.Layers.Count; j++)
        {
            Guard.InRange(
                ThicknessStandardUncertaintiesMm[j], 0, 1, "mm",
                $"uncertainty of the thickness of '{stack.Layers[j].Material.Name}'");
        }
    }

    /// <summary>The stack.</summary>
    internal LayerStack Stack { get; }

    /// <summary>Standard uncertainty of the thickness of each layer, from the surface down, mm.</summary>
    internal IReadOnlyList<double> ThicknessStandardUncertaintiesMm { get; }

    /// <summary>Uncertainties of substrate, refractive indices and model.</summary>
    internal InputUncertainty Inputs { get; }

    /// <summary>
    /// The stack of a restoration in one of its zones at the available thickness, with the restoration's uncertainties.
    /// </summary>
    /// <param name="restoration">The restoration.</param>
    /// <param name="zone">One of its zones.</param>
    public static UncertainStack Of(Restoration restoration, Zone zone) => new(
        Guard.NotNull(restoration).StackOver(Guard.NotNull(zone).Stump, zone.AvailableMm),
        restoration.LayersOf(zone.AvailableMm).Select(item => restoration.Uncertainty.ThicknessMm(item.Role)),
        restoration.Uncertainty);

    /// <summary>Layers from the surface down, for example "enamel 0.3 mm, body 0.9 mm on stump".</summary>
    private protected override string InWords(Language language) =>
        language.Text("UncertainStack", language.Join(", ", Stack.Layers), Stack.Substrate.Name);

    internal OwnError OwnError => Inputs.ModelColor is double each
        ? OwnError.Equal(each)
        : Stack.Model.OwnError.Of(Stack.Layers);
}
