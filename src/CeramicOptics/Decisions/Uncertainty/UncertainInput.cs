namespace CeramicOptics.Decisions.Uncertainty;

/// <summary>An uncertain input of a prediction.</summary>
public enum UncertainInput
{
    /// <summary>Thickness of a layer.</summary>
    Thickness,

    /// <summary>Common scale of K and S of a material, from the thickness of its disc.</summary>
    CoefficientScale,

    /// <summary>Noise of the readings from which K and S of a material were found.</summary>
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
