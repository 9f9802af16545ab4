using System.Text.Json;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Decisions;
using CeramicOptics.Decisions.Feasibility;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Remedies;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Exchange;

/// <summary>What several kinds of answers write alike.</summary>
internal static class ResultParts
{
    /// <summary>Cautions with their number, so that a reader notices when one was dropped.</summary>
    public static void Cautions(Utf8JsonWriter json, IReadOnlyList<Caution> cautions)
    {
        json.WriteNumber("cautionCount", cautions.Count);
        JsonFile.Cautions(json, cautions);
    }

    public static void Criterion(Utf8JsonWriter json, ColorCriterion criterion)
    {
        json.WriteStartObject("criterion");
        json.WriteString("name", criterion.Name);
        json.WriteString("formula", criterion.Formula.ToString());
        json.WriteNumber("limit", criterion.Limit);
        json.WriteString("source", criterion.Source);
        json.WriteEndObject();
    }

    /// <summary>What a restoration is made of.</summary>
    public static void Made(Utf8JsonWriter json, Restoration made)
    {
        json.WriteString("family", made.Core.Family);
        json.WriteNumber("grade", made.Core.Grade);
        json.WriteString("ceramic", made.Core.Material.Name);
        Film(json, "glaze", made.Glaze);
        if (made.Veneer is Veneer veneer)
        {
            json.WriteString("veneer", veneer.Material.Name);
            json.WriteNumber(
                veneer.Share > 0 ? "veneerShare" : "veneerMm", veneer.Share > 0 ? veneer.Share : veneer.ThicknessMm);
        }

        Film(json, "liner", made.Liner);
        Film(json, "cement", made.Cement);
        if (made.Coupling is CouplingMedium coupling)
        {
            json.WriteString("coupling", coupling.Name);
        }
    }

    public static void Zone(Utf8JsonWriter json, Restoration restoration, Zone zone)
    {
        json.WriteString("zone", zone.Name);
        json.WriteNumber("availableMm", zone.AvailableMm);
        JsonFile.Number(json, "structuralMm", restoration.StructuralMinimumMm(zone));
    }

    public static void ZoneMasking(Utf8JsonWriter json, Restoration restoration, ZoneMasking zone)
    {
        Zone(json, restoration, zone.Zone);
        json.WriteString("reference", zone.Zone.Reference.Name);
        json.WriteString("outcome", zone.Outcome switch
        {
            MaskingOutcome.MaskedThroughout => "masked throughout",
            MaskingOutcome.MaskedFrom => "masked from",
            MaskingOutcome.MaskedBetween => "masked between",
            _ => "not masked",
        });
        Minimum(json, zone.Minimum);
        JsonFile.Number(json, "marginMm", zone.MarginMm);
        json.WriteBoolean("isReliable", zone.IsReliable);
        json.WriteNumber("standardUncertainty", zone.StandardUncertainty);
        Chance(json, "masksAtAvailable", zone.MasksAtAvailable);
        Case(json, "atAvailable", zone.AtAvailable);
        Case(json, "limiting", zone.Limiting);
        Case(json, "best", zone.Best);
        JsonFile.Numbers(json, "wallRangeMm", [zone.WallRange.MinMm, zone.WallRange.MaxMm]);
        JsonFile.List(json, "crossings", zone.Crossings, crossing =>
        {
            json.WriteNumber("wallMm", crossing.WallMm);
            json.WriteBoolean("intoMasking", crossing.IntoMasking);
        });
        json.WriteString("sentence", zone.ToString());
    }

    public static void Case(Utf8JsonWriter json, string name, LimitingCase worst)
    {
        json.WriteStartObject(name);
        json.WriteNumber("wallMm", worst.WallMm);
        json.WriteNumber("difference", worst.Difference);
        json.WriteString("stump", worst.Stump.Name);
        json.WriteString("under", worst.Colorimeter.Name);
        Color(json, "reference", worst.Reference);
        json.WriteString("referenceSwatch", Swatch(worst.Reference));
        Color(json, "color", worst.Color);
        json.WriteString("swatch", Swatch(worst.Color));
        json.WriteString("inWords", worst.Shift.ToString());
        json.WriteEndObject();
    }

