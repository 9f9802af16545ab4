using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Selection;

namespace CeramicOptics.Mapping;

/// <summary>What a wall must be at least so that the stump does not show: the part of a <see cref="MaskingResult"/> that maps use and that is stored with a response.</summary>
/// <remarks>Immutable.</remarks>
public sealed record WallRequirement
{
    internal WallRequirement()
    {
    }

    /// <summary>Smallest thickness from which on every thickness of the range meets the criterion, mm; null when not masked.</summary>
    public required double? OpticalMinimumMm { get; init; }

    /// <summary>The optical minimum, or what strength asks for where that is more, mm; null when not masked or when it is above the range.</summary>
    public required double? RecommendedMinimumMm { get; init; }

    /// <summary>Standard uncertainty of the optical minimum, mm, first order; null where it is not known.</summary>
    public required double? ThicknessStandardUncertaintyMm { get; init; }

    /// <summary>Smallest wall that strength allows, mm, as it was given; null when not known.</summary>
    public required double? StructuralMinimumMm { get; init; }

    /// <summary>The criterion asked for.</summary>
    public required ColorCriterion Criterion { get; init; }

    /// <summary>What must be shown with numbers that rest on this.</summary>
    public required IReadOnlyList<Caution> Cautions { get; init; }

    internal static WallRequirement From(MaskingResult masking, double? structuralMinimumMm) => new()
    {
        OpticalMinimumMm = masking.OpticalMinimumMm,
        RecommendedMinimumMm = masking.RecommendedMinimumMm,
        ThicknessStandardUncertaintyMm = masking.ThicknessStandardUncertaintyMm,
        StructuralMinimumMm = structuralMinimumMm,
        Criterion = masking.Criterion,
        Cautions = masking.Cautions,
    };
}
