using System.Text.Json;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;

namespace CeramicOptics.Exchange;

/// <summary>What maps write: their zones, one list of numbers for each quantity of the points, cautions.</summary>
internal static class MapContent
{
    public const string OneLayerKind = "map", TwoLayerKind = "two-layer map", SpreadKind = "spread map";

    private static readonly string[] Names =
    [
        "masked reliably", "masked by colour only", "shows", "below structural minimum", "no data", "below range",
        "above range",
    ];

    public static void Write(Utf8JsonWriter json, ThicknessMap map, MapPointValues points)
    {
        Zones(json, map.Zones);
        Points(json, points);
        Cautions(json, map.Zones.SelectMany(zone => zone.Requirement.Cautions), map.Zones.Count > 1);
    }

    public static void Write(Utf8JsonWriter json, TwoLayerMap map, MapPointValues points)
    {
        JsonFile.List(json, "zones", map.Zones, zone => Zone(
            json, zone.Requirements.ZoneName, zone.Requirements.Criterion,
            (zone.Requirements.Strength.CoreMm, zone.Requirements.Strength.WallMm), zone.ErrorBound));
        Points(json, points);
        Cautions(json, map.Zones.SelectMany(zone => zone.Requirements.Cautions), map.Zones.Count > 1);
    }

    public static void Write(Utf8JsonWriter json, SpreadField field)
    {
        Zones(json, field.Map.Plain.Zones);
        json.WriteStartArray("stumps");
        foreach (string name in field.Map.Stumps.Select(stump => stump.Name))
        {
            json.WriteStringValue(name);
        }

        json.WriteEndArray();
        json.WriteNumber("reachMm", field.Map.ReachMm);
        Points(json, MapPointValues.Of(field));
        ReportParts.Sentence(json, field);
    }

    private static void Zones(Utf8JsonWriter json, IReadOnlyList<ThicknessResponse> zones) =>
        JsonFile.List(json, "zones", zones, zone => Zone(
            json, zone.Requirement.ZoneName, zone.Requirement.Criterion,
            (null, zone.Requirement.Minimum.StructuralMm), zone.ErrorBound));

    private static void Zone(
        Utf8JsonWriter json, string name, ColorCriterion criterion, (double? CoreMm, double? WallMm) structural,
        double errorBound)
    {
        json.WriteString("zone", name);
        ResultParts.Criterion(json, criterion);
        JsonFile.Number(json, "structuralCoreMm", structural.CoreMm);
        JsonFile.Number(json, "structuralWallMm", structural.WallMm);
        json.WriteNumber("errorBound", errorBound);
    }

    private static void Cautions(Utf8JsonWriter json, IEnumerable<Caution> cautions, bool isEachAlone) =>
        ResultParts.Cautions(
            json, Guard.Copy(cautions.Concat(isEachAlone ? [new Caution(CautionKind.EachPointAlone)] : []).Distinct()));

    private static void Points(Utf8JsonWriter json, MapPointValues points)
    {
        ResultParts.NumbersOrNull(json, "thicknessesMm", [.. points.ThicknessesMm]);
        if (points.VeneerMm is not null)
        {
            ResultParts.NumbersOrNull(json, "veneerMm", [.. points.VeneerMm]);
        }

        Indices(json, "zoneOfPoint", points.Zones);
        Indices(json, "stumpOfPoint", points.Stumps ?? []);
        json.WriteStartArray("statuses");
        foreach (PointStatus status in points.Statuses)
        {
            json.WriteStringValue(Names[(int)status]);
        }

        json.WriteEndArray();
        json.WriteStartArray("differences");
        Array.ForEach(points.Differences, difference => Single(json, difference));
        json.WriteEndArray();
        json.WriteStartArray("colors");
        foreach (Lab color in points.Colors)
        {
            Single(json, color.L);
            Single(json, color.A);
            Single(json, color.B);
        }

        json.WriteEndArray();
    }

    private static void Indices(Utf8JsonWriter json, string name, IReadOnlyList<byte> indices)
    {
        if (indices.Count > 0)
        {
            json.WriteStartArray(name);
            foreach (byte index in indices)
            {
                json.WriteNumberValue((int)index);
            }

            json.WriteEndArray();
        }
    }

    private static void Single(Utf8JsonWriter json, double value)
    {
        if (double.IsNaN(value))
        {
            json.WriteNullValue();
        }
        else
        {
            json.WriteNumberValue((float)value);
        }
    }
}
