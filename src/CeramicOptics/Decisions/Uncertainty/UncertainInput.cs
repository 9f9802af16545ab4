namespace CeramicOptics.Decisions.Uncertainty;

/// <summary>What is uncertain about a prediction.</summary>
public enum UncertainInput
{
    /// <summary>Thickness of a layer.</summary>
    Thickness,

    /// <summary>Common scale of K and S of a material, from the thickness of its disc.</summary>
    CoefficientScale,

    /// <summary>Noise of the readings that K and S of a material come from.</summary>
    CoefficientNoise,

    /// <summary>Refractive index of a material.</summary>
    RefractiveIndex,

    /// <summary>Reading of the stump.</summary>
    Stump,

    /// <summary>Reading of the target.</summary>
    Target,

    /// <summary>The optical model itself.</summary>
    Model,
}
