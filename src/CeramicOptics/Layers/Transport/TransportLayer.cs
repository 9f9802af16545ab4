namespace CeramicOptics.Layers.Transport;

/// <summary>One layer as radiative transfer sees it, at one wavelength.</summary>
/// <remarks>Immutable. The default is an empty layer of index 0 and is refused.</remarks>
public readonly record struct TransportLayer
{
    /// <summary>A layer.</summary>
    /// <param name="absorptionPerMm">Absorption coefficient μa, 0 to 1e6 1/mm.</param>
    /// <param name="scatteringPerMm">Scattering coefficient μs (not reduced), 0 to 1e6 1/mm.</param>
    /// <param name="anisotropy">Mean cosine g of the scattering angle, Henyey-Greenstein, 0 to 0.99.</param>
    /// <param name="thicknessMm">Thickness, 0 to 1e6 mm.</param>
    /// <param name="refractiveIndex">Index, 1 to 4.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range or NaN.</exception>
    public TransportLayer(
        double absorptionPerMm, double scatteringPerMm, double anisotropy, double thicknessMm, double refractiveIndex)
    {
        AbsorptionPerMm = Guard.InRange(absorptionPerMm, 0, 1e6, "1/mm");
        ScatteringPerMm = Guard.InRange(scatteringPerMm, 0, 1e6, "1/mm");
        Anisotropy = Guard.InRange(anisotropy, 0, 0.99, "");
        ThicknessMm = Guard.InRange(thicknessMm, 0, 1e6, "mm");
        RefractiveIndex = Guard.InRange(
            refractiveIndex, Layers.RefractiveIndex.Minimum, Layers.RefractiveIndex.Maximum, "");
    }

    /// <summary>Absorption coefficient μa, 1/mm.</summary>
    internal double AbsorptionPerMm { get; }

    /// <summary>Scattering coefficient μs, 1/mm.</summary>
    internal double ScatteringPerMm { get; }

    /// <summary>Mean cosine g of the scattering angle.</summary>
    internal double Anisotropy { get; }

    /// <summary>Thickness, mm.</summary>
    internal double ThicknessMm { get; }

    /// <summary>Refractive index.</summary>
    internal double RefractiveIndex { get; }

    /// <summary>
    /// The layer that has the given Kubelka-Munk coefficients where two-flux theory is exact, deep inside a thick
    /// layer.
    /// </summary>
    /// <param name="absorptionPerMm">K, 1/mm.</param>
    /// <param name="scatteringPerMm">S, 1/mm.</param>
    /// <param name="anisotropy">Mean cosine g.</param>
    /// <param name="thicknessMm">Thickness, mm.</param>
    /// <param name="refractiveIndex">Index.</param>
    /// <remarks>
    /// K = 2 μa and S = 3/4 μs (1 - g) - 1/4 μa, so μa = K/2 and μs (1 - g) = (4 S + μa)/3 (van Gemert, Star 1987).
    /// So light decays deep inside as in diffusion theory: K (K + 2 S) = 3 μa (μa + μs (1 - g)).
    /// </remarks>
    internal static TransportLayer FromTwoFlux(
        double absorptionPerMm, double scatteringPerMm, double anisotropy, double thicknessMm, double refractiveIndex)
    {
        double absorption = absorptionPerMm / 2, reducedScattering = ((4 * scatteringPerMm) + absorption) / 3;
        return new TransportLayer(
            absorption, reducedScattering / (1 - Guard.InRange(anisotropy, 0, 0.99, "")), anisotropy, thicknessMm,
            refractiveIndex);
    }
}
