using CeramicOptics.Restorations;

namespace CeramicOptics.Mapping.Slopes;

/// <summary>What the zones of a map ask of a wall for a goal, and what is found of them while points are looked
/// at.</summary>
internal sealed class WallZones
{
    private readonly IReadOnlyList<ThicknessResponse> _zones;
    private readonly double[] _goalsMm, _goalsUpToMm, _structuralMm, _thickestMm;
    private readonly int[] _belowGoal, _belowStructural, _withoutAnswer, _aboveRange;

    public WallZones(ThicknessMap map, ThicknessGoal goal)
    {
        _zones = map.Zones;
        _goalsMm = [.. _zones.Select(zone => zone.MinimumMm(goal))];
        _goalsUpToMm = [.. _zones.Select(zone => zone.Requirement.UpToMm(goal) ?? double.PositiveInfinity)];
        _structuralMm = [.. _zones.Select(zone => zone.Requirement.Minimum.StructuralMm ?? 0)];
        _thickestMm = [.. _zones.Select(zone => zone.Range.MaxMm)];
        _belowGoal = new int[Count];
        _belowStructural = new int[Count];
        _withoutAnswer = new int[Count];
        _aboveRange = new int[Count];
    }

    public int Count => _goalsMm.Length;

    /// <summary>What a point asks of the wall, mm; 0 for nothing.</summary>
    public double AskedMm(int zone, double thicknessMm, double minimumMm)
    {
        double asked = double.IsNaN(thicknessMm) ? 0 : Math.Max(_structuralMm[zone], OrNothing(_goalsMm[zone]));
        return minimumMm > asked ? minimumMm : asked;
    }

    /// <summary>What a wall is, counted for the cautions of its zone.</summary>
    public WallStatus StatusOf(int zone, double thicknessMm, double wallMm, double minimumMm)
    {
        if (double.IsNaN(thicknessMm))
        {
            return WallStatus.NoData;
        }

        bool isAnswered = !double.IsNaN(_goalsMm[zone]);
        _aboveRange[zone] += wallMm > _thickestMm[zone] ? 1 : 0;
        _withoutAnswer[zone] += isAnswered ? 0 : 1;
        if (wallMm < _structuralMm[zone])
        {
            _belowStructural[zone]++;
            _belowGoal[zone] += isAnswered ? 1 : 0;
            return WallStatus.BelowStructuralMinimum;
        }

        if (!isAnswered)
        {
            return WallStatus.NoAnswer;
        }

        if (wallMm < _goalsMm[zone] || wallMm < minimumMm)
        {
            _belowGoal[zone]++;
            return WallStatus.BelowGoal;
        }

        return wallMm > _goalsUpToMm[zone] ? WallStatus.TooThickForTarget : WallStatus.MeetsGoal;
    }

    /// <summary>All that must be shown with walls of these zones.</summary>
    public IEnumerable<Caution> Cautions(int steepLocks)
    {
        List<Caution> cautions = [.. _zones.SelectMany(zone => zone.Requirement.Cautions)];
        for (int i = 0; i < Count; i++)
        {
            string name = _zones[i].Requirement.ZoneName;
            Add(_belowStructural[i], CautionKind.BelowStructuralMinimum, name, _structuralMm[i]);
            Add(_belowGoal[i], CautionKind.WallBelowGoal, name, _belowGoal[i]);
            Add(_withoutAnswer[i], CautionKind.NoWallMeetsGoal, name, _withoutAnswer[i]);
            Add(_aboveRange[i], CautionKind.AboveRange, name, _thickestMm[i]);
        }

        Add(steepLocks, CautionKind.SteepLockedWall, null, steepLocks);
        Add(Count - 1, CautionKind.EachPointAlone, null, null);
        return cautions.Distinct();

        void Add(int count, CautionKind kind, string? name, double? value)
        {
            if (count > 0)
            {
                cautions.Add(new Caution(kind, name, value));
            }
        }
    }

    private static double OrNothing(double mm) => double.IsNaN(mm) ? 0 : mm;
}