    public static void Reachable(Utf8JsonWriter json, ReachablePoint point)
    {
        Made(json, point.Restoration);
        json.WriteNumber("wallMm", point.WallMm);
        json.WriteNumber("difference", point.Difference);
        Color(json, "color", point.Color);
        json.WriteString("swatch", Swatch(point.Color));
    }

    public static void Contribution(Utf8JsonWriter json, Contribution part)
    {
        json.WriteString("input", part.Input switch
        {
            UncertainInput.Thickness => "thickness",
            UncertainInput.CoefficientScale => "coefficient scale",
            UncertainInput.CoefficientNoise => "coefficient noise",
            UncertainInput.RefractiveIndex => "refractive index",
            UncertainInput.Stump => "stump",
            UncertainInput.Target => "target",
            _ => "model",
        });
        if (part.Role is LayerRole role)
        {
            json.WriteString("role", ProvenanceNames.Name(role));
        }

        if (part.Material is not null)
        {
            json.WriteString("material", part.Material);
        }

        json.WriteNumber("differenceLow", part.DifferenceLow);
        json.WriteNumber("differenceHigh", part.DifferenceHigh);
        json.WriteNumber("share", part.Share);
    }

    public static string Name(RemedyKind kind) => kind switch
    {
        RemedyKind.Thickness => "thickness",
        RemedyKind.Grade => "grade",
        RemedyKind.Cement => "cement",
        RemedyKind.BlockingLiner => "blocking liner",
        _ => "stump build-up",
    };

    public static void Chance(Utf8JsonWriter json, string name, Probability probability)
    {
        json.WriteStartObject(name);
        json.WriteNumber("probability", probability.Value);
        json.WriteNumber("standardError", probability.StandardError);
        json.WriteNumber("samples", probability.Samples);
        json.WriteNumber("atLeast", probability.AtLeast);
        json.WriteNumber("atMost", probability.AtMost);
        json.WriteString("inWords", probability.ToString());
        json.WriteEndObject();
    }

    public static void Color(Utf8JsonWriter json, string name, Lab color) =>
        JsonFile.Numbers(json, name, [color.L, color.A, color.B]);

    public static void Colors(Utf8JsonWriter json, string name, IReadOnlyList<Lab> colors) =>
        JsonFile.List(json, name, colors, color =>
        {
            Color(json, "color", color);
            json.WriteString("swatch", Swatch(color));
        });

    /// <summary>Numbers of which some are not known.</summary>
    public static void NumbersOrNull(Utf8JsonWriter json, string name, ReadOnlySpan<double> values)
    {
        json.WriteStartArray(name);
        foreach (double value in values)
        {
            if (double.IsNaN(value))
            {
                json.WriteNullValue();
            }
            else
            {
                json.WriteNumberValue(value);
            }
        }

        json.WriteEndArray();
    }

    public static string Swatch(Lab color) => Srgb.FromLabReducingChroma(color).ToHex();

    private static void Film(Utf8JsonWriter json, string name, Layer? film)
    {
        if (film is not null)
        {
            json.WriteString(name, film.Material.Name);
            json.WriteNumber($"{name}Mm", film.ThicknessMm);
        }
    }

    public static void Minimum(Utf8JsonWriter json, MinimumThickness minimum)
    {
        json.WriteStartObject("minimum");
        JsonFile.Number(json, "byColorMm", minimum.ByColorMm);
        JsonFile.Number(json, "reliableMm", minimum.ReliableMm);
        JsonFile.Number(json, "byColorUpToMm", minimum.ByColorUpToMm);
        JsonFile.Number(json, "reliableUpToMm", minimum.ReliableUpToMm);
        JsonFile.Number(json, "structuralMm", minimum.StructuralMm);
        JsonFile.Number(json, "recommendedMm", minimum.RecommendedMm);
        json.WriteNumber("share", minimum.Share);
        JsonFile.Number(json, "standardUncertaintyMm", minimum.StandardUncertaintyMm);
        json.WriteString("sentence", minimum.ToString());
        json.WriteEndObject();
    }
}
