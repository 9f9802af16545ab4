using System.Text.Json;
using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;
using CeramicOptics.Selection;

namespace CeramicOptics.Exchange;

/// <summary>Writes results as JSON, for other programs and for records.</summary>
/// <remarks>
/// The schema is docs/schema/result.schema.json, version 1: an object with <c>format</c>, <c>version</c>, <c>kind</c> and the content of that kind.
/// Lengths are in mm, colours L*, a*, b* with their illuminant and observer. Numbers read back exactly.
/// </remarks>
public static class ResultJson
{
    private const string Format = "CeramicOptics result";
    private const int Version = 1;

    /// <summary>Writes the answer to a masking question.</summary>
    /// <param name="result">The result.</param>
    /// <param name="stream">Where to; UTF-8, left open.</param>
    public static void Write(MaskingResult result, Stream stream) => Document(stream, "masking", json => Content(json, Guard.NotNull(result)));

    /// <summary>Writes a choice of grade.</summary>
    /// <param name="ranking">The ranking.</param>
    /// <param name="stream">Where to; UTF-8, left open.</param>
    public static void Write(GradeRanking ranking, Stream stream) => Document(stream, "grade choice", json =>
    {
        JsonFile.List(json, "assessments", Guard.NotNull(ranking).Assessments, assessment =>
        {
            Ceramic(json, assessment.Ceramic);
            json.WriteNumber("translucencyTp00", assessment.Translucency);
            json.WriteBoolean("masks", assessment.Masks);
            JsonFile.List(json, "zones", assessment.Zones, zone =>
            {
                json.WriteString("zone", zone.Zone.Name);
                json.WriteNumber("availableMm", zone.Zone.AvailableThicknessMm);
                JsonFile.Number(json, "marginMm", zone.MarginMm);
                Worst(json, "atAvailable", zone.AtAvailable);
                json.WriteStartObject("masking");
                Content(json, zone.Masking);
                json.WriteEndObject();
            });
        });
        JsonFile.Cautions(json, ranking.Cautions);
    });

    /// <summary>Writes a ranking of matches.</summary>
    /// <param name="ranking">The ranking.</param>
    /// <param name="stream">Where to; UTF-8, left open.</param>
    public static void Write(MatchRanking ranking, Stream stream) => Document(stream, "match", json =>
    {
        json.WriteNumber("considered", Guard.NotNull(ranking).Considered);
        json.WriteNumber("pruned", ranking.Pruned);
        json.WriteNumber("tooThin", ranking.TooThin);
        JsonFile.List(json, "candidates", ranking.Candidates, candidate =>
        {
            Ceramic(json, candidate.Ceramic);
            if (candidate.Veneer is not null)
            {
                json.WriteString("veneer", candidate.Veneer.Name);
                json.WriteNumber("veneerShare", candidate.VeneerShare);
            }

            json.WriteNumber("worstDifference", candidate.WorstDifference);
            json.WriteNumber("meanDifference", candidate.MeanDifference);
            json.WriteNumber("translucencyTp00", candidate.Translucency);
            json.WriteBoolean("meets", candidate.Meets);
            json.WriteString("explanation", candidate.Explanation);
            JsonFile.List(json, "zones", candidate.Zones, zone =>
            {
                json.WriteString("zone", zone.Zone.Name);
                json.WriteNumber("wallMm", zone.WallMm);
                json.WriteString("cement", zone.Cement.Material.Name);
                json.WriteNumber("cementMm", zone.Cement.ThicknessMm);
                Worst(json, "worst", zone.Worst);
            });
        });
        JsonFile.Cautions(json, ranking.Cautions);
    });

    /// <summary>Writes a stain recipe.</summary>
    /// <param name="recipe">The recipe.</param>
    /// <param name="stream">Where to; UTF-8, left open.</param>
    public static void Write(StainRecipe recipe, Stream stream) => Document(stream, "stain", json =>
    {
        JsonFile.List(json, "parts", Guard.NotNull(recipe).Parts, part =>
        {
            json.WriteString("pigment", part.Pigment.Name);
            json.WriteNumber("load", part.Load);
        });
        json.WriteBoolean("meets", recipe.Meets);
        json.WriteNumber("metamerism", recipe.Metamerism);
        JsonFile.List(json, "without", recipe.Without, place => Worst(json, place));
        JsonFile.List(json, "with", recipe.With, place => Worst(json, place));
        JsonFile.Cautions(json, recipe.Cautions);
    });

    /// <summary>Writes how sure a prediction is.</summary>
    /// <param name="result">The result.</param>
    /// <param name="stream">Where to; UTF-8, left open.</param>
    public static void Write(UncertaintyResult result, Stream stream) => Document(stream, "uncertainty", json =>
    {
        json.WriteNumber("difference", Guard.NotNull(result).Difference);
        json.WriteNumber("meanDifference", result.MeanDifference);
        json.WriteNumber("standardUncertainty", result.StandardUncertainty);
        JsonFile.Numbers(json, "interval95", [result.Interval95.Low, result.Interval95.High]);
        Chance(json, "meets", result.Meets);
        Chance(json, "acceptable", result.Acceptable);
        Chance(json, "imperceptible", result.Imperceptible);
        json.WriteNumber("samples", result.Samples);
        JsonFile.List(json, "contributions", result.Contributions, part =>
        {
            json.WriteString("input", part.Input);
            json.WriteNumber("differenceLow", part.DifferenceLow);
            json.WriteNumber("differenceHigh", part.DifferenceHigh);
            json.WriteNumber("share", part.Share);
        });
        JsonFile.Cautions(json, result.Cautions);
    });

