namespace CeramicOptics.Characterization;

/// <summary>What readings tell, or do not tell, about K and S at one wavelength or about surface terms.</summary>
public enum FindingKind
{
    /// <summary>
    /// The disc reads no brighter over white than over black: swapped readings or a fault. K and S are not determined.
    /// Values: the readings over black and over white.
    /// </summary>
    BlackNotBelowWhite,

    /// <summary>
    /// The two readings differ by less than three times their noise: only K/S could be determined. K and S are not
    /// determined. Value: their difference.
    /// </summary>
    TooOpaque,

    /// <summary>
    /// A reading lies outside what a body of this index and geometry can give. K and S are not determined.
    /// Values: the readings over black and over white, the least and the largest possible, the refractive index.
    /// </summary>
    OutsideSurfaceModel,

    /// <summary>
    /// The backings themselves hardly differ, so they cannot reveal the disc. K and S are not determined. Values: what
    /// the disc sees of the dark and of the light one.
    /// </summary>
    BackingsAlike,

    /// <summary>
    /// No layer with K and S of zero or more gives both readings within three times their noise. K and S are not
    /// determined. Value: by how many times the noise the best layer misses.
    /// </summary>
    Inconsistent,

    /// <summary>
    /// More readings than K and S can explain: chi-square is far above its expectation. Determined, with enlarged
    /// uncertainty; do not trust the model here. Values: chi-square, degrees of freedom, enlargement of uncertainties.
    /// Of surface terms: the first two, for all wavelengths together.
    /// </summary>
    PoorFit,

    /// <summary>
    /// The readings leave K or S open: its standard uncertainty exceeds it and the noise cannot tell. K and S are not
    /// determined. Values: K, its standard uncertainty, S, its standard uncertainty, 1/mm; none where layers with a
    /// pigment tell nothing at all of it, or where the light that a window loses does not settle. Of surface terms:
    /// their standard uncertainties exceed 0.5 for the share or 0.1 for the internal reflectance; no values.
    /// </summary>
    Undetermined,

    /// <summary>
    /// The readings fit another film between disc and backing much better than the one stated
    /// (<see cref="CharacterizationResult.Coupling"/>). Determined, but check the record before relying on it. Values:
    /// chi-square with the film stated and with the other, degrees of freedom, S with each, 1/mm; S with the other
    /// alone where the film stated determines it nowhere.
    /// </summary>
    CouplingDoubtful,

    /// <summary>K is zero within noise and set to zero; S is fitted to both readings. Determined.</summary>
    AbsorptionBelowDetection,

    /// <summary>S is zero within noise and set to zero; K is fitted to both readings. Determined.</summary>
    ScatteringBelowDetection,

    /// <summary>
    /// A window loses light that leaves the disc outside it. K and S are corrected. Stands once, at the wavelength of
    /// the largest loss. Determined. Values: the share lost, K without the correction and with it, S without and with
    /// it, 1/mm; the share alone where K and S without the correction are not determined.
    /// </summary>
    LightLostSideways,

    /// <summary>
    /// So little scattering, or a polished side so near, that the correction for a window was not compared with Monte
    /// Carlo or is worse than stated. Stands once, at the wavelength of the least scattering. Determined. Values:
    /// reduced scattering, and the least that was compared, 1/mm.
    /// </summary>
    OutsideTestedWindows,

    /// <summary>
    /// The illuminated and measured area is not stated and was taken as large. Stands once, in the middle of the range.
    /// Determined. Values: K and S if the window had a radius of 2 mm, 1/mm; none where no layer would read so.
    /// </summary>
    AreaNotStated,

    /// <summary>
    /// A disc is thicker than 4 mm: unless it is very translucent it hides its backing and tells little of K and S
    /// (common practice, no source). Is the thickness correct? Determined. Value: thickness of the thickest disc, mm.
    /// </summary>
    ThickDisc,

    /// <summary>
    /// A disc is thinner than 0.1 mm, which discs rarely are (common practice, no source). Is the thickness correct,
    /// and in millimetres? Determined. Value: thickness of the thinnest disc, mm.
    /// </summary>
    ThinDisc,

    /// <summary>
    /// Of <see cref="SurfaceFit"/>: fewer than three reflectances leave nothing beside K and S. The terms are not
    /// determined. Value: how many there are.
    /// </summary>
    TooFewReadings,

    /// <summary>
    /// Of <see cref="SurfaceFit"/>: a term came to the end of its range, where the fit holds it. Given, but do not
    /// trust it. Values: the share and the internal reflectance.
    /// </summary>
    AtLimit,
}
