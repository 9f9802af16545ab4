using CeramicOptics.Colorimetry.Differences;

namespace CeramicOptics.Selection;

/// <summary>Answer to: how thick must this layer be so that the stump does not show?</summary>
public sealed record MaskingResult
{
    internal MaskingResult()
    {
    }

    /// <summary>Which of the three answers it is.</summary>
    public required MaskingOutcome Outcome { get; init; }

    /// <summary>Smallest thickness from which on every thickness of the range meets the criterion, mm; null when not masked.</summary>
    public required double? OpticalMinimumMm { get; init; }

    /// <summary>The optical minimum, or the structural one where that is larger, mm; null when not masked or when the structural minimum is above the range.</summary>
    public required double? RecommendedMinimumMm { get; init; }

    /// <summary>Standard uncertainty of the optical minimum, mm, first order; null unless the outcome is <see cref="MaskingOutcome.MaskedFrom"/> and the material carries its uncertainty.</summary>
    /// <remarks>From the uncertainties of K and S (with correlation), of the disc's thickness and of the stump reading.</remarks>
    public required double? ThicknessStandardUncertaintyMm { get; init; }

    /// <summary>Standard uncertainty of the difference at <see cref="Limiting"/>, first order, from what is known of it.</summary>
    public required double DifferenceStandardUncertainty { get; init; }

    /// <summary>The limiting stump and illuminant: at the optical minimum, or at the largest thickness when not masked.</summary>
    public required WorstCase Limiting { get; init; }

    /// <summary>The smallest worst-case difference in the range (to 0.01), and where it is reached.</summary>
    public required WorstCase Best { get; init; }

    /// <summary>Every thickness at which the worst difference passes the limit, rising.</summary>
    public required IReadOnlyList<Crossing> Crossings { get; init; }

    /// <summary>
    /// Difference by exact radiative transfer less that by two-flux theory, for the limiting stump and illuminant at the recommended
    /// minimum (or the largest thickness where there is none); null when the conditions leave the check out.
    /// </summary>
    public required double? ModelDeparture { get; init; }

    /// <summary>The range searched, mm.</summary>
    public required (double Min, double Max) RangeMm { get; init; }

    /// <summary>The criterion asked for.</summary>
    public required ColorCriterion Criterion { get; init; }

    /// <summary>What the restoration was compared with.</summary>
    public required MaskingReference Reference { get; init; }

    /// <summary>What must be shown with this result.</summary>
    public required IReadOnlyList<Caution> Cautions { get; init; }

    /// <summary>True when a thickness meets the criterion and nothing thinner than strength allows is needed.</summary>
    public bool MasksAt(double thicknessMm) => RecommendedMinimumMm is double minimum && thicknessMm >= minimum && thicknessMm <= RangeMm.Max;
}
