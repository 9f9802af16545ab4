using System.Text.Json;
using CeramicOptics.Colorimetry;
using CeramicOptics.Decisions;
using CeramicOptics.Decisions.Cementing;
using CeramicOptics.Decisions.Feasibility;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Decisions.Remedies;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Layers;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using static CeramicOptics.Exchange.ResultParts;

namespace CeramicOptics.Exchange;

/// <summary>What each kind of result writes after its head; decisions about a restoration are written here.</summary>
internal static class ResultContent
{
    /// <summary>The kind of a result, and what writes its content.</summary>
    public static (string Kind, Action<Utf8JsonWriter> Write) Of(Report result) => result switch
    {
        MaskingResult masking => ("masking", json => Masking(json, masking)),
        SpotMaskingResult spot => ("spot masking", json => Spot(json, spot)),
        GradeRanking ranking => ("grade choice", json => Grades(json, ranking)),
        MatchRanking ranking => ("match", json => Matches(json, ranking)),
        MatchFront front => ("match front", json => Front(json, front)),
        StainRecipe recipe => ("stain", json => Stain(json, recipe)),
        CementComparisonResult cements => ("cement comparison", json => Cements(json, cements)),
        RemedyResult remedies => ("remedies", json => Remedies(json, remedies)),
        BlockingLinerResult liner => ("blocking liner", json => Liner(json, liner)),
        FeasibilityResult feasibility => ("feasibility", json => Feasibility(json, feasibility)),
        UncertaintyResult uncertainty => ("uncertainty", json => Uncertainty(json, uncertainty)),
        WallSuggestion walls => ("wall suggestion", json => Walls(json, walls)),
        _ => ReportContent.Of(result),
    };

    private static void Masking(Utf8JsonWriter json, MaskingResult result)
    {
        Made(json, result.Restoration);
        Criterion(json, result.Restoration.Criterion);
        json.WriteBoolean("isReliable", result.IsReliable);
        json.WriteNumber("worstDifference", result.WorstDifference);
        JsonFile.List(json, "zones", result.Zones, zone => ZoneMasking(json, result.Restoration, zone));
    }

    private static void Spot(Utf8JsonWriter json, SpotMaskingResult result)
    {
        double reachMm = result.ReachMm(result.Zone.AvailableMm);
        Made(json, result.Restoration);
        Criterion(json, result.Restoration.Criterion);
        Zone(json, result.Restoration, result.Zone);
        json.WriteString("reference", result.Zone.Reference.Name);
        json.WriteString("spot", result.Spot.Name);
        json.WriteNumber("radiusMm", result.RadiusMm);
        Minimum(json, result.Minimum);
        JsonFile.Number(json, "reachMm", double.IsInfinity(reachMm) ? null : reachMm);
        JsonFile.Numbers(json, "wallRangeMm", [result.WallRange.MinMm, result.WallRange.MaxMm]);
    }

    private static void Grades(Utf8JsonWriter json, GradeRanking ranking)
    {
        JsonFile.Number(json, "suggestedGrade", ranking.Suggested?.Ceramic.Grade);
        json.WriteString("suggestion", ranking.Suggested?.ToString());
        JsonFile.List(json, "assessments", ranking.Assessments, assessment =>
        {
            json.WriteNumber("discTranslucencyTp00", assessment.DiscTranslucency);
            Masking(json, assessment.Masking);
        });
    }

    private static void Matches(Utf8JsonWriter json, MatchRanking ranking)
    {
        Criterion(json, ranking.Restoration.Criterion);
        json.WriteNumber("pruned", ranking.Pruned);
        Candidates(json, ranking.Considered, ranking.TooThin, ranking.Candidates);
    }

    private static void Front(Utf8JsonWriter json, MatchFront front)
    {
        Criterion(json, front.Restoration.Criterion);
        json.WriteNumber("wantedTranslucencyTp00", front.WantedTranslucency);
        Candidates(json, front.Considered, front.TooThin, front.Candidates);
    }

    private static void Candidates(
        Utf8JsonWriter json, int considered, int tooThin, IReadOnlyList<MatchCandidate> candidates)
    {
        json.WriteNumber("considered", considered);
        json.WriteNumber("tooThin", tooThin);
        JsonFile.List(json, "candidates", candidates, candidate => Candidate(json, candidate));
    }

    private static void Candidate(Utf8JsonWriter json, MatchCandidate candidate)
    {
        Made(json, candidate.Restoration);
        json.WriteNumber("worstDifference", candidate.WorstDifference);
        json.WriteNumber("meanDifference", candidate.MeanDifference);
        json.WriteNumber("translucencyTp00", candidate.Translucency);
        json.WriteBoolean("meets", candidate.Meets);
        JsonFile.List(json, "zones", candidate.Zones, zone =>
        {
            Zone(json, candidate.Restoration, zone.Zone);
            Case(json, "atWall", zone.AtWall);
        });
    }

    private static void Stain(Utf8JsonWriter json, StainRecipe recipe)
    {
        Made(json, recipe.Restoration);
        Criterion(json, recipe.Restoration.Criterion);
        json.WriteString("carrier", recipe.Options.Layer.Carrier.Name);
        json.WriteNumber("stainMm", recipe.Layer.ThicknessMm);
        JsonFile.List(json, "parts", recipe.Parts, part =>
        {
            json.WriteString("pigment", part.Pigment.Name);
            json.WriteNumber("load", part.Load);
        });
        json.WriteBoolean("meets", recipe.Meets);
        json.WriteBoolean("helps", recipe.Helps);
        json.WriteNumber("metamerism", recipe.Metamerism);
        JsonFile.List(json, "zones", recipe.Zones, zone =>
        {
            Zone(json, recipe.Restoration, zone.Zone);
            Case(json, "without", zone.Without);
            Case(json, "withCarrier", zone.WithCarrier);
            Case(json, "with", zone.With);
        });
    }

