namespace CeramicOptics.Characterization;

/// <summary>Why surface terms cannot be determined from readings, or should not be trusted.</summary>
public enum SurfaceFindingKind
{
    /// <summary>
    /// Fewer than three reflectances: they suffice for K and S only. The terms are not determined. Value: how many
    /// there are.
    /// </summary>
    TooFewReadings,

    /// <summary>
    /// The thicknesses and backings cannot separate the terms from K and S: their standard uncertainties exceed 0.5 for
    /// the share or 0.1 for the internal reflectance. The terms are not determined. No values.
    /// </summary>
    Undetermined,

    /// <summary>
    /// Chi-square is far above its expectation: two-flux theory with these terms does not describe the readings. The
    /// terms are given with enlarged uncertainty. Values: chi-square, degrees of freedom.
    /// </summary>
    PoorFit,

    /// <summary>
    /// A term came to the end of its range, where the fit holds it. Given, but do not trust it. Values: the share and
    /// the internal reflectance.
    /// </summary>
    AtLimit,
}
