using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Restorations;

namespace CeramicOptics.Mapping;

/// <summary>
/// How thick a wall, or a core under a given veneer, must be at least in one zone, with the cautions that belong to it.
/// </summary>
/// <remarks>
/// The part of a masking answer that maps use and that is stored with a response. Immutable, equal by value. It cannot
/// be without its cautions.
/// </remarks>
public sealed record ThicknessRequirement : IFormattable
{
    /// <exception cref="ArgumentException">A caution that belongs to every thickness is missing; names its
    /// kind.</exception>
    internal ThicknessRequirement(
        string zoneName, MinimumThickness minimum, double maximumMm, ColorCriterion criterion,
        IEnumerable<Caution> cautions)
    {
        (ZoneName, Minimum, MaximumMm, Criterion) = (zoneName, minimum, maximumMm, criterion);
        Cautions = Guard.Copy(cautions.Concat(MaskingThickness.CautionsOf(zoneName, minimum)).Distinct());
        RequireCautions(Cautions, minimum.StructuralMm is not null);
    }

    /// <summary>Name of the zone.</summary>
    public string ZoneName { get; }

    /// <summary>The thicknesses: by colour, reliable, structural, recommended.</summary>
    public MinimumThickness Minimum { get; }

    /// <summary>Largest thickness that was considered, mm.</summary>
    internal double MaximumMm { get; }

    /// <summary>The criterion asked for.</summary>
    public ColorCriterion Criterion { get; }

    /// <summary>Cautions that must be shown with every thickness that rests on this.</summary>
    public IReadOnlyList<Caution> Cautions { get; }

    /// <summary>The smallest thickness for a goal, mm; null when none was found in the range.</summary>
    /// <param name="goal">The goal.</param>
    /// <returns>
    /// <see cref="ThicknessGoal.Recommended"/>: null when no strength limit was given. The other two: never below a
    /// strength limit that was given. Null where strength requires more than a target allows.
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException">No such goal.</exception>
    public double? ThicknessMm(ThicknessGoal goal)
    {
        double? mm = Guard.Defined(goal) switch
        {
            ThicknessGoal.Recommended => Minimum.RecommendedMm,
            ThicknessGoal.Reliable => Minimum.ReliableMm,
            _ => Minimum.ByColorMm,
        };
        double? strong = mm is double value ? Math.Max(value, Minimum.StructuralMm ?? 0) : null;
        return strong <= MaximumMm && !(strong > UpToMm(goal)) ? strong : null;
    }

    /// <summary>The thickness up to which a goal is met, mm; null for a masking reference, where thicker walls meet it
    /// too.</summary>
    internal double? UpToMm(ThicknessGoal goal) =>
        goal == ThicknessGoal.ByColor ? Minimum.ByColorUpToMm : Minimum.ReliableUpToMm;

    /// <summary>For example "cervical: at least 1.54 mm (by colour 1.39, ...)".</summary>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider) =>
        Language.Of(provider).Text("ThicknessRequirement", ZoneName, Minimum);

    internal static void RequireCautions(IReadOnlyList<Caution> cautions, bool strengthIsGiven)
    {
        foreach (CautionKind kind in (CautionKind[])
            [CautionKind.StrengthNotAssessed, CautionKind.ToothReduction,
                .. strengthIsGiven ? (CautionKind[])[] : [CautionKind.StrengthLimitNotGiven]])
        {
            if (!cautions.Any(caution => caution.Kind == kind))
            {
                throw new ArgumentException($"The caution {kind} belongs to every such thickness but is missing.");
            }
        }
    }
}
