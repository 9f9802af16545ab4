using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Remedies;

/// <summary>What could be changed; the wall can always be.</summary>
/// <remarks>Immutable, equal by value; materials and substrates are compared by reference.</remarks>
public sealed record RemedyOptions
{
    /// <summary>Ceramics, of which the other grades of the candidate's family are tried; none by default.</summary>
    /// <exception cref="ArgumentException">Two of one name (family and grade, or material).</exception>
    public IReadOnlyList<Ceramic> Ceramics
    {
        get;
        init => field = DecisionGuard.EachOnce(Guard.Copy(value, name: nameof(Ceramics)), nameof(Ceramics));
    } = Guard.Copy<Ceramic>([]);

    /// <summary>Cements with their films; none by default.</summary>
    /// <exception cref="ArgumentException">Two of one name and thickness.</exception>
    public IReadOnlyList<Layer> Cements
    {
        get;
        init => field = DecisionGuard.EachOnce(Guard.Copy(value, name: nameof(Cements)), nameof(Cements));
    } = Guard.Copy<Layer>([]);

    /// <summary>Substance of an opaque liner; null where there is none.</summary>
    public Material? Liner { get; init; }

    /// <summary>Largest thickness of a liner, and where it takes its room.</summary>
    public BlockingLinerOptions LinerLimits { get; init => field = Guard.NotNull(value, nameof(LinerLimits)); } =
        new BlockingLinerOptions();

    /// <summary>What the stump would be with a build-up; null where there is none.</summary>
    public Substrate? BuildUp { get; init; }
}
