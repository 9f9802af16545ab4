using System.Text.Json.Serialization;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Feasibility;

/// <summary>Whether a wish can be met over a stump with the given choices.</summary>
[JsonConverter(typeof(ReportConverter))]
public sealed class FeasibilityResult : Answer
{
    internal FeasibilityResult(
        Restoration restoration, Zone zone, Lab wish, ReachablePoint? nearest, LimitingCase? limiting,
        double? structuralMinimumMm,
        IReadOnlyList<ReachablePoint> points, int tooThin, IReadOnlyList<Caution> cautions,
        CancellationToken cancellation)
        : base(cautions)
    {
        (Zone, Criterion, Under, Wish) = (zone, restoration.Criterion, restoration.Viewing.Colorimeters[0], wish);
        (Nearest, Limiting, StructuralMinimumMm, Points, TooThin) =
            (nearest, limiting, structuralMinimumMm, points, tooThin);
        (IReadOnlyList<int> corners, IReadOnlyList<HullTriangle> triangles) =
            ConvexHull.Of([.. points.Select(point => point.Color)], cancellation);
        (HullCorners, HullTriangles) = (Guard.Copy(corners.Select(i => points[i])), Guard.Copy(triangles));
    }

    /// <summary>The zone.</summary>
    public Zone Zone { get; }

    /// <summary>The criterion.</summary>
    internal ColorCriterion Criterion { get; }

    /// <summary>Illuminant and observer of all colours: the first of the viewing conditions.</summary>
    internal Colorimeter Under { get; }

    /// <summary>The colour that is wished for.</summary>
    public Lab Wish { get; }

    /// <summary>
    /// The combination that comes nearest to the wish under all illuminants; null when strength leaves the zone no
    /// room.
    /// </summary>
    public ReachablePoint? Nearest { get; }

    /// <summary>The limiting light of the nearest combination; null when there is none.</summary>
    public LimitingCase? Limiting { get; }

    /// <summary>Largest difference of the nearest over illuminants; null when there is none.</summary>
    internal double? Difference => Nearest?.Difference;

    /// <summary>True when a combination meets the criterion under every illuminant.</summary>
    public bool IsFeasible => Difference <= Criterion.Limit;

    /// <summary>
    /// Smallest wall that strength allows with any of the choices, mm; null when one of them has no limit.
    /// </summary>
    public double? StructuralMinimumMm { get; }

    /// <summary>All colours tried, with their recipes.</summary>
    public IReadOnlyList<ReachablePoint> Points { get; }

    /// <summary>How many combinations were left out because strength leaves them no room.</summary>
    public int TooThin { get; }

    /// <summary>
    /// Corners of the convex hull of all colours in L*a*b*; fewer than four colours, or colours in one plane, have no
    /// hull and all count as corners.
    /// </summary>
    public IReadOnlyList<ReachablePoint> HullCorners { get; }

    /// <summary>
    /// Triangles of the hull, as positions in <see cref="HullCorners"/>; empty where there is no hull.
    /// </summary>
    internal IReadOnlyList<HullTriangle> HullTriangles { get; }

    /// <summary>
    /// The wish as a display colour, beside <see cref="NearestSwatch"/>; reduced in chroma where a display cannot show
    /// it. Under another illuminant its L*a*b* is shown on the display's white, D65, as an adapted eye sees it.
    /// </summary>
    public Srgb WishSwatch => Srgb.FromLabReducingChroma(Wish);

    /// <summary>The nearest reachable colour as a display colour; null when there is none.</summary>
    public Srgb? NearestSwatch => Nearest is null ? null : Srgb.FromLabReducingChroma(Nearest.Color);

    /// <summary>A plain sentence for dentist and patient.</summary>
    private protected override string InWords(Language language) => Nearest is null
        ? language.Text(
            "FeasibilityResult.NoRoom", Zone.Name, StructuralMinimumMm ?? 0, Zone.AvailableMm)
        : language.Text(
            IsFeasible ? "FeasibilityResult.Feasible" : "FeasibilityResult.NotFeasible", Zone.Name, Nearest,
            Difference, Criterion.Limit, Criterion.Name, Limiting!.Shift);
}
