using CeramicOptics.Layers.Lateral;

namespace CeramicOptics.Layers.TwoFlux;

/// <summary>Two-flux theory (Kubelka-Munk) with a diffuse Fresnel boundary at every jump of refractive index.</summary>
/// <remarks>
/// Fast, and close for thick layers that scatter much; for thin or clear ones off by several units of CIEDE2000, see
/// docs/validation.md. Immutable and safe to share.
/// </remarks>
public sealed class TwoFluxModel : IOpticalModel, IFormattable
{
    private TwoFluxModel()
    {
    }

    /// <summary>The model; it has no settings.</summary>
    public static TwoFluxModel Instance { get; } = new();

    /// <summary>"two-flux theory".</summary>
    public string Name => "two-flux theory";

    /// <summary>0.6: from 0.86 CIEDE2000 on average in the simulated instrument of docs/validation.md.</summary>
    public double ColorStandardUncertainty => 0.6;

    /// <inheritdoc/>
    public bool IsSameTheoryAs(IOpticalModel other) => other is TwoFluxModel;

    /// <inheritdoc/>
    public override string ToString() => ToString(null);

    /// <summary>The same in the language of a culture.</summary>
    /// <param name="provider">A culture or a <see cref="Language"/>; null for English.</param>
    public string ToString(IFormatProvider? provider) => Language.Of(provider).NameOf(Name);

    string IFormattable.ToString(string? format, IFormatProvider? provider) => ToString(provider);

    IOpticalModel IOpticalModel.Coarse => this;

    StackSampler IOpticalModel.SamplerFor(LayerStack stack, MeasurementGeometry geometry) =>
        new TwoFluxSampler(stack, geometry);

    LateralSampler IOpticalModel.LateralSamplerFor(LayerStack stack, MeasurementGeometry geometry) =>
        new TwoFluxLateralSampler(stack, geometry);
}
