using System.Text.Json;
using CeramicOptics.Decisions;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Restorations;

namespace CeramicOptics.Exchange;

/// <summary>
/// What a schema cannot say of a result: thicknesses follow from each other, none is below the structural minimum, and
/// the cautions that its values call for are present.
/// </summary>
internal static class ResultRules
{
    public static IReadOnlyList<Caution> Check(JsonPlace document)
    {
        IReadOnlyList<Caution> cautions = document.TryGet("cautions") is JsonPlace given
            ? RequirementJson.Cautions(given)
            : [];
        Value(document, null, document, cautions);
        NamesOwnCeramics(document, cautions);
        if (document["kind"].Text() == "wall suggestion")
        {
            Walls(document, cautions);
        }
        else if (document["kind"].Text() == "spot masking")
        {
            Needs(document, cautions, CautionKind.SidewaysLight);
        }
        else if (document.TryGet("differences") is not null)
        {
            MapRules.Check(document, cautions);
        }
        else
        {
            ReportRules.Check(document, cautions);
        }

        Complete(document, "caution");
        Complete(document, "finding");
        return cautions;
    }

    // A caution that names a ceramic names one of those that the result is about.
    private static void NamesOwnCeramics(JsonPlace document, IReadOnlyList<Caution> cautions)
    {
        for (int i = 0; i < cautions.Count; i++)
        {
            if (cautions[i].Ceramic is string named && !CeramicsIn(document).Contains(named))
            {
                throw document["cautions"].Items()[i]["ceramic"].Fault(
                    $"must be a ceramic of the result but is '{named}'.");
            }
        }
    }

    private static IEnumerable<string> CeramicsIn(JsonPlace place) => place.Element.ValueKind switch
    {
        JsonValueKind.Array => place.Items().SelectMany(CeramicsIn),
        JsonValueKind.Object => place.Properties().SelectMany(property => CeramicsIn(property.Value))
            .Concat(place.TryGet("family") is null ? [] : [place["ceramic"].Text()]),
        _ => [],
    };

    // With the ceramic that it is made of, where a value around it says so.
    private static void Value(
        JsonPlace place, string? ceramic, JsonPlace document, IReadOnlyList<Caution> cautions)
    {
        if (place.Element.ValueKind == JsonValueKind.Array)
        {
            place.Items().ForEach(item => Value(item, ceramic, document, cautions));
        }
        else if (place.Element.ValueKind == JsonValueKind.Object)
        {
            if (place.TryGet("family") is not null)
            {
                ceramic = place["ceramic"].Text();
                Needs(document, cautions, CautionKind.StrengthNotAssessed, CautionKind.ToothReduction);
            }

            if (place.TryGet("availableMm") is not null)
            {
                Zone(place, ceramic, document, cautions);
            }

            if (place.TryGet("wallMm") is JsonPlace wall && place.TryGet("zones") is JsonPlace zones
                && wall.NumberOrNull() is not null)
            {
                Remedy(place["zone"], wall, zones);
            }

            foreach (KeyValuePair<string, JsonPlace> property in place.Properties())
            {
                Value(property.Value, ceramic, document, cautions);
            }
        }
    }

    // What no value calls for is missed by its number.
    private static void Complete(JsonPlace place, string what)
    {
        foreach (JsonPlace remedy in place.TryGet("remedies")?.Items() ?? [])
        {
            Complete(remedy, what);
        }

        if (place.TryGet($"{what}Count") is JsonPlace stated)
        {
            int count = stated.Integer(), present = place[$"{what}s"].Items().Count;
            if (present != count)
            {
                throw place[$"{what}s"].Fault(
                    $"must hold all {Guard.Text(count)} {what}s of the result but holds {Guard.Text(present)}.");
            }
        }
    }

    private static void Zone(JsonPlace zone, string? ceramic, JsonPlace document, IReadOnlyList<Caution> cautions)
    {
        double? structural = zone["structuralMm"].NumberOrNull();
        if (structural is null)
        {
            bool offers = zone.TryGet("nearest") is not null || zone.TryGet("corners") is null;
            Needs(document, cautions, offers ? [CautionKind.StrengthLimitNotGiven] : []);
        }

        if (!DecisionGuard.IsStrongEnough(structural, zone["availableMm"].Number()))
        {
            Needs(document, cautions, CautionKind.BelowStructuralMinimum);
        }

        IEnumerable<JsonPlace?> offered =
        [
            zone.TryGet("atWall"), zone.TryGet("nearest"),
            .. (zone.TryGet("corners")?.Items() ?? []).Cast<JsonPlace?>(),
        ];
        foreach (JsonPlace made in offered.OfType<JsonPlace>())
        {
            NotBelow(made["wallMm"], structural);
        }

        if (zone.TryGet("minimum") is JsonPlace minimum)
        {
            Minimum(zone, minimum, structural, ceramic, document, cautions);
        }
    }