    /// <summary>Writes a thickness with its tolerance.</summary>
    /// <param name="result">The result.</param>
    /// <param name="stream">Where to; UTF-8, left open.</param>
    public static void Write(ToleranceResult result, Stream stream) => Document(stream, "tolerance", json =>
    {
        JsonFile.Number(json, "opticalMinimumMm", Guard.NotNull(result).OpticalMinimumMm);
        JsonFile.Number(json, "recommendedMinimumMm", result.RecommendedMinimumMm);
        json.WriteNumber("share", result.Share);
        Chance(json, "reached", result.Reached);
        json.WriteString("sentence", result.ToString());
        JsonFile.Cautions(json, result.Cautions);
    });

    /// <summary>Writes whether an opaque liner helps.</summary>
    /// <param name="result">The result.</param>
    /// <param name="stream">Where to; UTF-8, left open.</param>
    public static void Write(BlockingLinerResult result, Stream stream) => Document(stream, "blocking liner", json =>
    {
        JsonFile.Number(json, "thicknessMm", Guard.NotNull(result).ThicknessMm);
        json.WriteNumber("bestMm", result.BestMm);
        json.WriteNumber("translucencyTp00Without", result.TranslucencyWithout);
        json.WriteNumber("translucencyTp00With", result.TranslucencyWith);
        JsonFile.List(json, "zones", result.Zones, zone => Worst(json, zone));
        JsonFile.Cautions(json, result.Cautions);
    });

    /// <summary>Writes whether a wish is realistic, with the corners of what can be made.</summary>
    /// <param name="result">The result.</param>
    /// <param name="stream">Where to; UTF-8, left open.</param>
    public static void Write(Realism result, Stream stream) => Document(stream, "realism", json =>
    {
        json.WriteString("under", Guard.NotNull(result).Under.Name);
        Color(json, "wish", result.Wish);
        Color(json, "nearest", result.Nearest.Color);
        json.WriteString("recipe", result.Nearest.Recipe);
        json.WriteNumber("difference", result.Difference);
        json.WriteBoolean("isRealistic", result.IsRealistic);
        json.WriteString("sentence", result.Sentence);
        json.WriteString("wishSwatch", result.WishSwatch.ToHex());
        json.WriteString("nearestSwatch", result.NearestSwatch.ToHex());
        JsonFile.List(json, "corners", result.HullCorners, corner =>
        {
            Color(json, "color", corner.Color);
            json.WriteString("recipe", corner.Recipe);
        });
        JsonFile.Cautions(json, result.Cautions);
    });

    private static void Document(Stream stream, string kind, Action<Utf8JsonWriter> content) => JsonFile.Write(stream, Format, Version, json =>
    {
        json.WriteString("kind", kind);
        content(json);
    });

    private static void Content(Utf8JsonWriter json, MaskingResult result)
    {
        json.WriteString("outcome", result.Outcome switch
        {
            MaskingOutcome.MaskedThroughout => "masked throughout",
            MaskingOutcome.MaskedFrom => "masked from",
            _ => "not masked",
        });
        JsonFile.Number(json, "opticalMinimumMm", result.OpticalMinimumMm);
        JsonFile.Number(json, "recommendedMinimumMm", result.RecommendedMinimumMm);
        JsonFile.Number(json, "thicknessStandardUncertaintyMm", result.ThicknessStandardUncertaintyMm);
        json.WriteNumber("differenceStandardUncertainty", result.DifferenceStandardUncertainty);
        JsonFile.Number(json, "modelDeparture", result.ModelDeparture);
        json.WriteString("criterion", result.Criterion.ToString());
        json.WriteString("reference", result.Reference.Name);
        Worst(json, "limiting", result.Limiting);
        Worst(json, "best", result.Best);
        JsonFile.List(json, "crossings", result.Crossings, crossing =>
        {
            json.WriteNumber("thicknessMm", crossing.ThicknessMm);
            json.WriteBoolean("intoMasking", crossing.IntoMasking);
        });
        JsonFile.Cautions(json, result.Cautions);
    }

    private static void Ceramic(Utf8JsonWriter json, Ceramic ceramic)
    {
        json.WriteString("family", ceramic.Family);
        json.WriteNumber("grade", ceramic.Grade);
    }

    private static void Worst(Utf8JsonWriter json, string name, WorstCase worst)
    {
        json.WriteStartObject(name);
        Worst(json, worst);
        json.WriteEndObject();
    }

    private static void Worst(Utf8JsonWriter json, WorstCase worst)
    {
        json.WriteNumber("thicknessMm", worst.ThicknessMm);
        json.WriteNumber("difference", worst.Difference);
        json.WriteString("stump", worst.Substrate.Name);
        json.WriteString("under", worst.Colorimeter.Name);
        Color(json, "reference", worst.Reference);
        Color(json, "color", worst.Color);
        json.WriteString("inWords", worst.InWords);
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
