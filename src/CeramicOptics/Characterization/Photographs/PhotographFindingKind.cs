namespace CeramicOptics.Characterization.Photographs;

/// <summary>What must be known about colours from a photograph.</summary>
public enum PhotographFindingKind
{
    /// <summary>The values are display values: the curve does not undo what else the camera changed.</summary>
    DisplayValues,

    /// <summary>
    /// A channel of a patch of the tooth is clipped, in whole or in some pixels: its colour is not determined.
    /// </summary>
    ClippedChannel,

    /// <summary>
    /// A channel of a patch of the chart is clipped, in whole or in some pixels: the patch is left out.
    /// </summary>
    ClippedChartPatch,

    /// <summary>
    /// The colour lies outside the convex hull of the chart's colours in L*a*b*, so that the correction extrapolates.
    /// </summary>
    OutsideChartGamut,

    /// <summary>The chart has fewer than three patches for every two terms of the method asked for.</summary>
    FewPatchesForTerms,

    /// <summary>
    /// The mean leave-one-out difference of the chart is above the acceptability threshold of CIEDE2000.
    /// </summary>
    LargeChartError,

    /// <summary>
    /// A patch of the chart lies far from what all others predict: glare, shadow, dirt, a wrong known colour,
    /// or a colour beyond the method. It is not left out.
    /// </summary>
    OutlyingChartPatch,

    /// <summary>
    /// The spread of the pixels of a patch is not given, so that its noise is not part of the uncertainty.
    /// </summary>
    NoiseNotGiven,
}