    private static void Minimum(
        JsonPlace zone, JsonPlace place, double? structural, string? ceramic, JsonPlace document,
        IReadOnlyList<Caution> cautions)
    {
        double? byColor = place["byColorMm"].NumberOrNull(), reliable = place["reliableMm"].NumberOrNull();
        if (reliable is not null && !(reliable >= byColor))
        {
            throw place["reliableMm"].Fault("a reliable thickness is not below the thickness by colour and needs one.");
        }

        MinimumThickness minimum = new(
            byColor, reliable, structural, zone["wallRangeMm"].Numbers()[1], place["share"].Number(),
            place["standardUncertaintyMm"].NumberOrNull(), place.TryGet("byColorUpToMm")?.NumberOrNull(),
            place.TryGet("reliableUpToMm")?.NumberOrNull());
        if (!minimum.IsOrdered)
        {
            throw place["reliableUpToMm"].Fault("thicknesses must follow one another.");
        }

        if (place["structuralMm"].NumberOrNull() != structural)
        {
            throw place["structuralMm"].Fault("must be that of the zone.");
        }

        JsonPlace recommended = place["recommendedMm"];
        if (recommended.NumberOrNull() is double given)
        {
            NotBelow(recommended, structural);
            _ = given == minimum.RecommendedMm
                ? given
                : throw recommended.Fault("must follow from the other thicknesses.");
        }
        else if (minimum.RecommendedMm is not null)
        {
            throw recommended.Fault("must follow from the other thicknesses.");
        }

        string name = zone["zone"].Text();
        bool counted = document["kind"].Text() == "grade choice";
        foreach (Caution needed in MaskingThickness.CautionsOf(name, minimum)
            .Concat(MaskingThickness.CautionsOfRoom(name, zone["availableMm"].Number(), minimum)))
        {
            if (counted && needed.Kind is CautionKind.NotReliable or CautionKind.DoesNotFit)
            {
                Needs(document, cautions, needed.Kind);
            }
            else if (!cautions.Any(said => Says(said, needed, ceramic)))
            {
                throw Missing(document, needed.Kind);
            }
        }
    }

    // Also said where it names this ceramic, but not where it names another.
    private static bool Says(Caution said, Caution needed, string? ceramic) =>
        said.Kind == needed.Kind && said.Subject == needed.Subject && said.Value == needed.Value
        && (said.Ceramic is null || said.Ceramic == ceramic);

    private static void Remedy(JsonPlace name, JsonPlace wall, JsonPlace zones)
    {
        string changed = name.Text();
        JsonPlace? zone = zones.Items().Cast<JsonPlace?>().FirstOrDefault(
            item => item!.Value["zone"].Text() == changed);
        NotBelow(
            wall, zone is JsonPlace known
                ? known["structuralMm"].NumberOrNull()
                : throw name.Fault("must be one of the zones."));
    }

    private static void Walls(JsonPlace walls, IReadOnlyList<Caution> cautions)
    {
        List<JsonPlace> thicknesses = walls["thicknessesMm"].Items(), reductions = walls["reductionsMm"].Items(),
            statuses = walls["statuses"].Items();
        Needs(walls, cautions, CautionKind.StrengthNotAssessed, CautionKind.ToothReduction);
        foreach (string name in (string[])["reductionsMm", "statuses"])
        {
            if (walls[name].Items().Count != thicknesses.Count)
            {
                throw walls[name].Fault("must have as many items as there are thicknesses.");
            }
        }

        for (int i = 0; i < thicknesses.Count; i++)
        {
            bool isWall = thicknesses[i].NumberOrNull() is not null;
            string status = statuses[i].Text();
            if (isWall ? status == "no data" : status is not ("no data" or "no answer"))
            {
                throw statuses[i].Fault($"'{status}' does not belong to {(isWall ? "a" : "no")} thickness.");
            }

            if (isWall != reductions[i].NumberOrNull() is not null)
            {
                throw reductions[i].Fault("must be null where the thickness is null, and only there.");
            }
        }

        foreach (string status in statuses.Select(status => status.Text()).Distinct())
        {
            Needs(walls, cautions, status switch
            {
                "below goal" => [CautionKind.WallBelowGoal],
                "below structural minimum" => [CautionKind.BelowStructuralMinimum],
                "no answer" => [CautionKind.NoWallMeetsGoal],
                _ => [],
            });
        }
    }

    private static void NotBelow(JsonPlace wall, double? structuralMm)
    {
        if (!DecisionGuard.IsStrongEnough(structuralMm, wall.Number()))
        {
            throw wall.Fault(
                $"{Guard.Text(wall.Number())} mm is below the structural minimum of "
                    + $"{Guard.Text(structuralMm!.Value)} mm.");
        }
    }

    public static void Needs(JsonPlace document, IReadOnlyList<Caution> cautions, params CautionKind[] kinds)
    {
        foreach (CautionKind kind in kinds)
        {
            if (!cautions.Any(caution => caution.Kind == kind))
            {
                throw Missing(document, kind);
            }
        }
    }

    private static ExchangeException Missing(JsonPlace document, CautionKind kind) =>
        document["cautions"].Fault($"the caution {kind} belongs to these values but is missing.");
}