    private static void Cements(Utf8JsonWriter json, CementComparisonResult result)
    {
        Criterion(json, result.Restoration.Criterion);
        JsonFile.List(json, "effects", result.Effects, effect =>
        {
            Made(json, effect.Restoration);
            if (effect.Option.TryInPaste is Layer paste)
            {
                json.WriteString("tryInPaste", paste.Material.Name);
            }

            json.WriteNumber("worstDifference", effect.WorstDifference);
            json.WriteBoolean("meets", effect.Meets);
            JsonFile.List(json, "zones", effect.Zones, zone =>
            {
                Zone(json, effect.Restoration, zone.Zone);
                Case(json, "atAvailable", zone.AtAvailable);
                Colors(json, "bonded", zone.Bonded);
                if (zone.TriedIn is IReadOnlyList<Lab> triedIn)
                {
                    Colors(json, "triedIn", triedIn);
                }

                json.WriteNumber("change", zone.Change);
                json.WriteString("changeInWords", zone.Shift.ToString());
                JsonFile.Number(json, "tryInGap", zone.TryInGap);
            });
        });
    }

    private static void Remedies(Utf8JsonWriter json, RemedyResult result)
    {
        Criterion(json, result.Candidate.Restoration.Criterion);
        json.WriteStartObject("candidate");
        Candidate(json, result.Candidate);
        json.WriteEndObject();
        JsonFile.List(json, "remedies", result.Remedies, remedy =>
        {
            json.WriteString("change", Name(remedy.Kind));
            Made(json, remedy.Restoration);
            json.WriteString("zone", remedy.Zone?.Name);
            JsonFile.Number(json, "wallMm", remedy.WallMm);
            json.WriteString("buildUp", remedy.BuildUp?.Name);
            json.WriteNumber("differenceBefore", remedy.DifferenceBefore);
            json.WriteNumber("differenceAfter", remedy.DifferenceAfter);
            json.WriteBoolean("meets", remedy.Meets);
            json.WriteString("sentence", remedy.ToString());
            JsonFile.List(json, "zones", remedy.Restoration.Zones, zone => Zone(json, remedy.Restoration, zone));
            ResultParts.Cautions(json, remedy.Cautions);
        });
    }

    private static void Liner(Utf8JsonWriter json, BlockingLinerResult result)
    {
        Made(json, result.Lined ?? result.Restoration);
        Criterion(json, result.Restoration.Criterion);
        JsonFile.Number(json, "thicknessMm", result.ThicknessMm);
        JsonFile.Number(json, "bestMm", result.BestMm);
        json.WriteNumber("translucencyTp00Without", result.TranslucencyWithout);
        json.WriteNumber("translucencyTp00With", result.TranslucencyWith);
        json.WriteStartArray("zones");
        for (int i = 0; i < result.Restoration.Zones.Count; i++)
        {
            json.WriteStartObject();
            Zone(json, result.Restoration, result.Restoration.Zones[i]);
            Case(json, "without", result.Without[i]);
            Case(json, "with", result.Zones[i]);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Feasibility(Utf8JsonWriter json, FeasibilityResult result)
    {
        json.WriteString("zone", result.Zone.Name);
        json.WriteNumber("availableMm", result.Zone.AvailableMm);
        JsonFile.Number(json, "structuralMm", result.StructuralMinimumMm);
        Criterion(json, result.Criterion);
        json.WriteString("under", result.Under.Name);
        Color(json, "wish", result.Wish);
        json.WriteString("wishSwatch", result.WishSwatch.ToHex());
        json.WriteBoolean("isFeasible", result.IsFeasible);
        JsonFile.Number(json, "difference", result.Difference);
        json.WriteNumber("tooThin", result.TooThin);
        if (result.Nearest is ReachablePoint nearest)
        {
            json.WriteStartObject("nearest");
            Reachable(json, nearest);
            json.WriteEndObject();
        }

        json.WriteString("sentence", result.ToString());
        JsonFile.List(json, "corners", result.HullCorners, corner => Reachable(json, corner));
    }

    private static void Uncertainty(Utf8JsonWriter json, UncertaintyResult result)
    {
        Made(json, result.Restoration);
        Criterion(json, result.Restoration.Criterion);
        JsonFile.List(json, "zones", result.Zones, zone =>
        {
            Zone(json, result.Restoration, zone.Zone);
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
    }

    private static void Walls(Utf8JsonWriter json, WallSuggestion walls)
    {
        NumbersOrNull(json, "thicknessesMm", walls.ThicknessesMm);
        NumbersOrNull(json, "reductionsMm", walls.ReductionsMm);
        json.WriteStartArray("statuses");
        foreach (WallStatus status in walls.Statuses)
        {
            json.WriteStringValue(status switch
            {
                WallStatus.MeetsGoal => "meets goal",
                WallStatus.BelowGoal => "below goal",
                WallStatus.BelowStructuralMinimum => "below structural minimum",
                WallStatus.TooThickForTarget => "too thick for target",
                WallStatus.NoAnswer => "no answer",
                _ => "no data",
            });
        }

        json.WriteEndArray();
    }
}
