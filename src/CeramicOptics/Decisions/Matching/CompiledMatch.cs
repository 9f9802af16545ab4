using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Matching;

/// <summary>
/// One combination of ceramic, veneer and cement, compiled for every zone: the costly half of a match, made once.
/// </summary>
internal sealed class CompiledMatch
{
    private readonly ZoneComparison[] _zones;

    public CompiledMatch(Restoration restoration, CancellationToken cancellation)
    {
        CompiledWall wall = new(restoration, cancellation);
        _zones = [.. restoration.Zones.Select(zone => new ZoneComparison(wall, zone))];
    }

    /// <summary>
    /// Walls to try in each zone, at most as thick as told; a zone without any has no room for the wall that strength
    /// requires.
    /// </summary>
    public static double[][] WallsOf(
        Restoration restoration, double stepMm, double thickestMm = double.PositiveInfinity) =>
        [.. restoration.Zones.Select(zone => WallsOf(restoration, zone, stepMm, thickestMm))];

    /// <summary>Walls to try in one zone, from its thinnest on.</summary>
    public static double[] WallsOf(
        Restoration restoration, Zone zone, double stepMm, double thickestMm = double.PositiveInfinity) =>
        WallsFrom(
            restoration, zone, zone.ThinnestMm ?? zone.AvailableMm, Math.Min(zone.AvailableMm, thickestMm), stepMm);

    /// <summary>
    /// Walls in steps, none below the structural minimum or outside the range of the wall; none at all where there is
    /// no room.
    /// </summary>
    public static double[] WallsFrom(Restoration restoration, Zone zone, double fromMm, double toMm, double stepMm)
    {
        Layers.ThicknessRange range = restoration.WallOver(restoration.WallRange).Range;
        Guard.InRange(zone.AvailableMm, range.MinMm, range.MaxMm, "mm", "available thickness", zone.Name);
        double from = Math.Max(fromMm, DecisionGuard.ThinnestWallMm(restoration, zone));
        double to = Math.Min(toMm, range.MaxMm);
        return from > to ? [] : new Layers.ThicknessRange(from, to).Steps(stepMm);
    }

    /// <summary>
    /// The best wall of every zone; false as soon as a zone is worse than the bar. Allocates nothing.
    /// </summary>
    public bool TryEvaluate(double[][] wallsMm, double bar, Span<double> bestMm, out double worst)
    {
        worst = 0;
        for (int z = 0; z < _zones.Length; z++)
        {
            double least = double.PositiveInfinity;
            foreach (double wallMm in wallsMm[z])
            {
                double difference = _zones[z].Difference(wallMm);
                (bestMm[z], least) = difference < least ? (wallMm, difference) : (bestMm[z], least);
            }

            worst = Math.Max(worst, least);
            if (least > bar)
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>The limiting light of every zone at given walls.</summary>
    public IReadOnlyList<LimitingCase> At(ReadOnlySpan<double> wallsMm)
    {
        LimitingCase[] cases = new LimitingCase[_zones.Length];
        for (int z = 0; z < cases.Length; z++)
        {
            cases[z] = _zones[z].At(wallsMm[z]);
        }

        return cases;
    }
}
