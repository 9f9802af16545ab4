using CeramicOptics.Restorations;

namespace CeramicOptics.Exchange;

/// <summary>What a schema cannot say of written maps: lists agree, and no point is better than its values.</summary>
internal static class MapRules
{
    // Differences are in single precision and come from a table with an error of its own.
    private const double RoundingMm = 1e-6, Rounding = 1e-3;

    public static void Check(JsonPlace map, IReadOnlyList<Caution> cautions)
    {
        ZonePlace[] zones = [.. map["zones"].Items().Select(zone => new ZonePlace(zone))];
        ResultRules.Needs(map, cautions, CautionKind.StrengthNotAssessed, CautionKind.ToothReduction);
        if (zones.Any(zone => zone.StructuralCoreMm is null && zone.StructuralWallMm is null))
        {
            ResultRules.Needs(map, cautions, CautionKind.StrengthLimitNotGiven);
        }

        bool isSpread = map["kind"].Text() == MapContent.SpreadKind;
        if (isSpread || zones.Length > 1)
        {
            ResultRules.Needs(map, cautions, isSpread ? CautionKind.SidewaysLight : CautionKind.EachPointAlone);
        }

        Points(map, zones);
        if (isSpread)
        {
            Indices(map, "stumpOfPoint", map["stumps"].Items().Count);
        }
    }

    private static void Points(JsonPlace map, ZonePlace[] zones)
    {
        double?[] thicknesses = Numbers(map["thicknessesMm"]), differences = Numbers(map["differences"]),
            colors = Numbers(map["colors"]);
        double?[]? veneers = map.TryGet("veneerMm") is JsonPlace given ? Numbers(given) : null;
        List<JsonPlace> statuses = map["statuses"].Items();
        RequireLength(map["statuses"], statuses.Count, thicknesses.Length);
        RequireLength(map["differences"], differences.Length, thicknesses.Length);
        RequireLength(map["colors"], colors.Length, 3 * thicknesses.Length);
        if (veneers is not null)
        {
            RequireLength(map["veneerMm"], veneers.Length, thicknesses.Length);
        }

        int[] zoneOfPoint = zones.Length > 1 || map.TryGet("zoneOfPoint") is not null
            ? Indices(map, "zoneOfPoint", zones.Length)
            : [];
        for (int i = 0; i < thicknesses.Length; i++)
        {
            string status = statuses[i].Text();
            double? mm = thicknesses[i], veneerMm = veneers is null ? 0 : veneers[i];
            bool isKnown = mm is not null && veneerMm is not null;
            if (isKnown == (status == "no data"))
            {
                throw statuses[i].Fault($"'{status}' does not belong to {(isKnown ? "a" : "no")} thickness.");
            }

            bool isAnswered = status is not ("no data" or "below range" or "above range");
            bool hasValues = differences[i] is not null && colors[3 * i] is not null && colors[(3 * i) + 1] is not null
                && colors[(3 * i) + 2] is not null;
            bool hasNone = differences[i] is null && colors[3 * i] is null && colors[(3 * i) + 1] is null
                && colors[(3 * i) + 2] is null;
            if (isAnswered ? !hasValues : !hasNone)
            {
                throw statuses[i].Fault(
                    $"'{status}' {(isAnswered ? "needs" : "has no")} difference and colour.");
            }

            if (isAnswered)
            {
                zones[zoneOfPoint.Length == 0 ? 0 : zoneOfPoint[i]].Check(
                    statuses[i], mm!.Value, veneerMm!.Value, differences[i]!.Value);
            }
        }
    }

    private static int[] Indices(JsonPlace map, string name, int count)
    {
        List<JsonPlace> items = map[name].Items();
        RequireLength(map[name], items.Count, map["thicknessesMm"].Items().Count);
        return [.. items.Select(item => item.Integer() < count
            ? item.Integer()
            : throw item.Fault($"there are only {Guard.Text(count)}."))];
    }

    private static double?[] Numbers(JsonPlace place) => [.. place.Items().Select(item => item.NumberOrNull())];

    private static void RequireLength(JsonPlace place, int length, int wanted)
    {
        if (length != wanted)
        {
            throw place.Fault($"needs {Guard.Text(wanted)} items but has {Guard.Text(length)}.");
        }
    }

    private sealed class ZonePlace(JsonPlace zone)
    {
        private readonly double _limit = zone["criterion"]["limit"].Number(),
            _bound = zone["errorBound"].Number() + Rounding;

        public double? StructuralCoreMm { get; } = zone["structuralCoreMm"].NumberOrNull();

        public double? StructuralWallMm { get; } = zone["structuralWallMm"].NumberOrNull();

        public void Check(JsonPlace status, double mm, double veneerMm, double difference)
        {
            string text = status.Text();
            if (text == "shows" ? difference < _limit - _bound : difference > _limit + _bound)
            {
                throw status.Fault($"'{text}' contradicts a difference of {Guard.Text(difference)}.");
            }

            bool isWeak = StructuralCoreMm > mm + RoundingMm || StructuralWallMm > mm + veneerMm + RoundingMm;
            if (isWeak && text.StartsWith("masked", StringComparison.Ordinal))
            {
                throw status.Fault($"'{text}' is below the structural minimum.");
            }
        }
    }
}
