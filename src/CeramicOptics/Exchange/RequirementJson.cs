using System.Text.Json;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Layers;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;

namespace CeramicOptics.Exchange;

/// <summary>Minimum thicknesses with their cautions in files of responses; what is read is checked against the rules it
/// was made by.</summary>
internal static class RequirementJson
{
    // A wall can have to be thicker than a layer may be, where a veneer takes most of it.
    private const double LargestStructuralMm = 1e5;

    public static void Write(Utf8JsonWriter json, ThicknessRequirement requirement)
    {
        json.WriteStartObject("requirement");
        Head(json, requirement.ZoneName, requirement.Criterion, requirement.Minimum.Share);
        JsonFile.Number(json, "structuralMm", requirement.Minimum.StructuralMm);
        Minimum(json, requirement.Minimum);
        JsonFile.Cautions(json, requirement.Cautions);
        json.WriteEndObject();
    }

    public static void Write(Utf8JsonWriter json, CoreRequirements requirements)
    {
        json.WriteStartObject("requirement");
        Head(json, requirements.ZoneName, requirements.Criterion, requirements.Share);
        json.WriteBoolean("isTarget", requirements.IsTarget);
        JsonFile.Number(json, "structuralCoreMm", requirements.Strength.CoreMm);
        JsonFile.Number(json, "structuralWallMm", requirements.Strength.WallMm);
        JsonFile.List(json, "veneers", requirements.Minima, minimum => Minimum(json, minimum));
        JsonFile.Cautions(json, requirements.Cautions);
        json.WriteEndObject();
    }

    public static ThicknessRequirement Read(JsonPlace place, ThicknessRange range)
    {
        place.ObjectWith(
            "zone", "criterion", "share", "structuralMm", "byColorMm", "byColorUpToMm", "reliableMm", "reliableUpToMm",
            "recommendedMm", "standardUncertaintyMm", "cautions");
        MinimumThickness minimum = Minimum(
            place, range, Millimetres(place["structuralMm"], 0, LargestStructuralMm), Share(place));
        IReadOnlyList<Caution> cautions = Cautions(place["cautions"]);
        string zone = Zone(place);
        foreach (
            Caution needed in MaskingThickness.CautionsOf(zone, minimum).Where(needed => !cautions.Contains(needed)))
        {
            throw place["cautions"].Fault($"the caution {needed.Kind} belongs to these thicknesses but is missing.");
        }

        return place["cautions"]
            .Convert(
                () => new ThicknessRequirement(zone, minimum, range.MaxMm, Criterion(place["criterion"]), cautions));
    }

    public static CoreRequirements ReadCore(JsonPlace place, ThicknessRange veneer, ThicknessRange core)
    {
        place.ObjectWith(
            "zone", "criterion", "share", "isTarget", "structuralCoreMm", "structuralWallMm", "veneers", "cautions");
        CoreStrength strength = new(
            Millimetres(place["structuralCoreMm"], 0, LargestStructuralMm),
            Millimetres(place["structuralWallMm"], 0, LargestStructuralMm));
        List<JsonPlace> veneers = place["veneers"].Items();
        if (veneers.Count != CoreRequirements.Count)
        {
            throw place["veneers"]
                .Fault(
                    $"{Guard.Text(CoreRequirements.Count)} items are needed but {Guard.Text(veneers.Count)} are "
                        + "given.");
        }

        double share = Share(place);
        List<MinimumThickness> minima = [];
        foreach (JsonPlace item in veneers)
        {
            item.ObjectWith(
                "byColorMm", "byColorUpToMm", "reliableMm", "reliableUpToMm", "recommendedMm",
                "standardUncertaintyMm");
            minima.Add(
                Minimum(item, core, strength.MinimumCoreMm(CoreRequirements.VeneerMm(veneer, minima.Count)), share));
        }

        IReadOnlyList<Caution> cautions = Cautions(place["cautions"]);
        ColorCriterion criterion = Criterion(place["criterion"]);
        return place["cautions"].Convert(() =>
            new CoreRequirements(
                Zone(place), criterion, strength, share, place["isTarget"].Boolean(), Guard.Copy(minima), cautions));
    }

