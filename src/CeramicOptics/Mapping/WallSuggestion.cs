using System.Text.Json.Serialization;
using CeramicOptics.Restorations;

namespace CeramicOptics.Mapping;

/// <summary>A wall thickness for every point of a surface: enough for the goal, and nowhere steeper than can be
/// made.</summary>
/// <remarks>Immutable; lists are copies.</remarks>
[JsonConverter(typeof(AnswerConverter))]
public sealed class WallSuggestion : IAnswer
{
    // Points between two looks at progress and cancellation.
    private const int Often = 4096;

    private WallSuggestion(
        IReadOnlyList<double> thicknessesMm, IReadOnlyList<double> reductionsMm, int withoutAnswer,
        IReadOnlyList<Caution> cautions) =>
        (ThicknessesMm, ReductionsMm, WithoutAnswer, Cautions) = (thicknessesMm, reductionsMm, withoutAnswer, cautions);

    /// <summary>Suggested thickness of each point, mm; NaN where no thickness meets the goal.</summary>
    public IReadOnlyList<double> ThicknessesMm { get; }

    /// <summary>
    /// How much more room each point needs than it has, mm, 0 or more: tooth that would have to go where the outside of
    /// the wall must stay. NaN where nothing is suggested or no thickness is known.
    /// </summary>
    public IReadOnlyList<double> ReductionsMm { get; }

    /// <summary>Number of points for which nothing is suggested.</summary>
    public int WithoutAnswer { get; }

    /// <summary>What must be shown with the suggestion.</summary>
    public IReadOnlyList<Caution> Cautions { get; }

    /// <summary>The thinnest such wall.</summary>
    /// <param name="map">The zones with their requirements.</param>
    /// <param name="thicknessesMm">Available thickness at each point, mm; NaN where it is not known.</param>
    /// <param name="edges">Pairs of neighbouring points, each once.</param>
    /// <param name="maximumSlope">Largest change of thickness for a step along the surface, mm for mm, 0 to 10.</param>
    /// <param name="zones">Zone of each point; empty when all belong to the first.</param>
    /// <param name="goal">Which minimum; the recommended one unless told otherwise.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1, roughly.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="ArgumentException">The lengths of zones and thicknesses differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A zone, an end of an edge, its length, the slope or the goal is
    /// outside its range.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    /// <remarks>
    /// The smallest field that is nowhere below the minimum of the point's zone and along no edge steeper than the
    /// limit: the largest, over all points, of their minimum less slope times distance along the edges. Points without
    /// an answer, such as all points of a zone without a strength limit where the recommended thickness is asked for,
    /// ask nothing of their neighbours. Where a steep neighbour lifts a point above the range of its zone, the cautions
    /// say so.
    /// </remarks>
    public static WallSuggestion Find(
        ThicknessMap map,
        ReadOnlySpan<double> thicknessesMm,
        ReadOnlySpan<MeshEdge> edges,
        double maximumSlope,
        ReadOnlySpan<byte> zones = default,
        ThicknessGoal goal = ThicknessGoal.Recommended,
        IProgress<double>? progress = null,
        CancellationToken cancellation = default)
    {
        Guard.NotNull(map);
        Guard.InRange(maximumSlope, 0, 10, "");
        Guard.Defined(goal);
        int count = thicknessesMm.Length;
        if (!zones.IsEmpty)
        {
            Guard.SameLength(zones.Length, count, "zones");
        }

        double[] wall = new double[count];
        for (int i = 0; i < count; i++)
        {
            wall[i] = map.ZoneOf(zones, i).MinimumMm(goal);
        }

        Spread(wall, new Neighbours(edges, count), maximumSlope, progress, cancellation);
        double[] reductions = new double[count];
        HashSet<ThicknessResponse> above = [];
        for (int i = 0; i < count; i++)
        {
            double more = wall[i] - thicknessesMm[i];
            reductions[i] = more < 0 ? 0 : more;
            ThicknessResponse zone = map.ZoneOf(zones, i);
            if (wall[i] > zone.Range.MaxMm)
            {
                above.Add(zone);
            }
        }

        progress?.Report(1);
        IEnumerable<Caution> cautions = map.Zones.SelectMany(zone => zone.Requirement.Cautions).Concat(map.Zones
            .Where(above.Contains)
            .Select(zone => new Caution(CautionKind.AboveRange, zone.Requirement.ZoneName, zone.Range.MaxMm)));
        return new WallSuggestion(
            Array.AsReadOnly(wall), Array.AsReadOnly(reductions), wall.Count(double.IsNaN),
            Guard.Copy(cautions.Concat(map.Zones.Count > 1 ? [Caution.EachPointAlone] : []).Distinct()));
    }

