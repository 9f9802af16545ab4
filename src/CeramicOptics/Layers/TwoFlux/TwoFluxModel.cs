using CeramicOptics.Layers.Lateral;

namespace CeramicOptics.Layers.TwoFlux;

/// <summary>Two-flux theory (Kubelka-Munk) with a diffuse Fresnel boundary at every jump of refractive index.</summary>
/// <remarks>
/// Fast, and accurate for thick layers that scatter strongly; for thin or clear ones off by several units of CIEDE2000
/// (docs/validation.md). Immutable and safe to share.
/// </remarks>
public sealed class TwoFluxModel : Formattable, IOpticalModel
{
    private TwoFluxModel()
    {
    }

    /// <summary>The model; it has no settings.</summary>
    public static TwoFluxModel Instance { get; } = new();

    string IOpticalModel.Name => "two-flux theory";

    bool IOpticalModel.IsSameTheoryAs(IOpticalModel other) => other is TwoFluxModel;

    private protected override string InWords(Language language) => language.NameOf(((IOpticalModel)this).Name);

    OwnErrorLaw IOpticalModel.OwnError { get; } = new()
    {
        Floor = 0.034, Clear = 0.082, ThinnestDisc = 0.3,
        Thin = 0.885, ThinPower = 1.216, ThinFall = 0.475, ThinIndex = 0.364,
        Thick = 1.481, ThickReach = 0.651, ThickFall = 0.96, ThickIndex = 0.263,
        Axes = new OwnError(1.45, 0.26, 0.9, 0.88, 2.3),
    };

    IOpticalModel IOpticalModel.Coarse => this;

    StackSampler IOpticalModel.SamplerFor(LayerStack stack, MeasurementGeometry geometry) =>
        new TwoFluxSampler(stack, geometry);

    LateralSampler IOpticalModel.LateralSamplerFor(LayerStack stack, MeasurementGeometry geometry) =>
        new TwoFluxLateralSampler(stack, geometry);
}
