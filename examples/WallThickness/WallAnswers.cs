using CeramicOptics.Mapping;
using CeramicOptics.Restorations;

namespace CeramicOptics.Examples.WallThickness;

/// <summary>What the library says of every point of the crown: the only place where it is asked about the
/// wall.</summary>
internal sealed class WallAnswers
{
    public WallAnswers(
        Restoration crown, Mesh mesh, double[] thicknessesMm, byte[] zones, double maximumSlope, WallLimits limits)
    {
        ThicknessMap map = new(crown.Zones.Select(zone => ThicknessResponse.Compile(crown, zone)));
        (ThicknessesMm, Zones, Requirements) = (thicknessesMm, zones, [.. map.Zones.Select(zone => zone.Requirement)]);
        MissingMm = new double[thicknessesMm.Length];
        PointStatus[] statuses = new PointStatus[thicknessesMm.Length];
        map.Statuses(thicknessesMm, statuses, zones);
        map.MissingThicknesses(thicknessesMm, MissingMm, zones);
        Suggestion = WallSuggestion.Find(
            map, mesh.ToMapMesh(), thicknessesMm, maximumSlope, zones, limits: limits);
        (SuggestedMm, RoomMm) = ([.. Suggestion.ThicknessesMm], [.. Suggestion.ReductionsMm]);
        Statuses = [.. statuses.Select(status => (byte)status)];
        StatusNames = statuses.Distinct().Order().ToDictionary(status => (byte)status, status => status.ToString());
    }

    public WallSuggestion Suggestion { get; }

    public double[] ThicknessesMm { get; }

    public double[] MissingMm { get; }

    public byte[] Zones { get; }

    /// <summary>Of the present wall of each point, as a number.</summary>
    public byte[] Statuses { get; }

    public IReadOnlyDictionary<byte, string> StatusNames { get; }

    public IReadOnlyList<ThicknessRequirement> Requirements { get; }

    public IReadOnlyList<double> SuggestedMm { get; }

    public IReadOnlyList<double> RoomMm { get; }

    public IReadOnlyList<Caution> Cautions => Suggestion.Cautions;

    /// <summary>Whether the suggested wall is enough at a point.</summary>
    public bool MeetsGoal(int point) => Suggestion.Statuses[point] == WallStatus.MeetsGoal;

    /// <summary>Thickness above one of the requirement's, NaN where either is not known.</summary>
    public double Above(int point, Func<ThicknessRequirement, double?> required) =>
        ThicknessesMm[point] - (required(Requirements[Zones[point]]) ?? double.NaN);
}