    private static void Head(Utf8JsonWriter json, string zone, ColorCriterion criterion, double share)
    {
        json.WriteString("zone", zone);
        ResultParts.Criterion(json, criterion);
        json.WriteNumber("share", share);
    }

    private static void Minimum(Utf8JsonWriter json, MinimumThickness minimum)
    {
        JsonFile.Number(json, "byColorMm", minimum.ByColorMm);
        JsonFile.Number(json, "byColorUpToMm", minimum.ByColorUpToMm);
        JsonFile.Number(json, "reliableMm", minimum.ReliableMm);
        JsonFile.Number(json, "reliableUpToMm", minimum.ReliableUpToMm);
        JsonFile.Number(json, "recommendedMm", minimum.RecommendedMm);
        JsonFile.Number(json, "standardUncertaintyMm", minimum.StandardUncertaintyMm);
    }

    private static MinimumThickness Minimum(JsonPlace place, ThicknessRange range, double? structuralMm, double share)
    {
        double? byColor = Millimetres(place["byColorMm"], range.MinMm, range.MaxMm);
        double? reliable = Millimetres(place["reliableMm"], range.MinMm, range.MaxMm);
        if (reliable is not null && !(reliable >= byColor))
        {
            throw place["reliableMm"].Fault("a reliable thickness is not below the thickness by colour and needs one.");
        }

        MinimumThickness minimum = new(
            byColor, reliable, structuralMm, range.MaxMm, share,
            Millimetres(place["standardUncertaintyMm"], 0, double.MaxValue),
            Millimetres(place["byColorUpToMm"], range.MinMm, range.MaxMm),
            Millimetres(place["reliableUpToMm"], range.MinMm, range.MaxMm));
        if (!minimum.IsOrdered)
        {
            throw place["reliableUpToMm"].Fault(
                "a thickness up to which a target is met is not below that from which it is, and both have one.");
        }

        JsonPlace recommended = place["recommendedMm"];
        double? given = recommended.NumberOrNull();
        return given == minimum.RecommendedMm ? minimum
            : given < structuralMm ? throw recommended.Fault(
                $"{Guard.Text(given!.Value)} mm is below the structural minimum of "
                    + $"{Guard.Text(structuralMm!.Value)} mm.")
            : throw recommended.Fault(
                $"must be {Text(minimum.RecommendedMm)}, as follows from the other thicknesses, but is {Text(given)}.");
    }

    private static string Text(double? mm) => mm is double value ? $"{Guard.Text(value)} mm" : "null";

    private static double Share(JsonPlace place) =>
        place["share"].Convert(() => Guard.InRange(place["share"].Number(), 0.5, 0.999, "", "Share"));

    private static string Zone(JsonPlace place) =>
        place["zone"].Convert(() => Guard.NotBlank(place["zone"].Text(), "Name of the zone"));

    private static ColorCriterion Criterion(JsonPlace place)
    {
        place.ObjectWith("name", "formula", "limit", "source");
        return place.Convert(() => new ColorCriterion(
            place["name"].Text(), Named<ColorDifferenceFormula>(place["formula"]), place["limit"].Number(),
            place["source"].Text()));
    }

    private static double? Millimetres(JsonPlace place, double min, double max) =>
        place.NumberOrNull() is double mm ? place.Convert(() => Guard.InRange(mm, min, max, "mm", "Thickness")) : null;

    public static IReadOnlyList<Caution> Cautions(JsonPlace place) => Guard.Copy(place.Items().Select(item =>
    {
        item.ObjectWith("kind", "subject", "value", "ceramic", "text");
        Caution caution = new(
            Named<CautionKind>(item["kind"]), item["subject"].TextOrNull(), item["value"].NumberOrNull(),
            item.TryGet("ceramic")?.Text());
        return caution.IsComplete
            ? caution
            : throw item.Fault($"a caution {caution.Kind} needs its subject or value.");
    }));

    private static T Named<T>(JsonPlace place)
        where T : struct, Enum
    {
        string name = place.Text();
        return Enum.TryParse(name, out T value) && value.ToString() == name
            ? value
            : throw place.Fault($"'{name}' is not known.");
    }
}
