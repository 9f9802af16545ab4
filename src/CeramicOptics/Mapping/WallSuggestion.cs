using CeramicOptics.Selection;

namespace CeramicOptics.Mapping;

/// <summary>A wall thickness for every point of a surface: enough to mask, strong enough, and nowhere steeper than can be made.</summary>
/// <remarks>Immutable; lists are copies.</remarks>
public sealed record WallSuggestion
{
    private WallSuggestion(IReadOnlyList<double> thicknessesMm, IReadOnlyList<double> reductionsMm, int withoutAnswer, IReadOnlyList<Caution> cautions) =>
        (ThicknessesMm, ReductionsMm, WithoutAnswer, Cautions) = (thicknessesMm, reductionsMm, withoutAnswer, cautions);

    /// <summary>Suggested thickness of each point, mm; NaN where no thickness of the range masks.</summary>
    public IReadOnlyList<double> ThicknessesMm { get; }

    /// <summary>
    /// How much more room each point needs than it has, mm, 0 or more: tooth that would have to go where the outside of the wall must stay. NaN where
    /// nothing is suggested or no thickness is known.
    /// </summary>
    public IReadOnlyList<double> ReductionsMm { get; }

    /// <summary>Number of points for which no thickness of the range masks.</summary>
    public int WithoutAnswer { get; }

    /// <summary>What must be shown with the suggestion.</summary>
    public IReadOnlyList<Caution> Cautions { get; }

    /// <summary>The thinnest such wall.</summary>
    /// <param name="map">The zones with their masking answers.</param>
    /// <param name="thicknessesMm">Thickness that is there at each point, mm; NaN where it is not known.</param>
    /// <param name="edges">Pairs of neighbouring points with their distance, mm, 0 or more; each pair once.</param>
    /// <param name="maximumSlope">Largest change of thickness for a step along the surface, mm for mm, 0 to 10.</param>
    /// <param name="zones">Zone of each point; empty when all belong to the first.</param>
    /// <exception cref="ArgumentException">The lengths of zones and thicknesses differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A zone, an end of an edge, a distance or the slope is outside its range.</exception>
    /// <remarks>
    /// The smallest field that is nowhere below the recommended minimum of the point's zone and along no edge steeper than the limit: the largest, over
    /// all points, of their minimum less slope times distance along the edges. Points without an answer ask nothing of their neighbours.
    /// </remarks>
    public static WallSuggestion Find(
        ThicknessMap map, ReadOnlySpan<double> thicknessesMm, ReadOnlySpan<(int A, int B, double DistanceMm)> edges, double maximumSlope, ReadOnlySpan<byte> zones = default)
    {
        Guard.NotNull(map);
        Guard.InRange(maximumSlope, 0, 10, "");
        int count = thicknessesMm.Length;
        if (!zones.IsEmpty)
        {
            Guard.SameLength(zones.Length, count, "zones");
        }

        double[] wall = new double[count];
        for (int i = 0; i < count; i++)
        {
            wall[i] = map.ZoneOf(zones, i).Requirement.RecommendedMinimumMm ?? double.NaN;
        }

        List<(int Point, double DistanceMm)>[] neighbours = Neighbours(edges, count);
        Spread(wall, neighbours, maximumSlope);
        double[] reductions = new double[count];
        for (int i = 0; i < count; i++)
        {
            double more = wall[i] - thicknessesMm[i];
            reductions[i] = more < 0 ? 0 : more;
        }

        return new WallSuggestion(
            Array.AsReadOnly(wall), Array.AsReadOnly(reductions), wall.Count(double.IsNaN), Guard.Copy(map.Zones.SelectMany(zone => zone.Requirement.Cautions).Distinct()));
    }

    private static List<(int Point, double DistanceMm)>[] Neighbours(ReadOnlySpan<(int A, int B, double DistanceMm)> edges, int count)
    {
        List<(int Point, double DistanceMm)>[] neighbours = new List<(int, double)>[count];
        for (int i = 0; i < count; i++)
        {
            neighbours[i] = [];
        }

        for (int e = 0; e < edges.Length; e++)
        {
            (int a, int b, double distance) = edges[e];
            Guard.InRange(a, 0, count - 1, $"end of edge {Guard.Text(e)}");
            Guard.InRange(b, 0, count - 1, $"end of edge {Guard.Text(e)}");
            Guard.InRange(distance, 0, 1e6, "mm", $"length of edge {Guard.Text(e)}");
            neighbours[a].Add((b, distance));
            neighbours[b].Add((a, distance));
        }

        return neighbours;
    }

    // Each point that rises asks its neighbours anew; the thickest go first, so that most are asked once.
    private static void Spread(double[] wall, List<(int Point, double DistanceMm)>[] neighbours, double slope)
    {
        Queue<int> open = new(Enumerable.Range(0, wall.Length).Where(i => !double.IsNaN(wall[i])).OrderByDescending(i => wall[i]));
        bool[] waits = new bool[wall.Length];
        foreach (int i in open)
        {
            waits[i] = true;
        }

        while (open.Count > 0)
        {
            int point = open.Dequeue();
            waits[point] = false;
            foreach ((int other, double distance) in neighbours[point])
            {
                double asked = wall[point] - (slope * distance);
                if (asked > wall[other])
                {
                    wall[other] = asked;
                    if (!waits[other])
                    {
                        waits[other] = true;
                        open.Enqueue(other);
                    }
                }
            }
        }
    }
}
