using System.Text.Json;
using CeramicOptics.Colorimetry;
using CeramicOptics.Decisions;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Restorations;

namespace CeramicOptics.Exchange;

/// <summary>Writes results as JSON, for other programs and for records.</summary>
/// <remarks>
/// The schema is docs/schema/result.schema.json, version 2: an object with <c>format</c>, <c>version</c>, <c>kind</c> and the content of that kind.
/// Lengths are in mm, colours L*, a*, b* with their illuminant and observer. Numbers read back exactly.
/// </remarks>
public static class ResultJson
{
    private const string Format = "CeramicOptics result";
    private const int Version = 2;

    /// <summary>Writes the answer to a masking question.</summary>
    /// <param name="result">The result.</param>
    /// <param name="stream">Where to; UTF-8, left open.</param>
    public static void Write(MaskingResult result, Stream stream) => Document(stream, "masking", json =>
    {
        Masking(json, Guard.NotNull(result));
        JsonFile.Cautions(json, result.Cautions);
    });

    /// <summary>Writes a choice of grade.</summary>
    /// <param name="ranking">The ranking.</param>
    /// <param name="stream">Where to; UTF-8, left open.</param>
    public static void Write(GradeRanking ranking, Stream stream) => Document(stream, "grade choice", json =>
    {
        JsonFile.List(json, "assessments", Guard.NotNull(ranking).Assessments, assessment =>
        {
            json.WriteString("family", assessment.Ceramic.Family);
            json.WriteNumber("grade", assessment.Ceramic.Grade);
            json.WriteNumber("translucencyTp00", assessment.Translucency);
            Masking(json, assessment.Masking);
        });
        JsonFile.Cautions(json, ranking.Cautions);
    });

    /// <summary>Writes how sure predictions are.</summary>
    /// <param name="result">The result.</param>
    /// <param name="stream">Where to; UTF-8, left open.</param>
    public static void Write(UncertaintyResult result, Stream stream) => Document(stream, "uncertainty", json =>
    {
        JsonFile.List(json, "zones", Guard.NotNull(result).Zones, zone =>
        {
            Zone(json, zone.Zone);
            json.WriteNumber("difference", zone.Difference);
            json.WriteNumber("meanDifference", zone.MeanDifference);
            json.WriteNumber("standardUncertainty", zone.StandardUncertainty);
            JsonFile.Numbers(json, "interval95", [zone.Interval95.Low, zone.Interval95.High]);
            Chance(json, "meets", zone.Meets);
            Chance(json, "acceptable", zone.Acceptable);
            Chance(json, "imperceptible", zone.Imperceptible);
            json.WriteNumber("samples", zone.Samples);
            JsonFile.List(json, "contributions", zone.Contributions, part => Contribution(json, part));
        });
        JsonFile.Cautions(json, result.Cautions);
    });

    private static void Document(Stream stream, string kind, Action<Utf8JsonWriter> content) => JsonFile.Write(stream, Format, Version, json =>
    {
        json.WriteString("kind", kind);
        content(json);
    });

    private static void Masking(Utf8JsonWriter json, MaskingResult result)
    {
        json.WriteString("criterion", result.Criterion.ToString());
        json.WriteBoolean("isReliable", result.IsReliable);
        json.WriteNumber("worstDifference", result.WorstDifference);
        JsonFile.List(json, "zones", result.Zones, zone =>
        {
            Zone(json, zone.Zone);
            json.WriteString("reference", zone.Zone.Reference.Name);
            json.WriteString("outcome", zone.Outcome switch
            {
                MaskingOutcome.MaskedThroughout => "masked throughout",
                MaskingOutcome.MaskedFrom => "masked from",
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
        });
    }

    private static void Zone(Utf8JsonWriter json, Zone zone)
    {
        json.WriteString("zone", zone.Name);
        json.WriteNumber("availableMm", zone.AvailableMm);
    }

    private static void Minimum(Utf8JsonWriter json, MinimumThickness minimum)
    {
        json.WriteStartObject("minimum");
        JsonFile.Number(json, "byColorMm", minimum.ByColorMm);
        JsonFile.Number(json, "reliableMm", minimum.ReliableMm);
        JsonFile.Number(json, "structuralMm", minimum.StructuralMm);
        JsonFile.Number(json, "recommendedMm", minimum.RecommendedMm);
        json.WriteNumber("share", minimum.Share);
        JsonFile.Number(json, "standardUncertaintyMm", minimum.StandardUncertaintyMm);
        json.WriteString("sentence", minimum.ToString());
        json.WriteEndObject();
    }

    private static void Case(Utf8JsonWriter json, string name, LimitingCase worst)
    {
        json.WriteStartObject(name);
        json.WriteNumber("wallMm", worst.WallMm);
        json.WriteNumber("difference", worst.Difference);
        json.WriteString("stump", worst.Stump.Name);
        json.WriteString("under", worst.Colorimeter.Name);
        Color(json, "reference", worst.Reference);
        Color(json, "color", worst.Color);
        json.WriteString("inWords", worst.InWords);
        json.WriteEndObject();
    }

    private static void Contribution(Utf8JsonWriter json, Contribution part)
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

    private static void Color(Utf8JsonWriter json, string name, Lab color) => JsonFile.Numbers(json, name, [color.L, color.A, color.B]);

    private static void Chance(Utf8JsonWriter json, string name, Probability probability)
    {
        json.WriteStartObject(name);
        json.WriteNumber("probability", probability.Value);
        json.WriteNumber("standardError", probability.StandardError);
        json.WriteEndObject();
    }
}
