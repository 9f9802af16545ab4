using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;

namespace CeramicOptics.Selection;

/// <summary>Whether a wish can be met over a stump with what there is to choose from.</summary>
public sealed record Realism
{
    internal Realism()
    {
    }

    /// <summary>The colour that is wished for.</summary>
    public required Lab Wish { get; init; }

    /// <summary>The reachable colour nearest to the wish.</summary>
    public required ReachablePoint Nearest { get; init; }

    /// <summary>Difference between the two by the criterion's formula.</summary>
    public required double Difference { get; init; }

    /// <summary>True when that meets the criterion.</summary>
    public required bool IsRealistic { get; init; }

    /// <summary>All colours tried, with their recipes.</summary>
    public required IReadOnlyList<ReachablePoint> Points { get; init; }

    /// <summary>Corners of the convex hull of all colours in L*a*b*; fewer than four colours, or colours in one plane, have no hull and all count as corners.</summary>
    public required IReadOnlyList<ReachablePoint> HullCorners { get; init; }

    /// <summary>Triangles of the hull, as positions in <see cref="HullCorners"/>, counter-clockwise seen from outside; empty where there is no hull.</summary>
    public required IReadOnlyList<(int A, int B, int C)> HullTriangles { get; init; }

    /// <summary>Illuminant and observer of all colours.</summary>
    public required Colorimeter Under { get; init; }

    /// <summary>A plain sentence for dentist and patient.</summary>
    public required string Sentence { get; init; }

    /// <summary>The wish as a display colour, beside <see cref="NearestSwatch"/>; reduced in chroma where a display cannot show it. Colours under D65 and 2 degrees only.</summary>
    public Srgb WishSwatch => Srgb.FromLabReducingChroma(Wish);

    /// <summary>The nearest reachable colour as a display colour.</summary>
    public Srgb NearestSwatch => Srgb.FromLabReducingChroma(Nearest.Color);

    /// <summary>What must be shown with the result.</summary>
    public required IReadOnlyList<Caution> Cautions { get; init; }

    internal static string SentenceFor(Zone zone, ColorCriterion criterion, ReachablePoint nearest, Lab wish, double difference, bool isRealistic) => isRealistic
        ? FormattableString.Invariant($"The wish for zone '{zone.Name}' can be met over this stump: {nearest.Recipe} comes within {difference:0.0} of it, and {criterion.Limit:0.0} is the limit for {Article(criterion.Name)}.")
        : FormattableString.Invariant($"The wish for zone '{zone.Name}' is not realistic over this stump with these materials: the nearest that can be made is {difference:0.0} away ({ColorWords.Describe(wish, nearest.Color)}), by {nearest.Recipe}; {criterion.Limit:0.0} is the limit for {Article(criterion.Name)}. A lighter or covered stump, more room, or another target would have to come first.");

    private static string Article(string name) => ("aeiou".Contains(char.ToLowerInvariant(name[0])) ? "an " : "a ") + name;
}
