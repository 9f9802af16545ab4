using CeramicOptics.Layers;

namespace CeramicOptics.Characterization;

/// <summary>What is known, or assumed, of the scattering of a thick body such as a tooth, a stump or a tab.</summary>
/// <remarks>
/// Immutable, equal by value. Enamel has a reduced scattering of about 2 per mm at 633 nm (Zijp, ten Bosch, Groenhuis
/// 1995, J. Dent. Res. 74: 6.6 per mm, anisotropy 0.68). For dentine 2 to 4 per mm are in use (not verified: inputs of
/// public simulations that cite Fried et al. 1995, Appl. Opt. 34:1278-1285). Both vary, so that a relative uncertainty
/// of 0.3 or more is prudent.
/// </remarks>
public sealed record BodyScattering
{
    /// <summary>The scattering of a body.</summary>
    /// <param name="refractiveIndex">Index of the body.</param>
    /// <param name="reducedScatteringPerMm">μs (1 - g), equal at all wavelengths, 0.3 to 100 1/mm.</param>
    /// <param name="relativeStandardUncertainty">Relative standard uncertainty of it, 0 to 1.</param>
    /// <param name="anisotropy">
    /// Mean cosine g, 0 to 0.95; null where it is not known, which is then part of the uncertainty.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range or NaN.</exception>
    public BodyScattering(
        RefractiveIndex refractiveIndex, double reducedScatteringPerMm, double relativeStandardUncertainty,
        double? anisotropy = null)
    {
        RefractiveIndex = refractiveIndex;
        ReducedScatteringPerMm = Guard.InRange(reducedScatteringPerMm, 0.3, 100, "1/mm");
        RelativeStandardUncertainty = Guard.InRange(relativeStandardUncertainty, 0, 1, "");
        Anisotropy = anisotropy is double g ? Guard.InRange(g, 0, 0.95, "", nameof(anisotropy)) : null;
    }

    /// <summary>Index of the body.</summary>
    internal RefractiveIndex RefractiveIndex { get; }

    /// <summary>Reduced scattering μs (1 - g), 1/mm.</summary>
    internal double ReducedScatteringPerMm { get; }

    /// <summary>Relative standard uncertainty of the reduced scattering.</summary>
    internal double RelativeStandardUncertainty { get; }

    /// <summary>Mean cosine of scattering; null where it is not known.</summary>
    internal double? Anisotropy { get; }

    /// <summary>S of a body with this reduced scattering and a K.</summary>
    internal double ScatteringFor(double absorption, double factor) =>
        Math.Max(0, ((3 * factor * ReducedScatteringPerMm) - (absorption / 2)) / 4);
}
