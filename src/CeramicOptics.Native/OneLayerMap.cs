using CeramicOptics.Colorimetry;
using CeramicOptics.Exchange;
using CeramicOptics.Layers;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;

namespace CeramicOptics.Native;

/// <summary>A map over the thickness of the wall.</summary>
internal sealed class OneLayerMap(ThicknessResponse[] responses) : NativeMap
{
    public ThicknessMap Map { get; } = new(responses);

    public override int Zones => responses.Length;

    public override ThicknessRange Range(int zone) => responses[zone].Range;

    public override double ErrorBound(int zone) => responses[zone].ErrorBound;

    public override ThicknessRequirement Requirement(int zone, double veneerMm)
    {
        Fields.Unset(veneerMm, "veneer_mm", "this map is over the wall alone");
        return responses[zone].Requirement;
    }

    public override IEnumerable<Caution> Cautions(int zone) => responses[zone].Requirement.Cautions;

    public override void Save(int zone, Stream stream) => ResponseJson.Write(responses[zone], stream);

    public override void Differences(PointBlock points, Span<double> destination) =>
        Map.Differences(points.WallMm, destination, points.Zones);

    public override void Missing(PointBlock points, Span<double> destination, ThicknessGoal goal) =>
        Map.MissingThicknesses(points.WallMm, destination, points.Zones, goal);

    public override void Statuses(PointBlock points, Span<PointStatus> destination) =>
        Map.Statuses(points.WallMm, destination, points.Zones);

    public override void Colors(PointBlock points, Span<Lab> destination) =>
        Map.Colors(points.WallMm, destination, points.Zones);
}
