using System.Text.Json;
using CeramicOptics.Colorimetry;
using CeramicOptics.Decisions;
using CeramicOptics.Decisions.Feasibility;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Decisions.Remedies;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Exchange;

/// <summary>Writes results as JSON, for other programs and for records.</summary>
/// <remarks>
/// The schema is docs/schema/result.schema.json, version 2: an object with <c>format</c>, <c>version</c>, <c>kind</c>
/// and the content of that kind. Lengths are in mm, colours L*, a*, b* with their illuminant and observer. Numbers read
/// back exactly.
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
            json.WriteNumber("discTranslucencyTp00", assessment.DiscTranslucency);
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

    /// <summary>Writes a ranking of matches.</summary>
    /// <param name="ranking">The ranking.</param>
    /// <param name="stream">Where to; UTF-8, left open.</param>
    public static void Write(MatchRanking ranking, Stream stream) => Document(stream, "match", json =>
    {
        json.WriteString("criterion", Guard.NotNull(ranking).Restoration.Criterion.ToString());
        json.WriteNumber("considered", ranking.Considered);
        json.WriteNumber("pruned", ranking.Pruned);
        json.WriteNumber("tooThin", ranking.TooThin);
        JsonFile.List(json, "candidates", ranking.Candidates, candidate =>
        {
            Made(json, candidate.Restoration);
            json.WriteNumber("worstDifference", candidate.WorstDifference);
            json.WriteNumber("meanDifference", candidate.MeanDifference);
            json.WriteNumber("translucencyTp00", candidate.Translucency);
            json.WriteBoolean("meets", candidate.Meets);
            JsonFile.List(json, "zones", candidate.Zones, zone =>
            {
                Zone(json, zone.Zone);
                JsonFile.Number(json, "structuralMm", candidate.Restoration.StructuralMinimumMm(zone.Zone));
                Case(json, "atWall", zone.AtWall);
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
        json.WriteBoolean("helps", recipe.Helps);
        json.WriteNumber("metamerism", recipe.Metamerism);
        JsonFile.List(json, "zones", recipe.Zones, zone =>
        {
            Zone(json, zone.Zone);
            Case(json, "without", zone.Without);
            Case(json, "withCarrier", zone.WithCarrier);
            Case(json, "with", zone.With);
        });
        JsonFile.Cautions(json, recipe.Cautions);
    });

    /// <summary>Writes whether an opaque liner helps.</summary>
    /// <param name="result">The result.</param>
    /// <param name="stream">Where to; UTF-8, left open.</param>
    public static void Write(BlockingLinerResult result, Stream stream) => Document(stream, "blocking liner", json =>
    {
        JsonFile.Number(json, "thicknessMm", Guard.NotNull(result).ThicknessMm);
        JsonFile.Number(json, "bestMm", result.BestMm);
        if (result.Lined?.Liner is Layer liner)
        {
            json.WriteString("liner", liner.Material.Name);
            json.WriteNumber("linerMm", liner.ThicknessMm);
        }

        json.WriteNumber("translucencyTp00Without", result.TranslucencyWithout);
        json.WriteNumber("translucencyTp00With", result.TranslucencyWith);
        JsonFile.List(json, "without", result.Without, zone => CaseContent(json, zone));
        JsonFile.List(json, "zones", result.Zones, zone => CaseContent(json, zone));
        JsonFile.Cautions(json, result.Cautions);
    });

    /// <summary>Writes whether a wish can be met, with the corners of what can be made.</summary>
    /// <param name="result">The result.</param>
    /// <param name="stream">Where to; UTF-8, left open.</param>
    public static void Write(FeasibilityResult result, Stream stream) => Document(stream, "feasibility", json =>
    {
        Zone(json, Guard.NotNull(result).Zone);
        json.WriteString("criterion", result.Criterion.ToString());
        json.WriteString("under", result.Under.Name);
        Color(json, "wish", result.Wish);
        json.WriteBoolean("isFeasible", result.IsFeasible);
        JsonFile.Number(json, "difference", result.Difference);
        if (result.Nearest is ReachablePoint nearest)
        {
            json.WriteStartObject("nearest");
            Made(json, nearest.Restoration);
            json.WriteNumber("wallMm", nearest.WallMm);
            Color(json, "color", nearest.Color);
            json.WriteEndObject();
        }

        json.WriteString("sentence", result.ToString());
        json.WriteString("wishSwatch", result.WishSwatch.ToHex());
        if (result.NearestSwatch is Srgb swatch)
        {
            json.WriteString("nearestSwatch", swatch.ToHex());
        }

        JsonFile.List(json, "corners", result.HullCorners, corner =>
        {
            Made(json, corner.Restoration);
            json.WriteNumber("wallMm", corner.WallMm);
            Color(json, "color", corner.Color);
        });
        JsonFile.Cautions(json, result.Cautions);
    });

    private static void Document(Stream stream, string kind, Action<Utf8JsonWriter> content) =>
        JsonFile.Write(stream, Format, Version, json =>
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

    private static void Made(Utf8JsonWriter json, Restoration made)
    {
        json.WriteString("family", made.Core.Family);
        json.WriteNumber("grade", made.Core.Grade);
        if (made.Veneer is Veneer veneer)
        {
            json.WriteString("veneer", veneer.Material.Name);
            json.WriteNumber(
                veneer.Share > 0 ? "veneerShare" : "veneerMm", veneer.Share > 0 ? veneer.Share : veneer.ThicknessMm);
        }

        if (made.Cement is Layer cement)
        {
            json.WriteString("cement", cement.Material.Name);
            json.WriteNumber("cementMm", cement.ThicknessMm);
        }
        else
        {
            json.WriteString("coupling", made.Coupling!.Name);
        }
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
        CaseContent(json, worst);
        json.WriteEndObject();
    }

    private static void CaseContent(Utf8JsonWriter json, LimitingCase worst)
    {
        json.WriteNumber("wallMm", worst.WallMm);
        json.WriteNumber("difference", worst.Difference);
        json.WriteString("stump", worst.Stump.Name);
        json.WriteString("under", worst.Colorimeter.Name);
        Color(json, "reference", worst.Reference);
        Color(json, "color", worst.Color);
        json.WriteString("inWords", worst.Shift.ToString());
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

    private static void Color(Utf8JsonWriter json, string name, Lab color) =>
        JsonFile.Numbers(json, name, [color.L, color.A, color.B]);

    private static void Chance(Utf8JsonWriter json, string name, Probability probability)
    {
        json.WriteStartObject(name);
        json.WriteNumber("probability", probability.Value);
        json.WriteNumber("standardError", probability.StandardError);
        json.WriteEndObject();
    }
}