    /// <summary>For example "2000 points, 0.62 to 1.10 mm, 12 without an answer".</summary>
    public override string ToString() => ToString(null);

    /// <summary>The same in the language of a culture.</summary>
    /// <param name="provider">A culture or a <see cref="Language"/>; null for English.</param>
    public string ToString(IFormatProvider? provider)
    {
        Language language = Language.Of(provider);
        double[] known = [.. ThicknessesMm.Where(mm => !double.IsNaN(mm))];
        return known.Length == 0
            ? language.Text("WallSuggestion.None", ThicknessesMm.Count, WithoutAnswer)
            : language.Text("WallSuggestion", ThicknessesMm.Count, known.Min(), known.Max(), WithoutAnswer);
    }

    string IFormattable.ToString(string? format, IFormatProvider? provider) => ToString(provider);

    // Each point that rises asks its neighbours again; the thickest go first, so that most are asked once.
    private static void Spread(
        double[] wall, Neighbours neighbours, double slope, IProgress<double>? progress, CancellationToken cancellation)
    {
        Queue<int> open = new(
            Enumerable.Range(0, wall.Length).Where(i => !double.IsNaN(wall[i])).OrderByDescending(i => wall[i]));
        bool[] waits = new bool[wall.Length];
        foreach (int i in open)
        {
            waits[i] = true;
        }

        double share = 0;
        for (int done = 1; open.Count > 0; done++)
        {
            if (done % Often == 0)
            {
                cancellation.ThrowIfCancellationRequested();
                share = Math.Max(share, done / (double)(done + open.Count));
                progress?.Report(share);
            }

            int point = open.Dequeue();
            waits[point] = false;
            for (int k = neighbours.First[point]; k < neighbours.First[point + 1]; k++)
            {
                int other = neighbours.Point[k];
                double asked = wall[point] - (slope * neighbours.LengthMm[k]);
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

    /// <summary>The neighbours of each point stand side by side, from its First to that of the next point.</summary>
    private sealed class Neighbours
    {
        private const double LongestMm = 1e6;

        public Neighbours(ReadOnlySpan<MeshEdge> edges, int count)
        {
            (First, Point, LengthMm) = (new int[count + 1], new int[2 * edges.Length], new double[2 * edges.Length]);
            for (int e = 0; e < edges.Length; e++)
            {
                MeshEdge edge = edges[e];
                if ((uint)edge.A >= (uint)count || (uint)edge.B >= (uint)count
                    || !(edge.LengthMm >= 0 && edge.LengthMm <= LongestMm))
                {
                    // Only now are names made.
                    Guard.InRange(edge.A, 0, count - 1, $"end of edge {Guard.Text(e)}");
                    Guard.InRange(edge.B, 0, count - 1, $"end of edge {Guard.Text(e)}");
                    Guard.InRange(edge.LengthMm, 0, LongestMm, "mm", $"length of edge {Guard.Text(e)}");
                }

                First[edge.A]++;
                First[edge.B]++;
            }

            // Each count becomes the end of its point's places, then falls to their beginning while they are filled.
            for (int i = 1; i <= count; i++)
            {
                First[i] += First[i - 1];
            }

            foreach (MeshEdge edge in edges)
            {
                Put(edge.A, edge.B, edge.LengthMm);
                Put(edge.B, edge.A, edge.LengthMm);
            }
        }

        public int[] First { get; }

        public int[] Point { get; }

        public double[] LengthMm { get; }

        private void Put(int of, int other, double lengthMm)
        {
            int at = --First[of];
            (Point[at], LengthMm[at]) = (other, lengthMm);
        }
    }
}
