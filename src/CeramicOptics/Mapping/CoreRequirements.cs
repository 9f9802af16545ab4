using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Mapping;

/// <summary>Exact answers of the masking question for the core under evenly spaced thicknesses of veneer, the ends
/// included.</summary>
internal sealed class CoreRequirements
{
    /// <summary>Number of veneer thicknesses.</summary>
    public const int Count = 9;

    /// <exception cref="ArgumentException">A caution that belongs to every thickness is missing; names its
    /// kind.</exception>
    public CoreRequirements(
        string zoneName,
        ColorCriterion criterion,
        CoreStrength strength,
        double share,
        bool isTarget,
        IReadOnlyList<MinimumThickness> minima,
        IEnumerable<Caution> cautions)
    {
        (ZoneName, Criterion, Strength, Share, Minima) = (zoneName, criterion, strength, share, minima);
        IsTarget = isTarget;
        Cautions = Guard.Copy(cautions);
        ThicknessRequirement.RequireCautions(Cautions, strength.MinimumCoreMm(0) is not null);
    }

    public string ZoneName { get; }

    public ColorCriterion Criterion { get; }

    public CoreStrength Strength { get; }

    /// <summary>Share of pieces that reliable stands for.</summary>
    public double Share { get; }

    /// <summary>True where a wall can be too thick.</summary>
    public bool IsTarget { get; }

    /// <summary>Thicknesses of the core under each veneer, from the thinnest.</summary>
    public IReadOnlyList<MinimumThickness> Minima { get; }

    /// <summary>Cautions that do not depend on the veneer.</summary>
    public IReadOnlyList<Caution> Cautions { get; }

    /// <summary>From a core by colour to the reliable one, mm: the larger of an answer's and the next; NaN where either
    /// is not known.</summary>
    public double MarginMm(int node) => Larger(node, minimum => minimum.ReliableMm - minimum.ByColorMm);

    /// <summary>The same at the upper end of a target; 0 without one.</summary>
    public double UpperMarginMm(int node) =>
        IsTarget ? Larger(node, minimum => minimum.ByColorUpToMm - minimum.ReliableUpToMm) : 0;

    /// <summary>Thickness of the veneer for each answer, mm.</summary>
    public static double VeneerMm(ThicknessRange veneer, int node) => veneer.At(node / (Count - 1.0));

    // Math.Max gives NaN when either is.
    private double Larger(int node, Func<MinimumThickness, double?> margin) =>
        Math.Max(margin(Minima[node]) ?? double.NaN, margin(Minima[node + 1]) ?? double.NaN);
}
