using CeramicOptics.Colorimetry;
using CeramicOptics.Exchange;
using CeramicOptics.Layers;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;

namespace CeramicOptics.Native;

/// <summary>A map over the thicknesses of veneer and core.</summary>
internal sealed class TwoLayerNativeMap(TwoLayerResponse[] responses) : NativeMap
{
    private const int Veneers = 9;

    private readonly TwoLayerMap _map = new(responses);

    public override int Zones => responses.Length;

    public override bool IsTwoLayer => true;

    public override ThicknessRange Range(int zone) => responses[zone].CoreRange;

    public override ThicknessRange? VeneerRange(int zone) => responses[zone].VeneerRange;

    public override double ErrorBound(int zone) => responses[zone].ErrorBound;

    public override ThicknessRequirement Requirement(int zone, double veneerMm) =>
        Fields.Of("veneer_mm", () => responses[zone].CoreRequirementAt(veneerMm));

    // Those of nine veneers from the thinnest to the thickest, without repetition.
    public override IEnumerable<Caution> Cautions(int zone)
    {
        ThicknessRange range = responses[zone].VeneerRange;
        return Enumerable.Range(0, Veneers)
            .Select(i => Math.Min(range.MaxMm, range.MinMm + ((range.MaxMm - range.MinMm) * i / (Veneers - 1))))
            .SelectMany(mm => responses[zone].CoreRequirementAt(mm).Cautions)
            .Distinct();
    }

    public override void Save(int zone, Stream stream) => ResponseJson.Write(responses[zone], stream);

    public override void Differences(PointBlock points, Span<double> destination) =>
        _map.Differences(points.VeneerMm, points.WallMm, destination, points.Zones);

    public override void Missing(PointBlock points, Span<double> destination, ThicknessGoal goal) =>
        _map.MissingCoreThicknesses(points.VeneerMm, points.WallMm, destination, points.Zones, goal);

    public override void Statuses(PointBlock points, Span<PointStatus> destination) =>
        _map.Statuses(points.VeneerMm, points.WallMm, destination, points.Zones);

    public override void Colors(PointBlock points, Span<Lab> destination) =>
        _map.Colors(points.VeneerMm, points.WallMm, destination, points.Zones);
}
