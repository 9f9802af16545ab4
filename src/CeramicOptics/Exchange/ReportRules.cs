using CeramicOptics.Characterization;
using CeramicOptics.Characterization.Photographs;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Decisions.Delivered;
using CeramicOptics.Decisions.Discs;
using CeramicOptics.Restorations;

namespace CeramicOptics.Exchange;

/// <summary>
/// What a schema cannot say of results that decide nothing about a restoration: values that follow from others, and
/// the cautions and findings that they call for.
/// </summary>
internal static class ReportRules
{
    private const double Rounding = 1e-9;

    public static void Check(JsonPlace document, IReadOnlyList<Caution> cautions)
    {
        foreach (JsonPlace stack in document.TryGet("stacks")?.Items() ?? [])
        {
            Stack(document, stack, cautions);
        }

        if (document.TryGet("constants") is JsonPlace constants)
        {
            Constants(document, constants.Items());
        }

        switch (document["kind"].Text())
        {
            case "appearance":
                Estimate(document, document["black"], cautions);
                Estimate(document, document["white"], cautions);
                break;
            case "surface terms": Surface(document); break;
            case "photograph": Photograph(document); break;
            case "disc plan": Discs(document); break;
            case "correction": Correction(document); break;
            case "corrected prediction":
                ResultRules.Needs(
                    document, cautions, CautionKind.StrengthNotAssessed, CautionKind.ToothReduction);
                break;
            case "agreement": Agreement(document); break;
            case "drift": Drift(document); break;
        }
    }

    private static void Stack(JsonPlace document, JsonPlace stack, IReadOnlyList<Caution> cautions)
    {
        Estimate(document, stack["over"], cautions);
        foreach (JsonPlace layer in stack["layers"].Items().Where(layer => !layer["hasUncertainty"].Boolean()))
        {
            Needs(document, cautions, CautionKind.UncertaintyIncomplete, layer["material"].Text());
        }
    }

    private static void Estimate(JsonPlace document, JsonPlace body, IReadOnlyList<Caution> cautions)
    {
        if (body["isEstimated"].Boolean())
        {
            Needs(document, cautions, CautionKind.EstimatedSpectrum, body["body"].Text());
        }
    }

    private static void Needs(
        JsonPlace document, IReadOnlyList<Caution> cautions, CautionKind kind, string subject)
    {
        if (!cautions.Any(caution => caution.Kind == kind && caution.Subject == subject))
        {
            throw document["cautions"].Fault(
                $"the caution {kind} about '{subject}' belongs to these values but is missing.");
        }
    }

    private static void Constants(JsonPlace document, List<JsonPlace> constants)
    {
        double[] open = [.. constants.Where(at => !at["isDetermined"].Boolean())
            .Select(at => at["wavelengthNm"].Number())];
        foreach (JsonPlace at in constants)
        {
            Present(at, at["isDetermined"].Boolean(), "absorptionPerMm", "scatteringPerMm");
        }

        foreach (double nm in open)
        {
            if (!Findings(document).Any(finding => finding["wavelengthNm"].NumberOrNull() == nm
                && !IsDetermined(finding["kind"].Text())))
            {
                throw document["findings"].Fault(
                    $"K and S are not determined at {Guard.Text(nm)} nm, but no finding says so.");
            }
        }

        if (document.TryGet("isComplete") is JsonPlace complete && complete.Boolean() != (open.Length == 0))
        {
            throw complete.Fault("must say whether K and S are determined at every wavelength.");
        }
    }

    private static bool IsDetermined(string kind) =>
        Enum.TryParse(kind, out FindingKind known) && new Finding(null, known).IsDetermined;

    private static void Surface(JsonPlace document)
    {
        bool isDetermined = document["specularShare"].NumberOrNull() is not null;
        foreach (string name in (string[])
            ["specularShareUncertainty", "internalReflectance", "internalReflectanceUncertainty"])
        {
            if (document[name].NumberOrNull() is not null != isDetermined)
            {
                throw document[name].Fault("must be null where the specular share is, and only there.");
            }
        }

        if (!isDetermined && !Findings(document).Any(finding => finding["kind"].Text()
            is nameof(FindingKind.Undetermined) or nameof(FindingKind.TooFewReadings)))
        {
            throw Missing(document, nameof(FindingKind.Undetermined));
        }
    }

    private static void Photograph(JsonPlace document)
    {
        foreach (JsonPlace color in document["colors"].Items())
        {
            bool isDetermined = color["isDetermined"].Boolean();
            Present(color, isDetermined, "color", "swatch", "standardUncertainties");
            if (!isDetermined)
            {
                Needs(document, nameof(PhotographFindingKind.ClippedChannel), color["patch"].Text());
            }
        }

        string method = document["method"].Text();
        JsonPlace? used = document["methods"].Items().Cast<JsonPlace?>()
            .FirstOrDefault(item => item!.Value["method"].Text() == method);
        double mean = used?["meanDifference"].NumberOrNull()
            ?? throw document["method"].Fault("must be one of the methods that were evaluated.");
        if (mean > ColorCriterion.AcceptabilityThreshold.Limit)
        {
            Needs(document, nameof(PhotographFindingKind.LargeChartError));
        }
    }

    private static void Discs(JsonPlace document)
    {
        double others = document["fromOthers"].Number();
        foreach (JsonPlace part in document["candidates"].Items().Concat(document["sequence"].Items()).Append(document))
        {
            double? own = part["fromMaterial"].NumberOrNull(), all = part["standardUncertainty"].NumberOrNull();
            double? sum = own is double value ? Math.Sqrt((value * value) + (others * others)) : null;
            if (all is null ? sum is not null : !(Math.Abs(all.Value - (sum ?? double.NaN)) <= Rounding * all))
            {
                throw part["standardUncertainty"].Fault("must follow from its parts.");
            }
        }

        if (document["sequence"].Items().Count == 0)
        {
            Needs(document, nameof(DiscFindingKind.NoDiscHelps));
        }
    }

    private static void Correction(JsonPlace document)
    {
        List<JsonPlace> pieces = document["pieces"].Items();
        foreach (JsonPlace piece in pieces.Where(piece => !piece["isUsed"].Boolean()))
        {
            Needs(document, nameof(CorrectionFindingKind.OutlyingPiece), piece["piece"].Text());
        }

        if (pieces.Count < Decisions.Delivered.Correction.FewPieces)
        {
            Needs(document, nameof(CorrectionFindingKind.FewPieces));
        }

        if (document["scatterFactor"].Number() > Decisions.Delivered.Correction.LargeScatter + Rounding)
        {
            Needs(document, nameof(CorrectionFindingKind.LargeScatter));
        }
    }

    private static void Agreement(JsonPlace document)
    {
        bool isMany = document["pieces"].Integer() >= LimitsOfAgreement.FewestPieces;
        foreach (string name in (string[])["l", "a", "b", "difference"])
        {
            if (document[name].Element.ValueKind == System.Text.Json.JsonValueKind.Null == isMany)
            {
                throw document[name].Fault($"limits need {Guard.Text(LimitsOfAgreement.FewestPieces)} pieces.");
            }
        }
    }

    private static void Drift(JsonPlace document)
    {
        double limit = document["limit"].Number();
        List<JsonPlace> points = document["points"].Items();
        foreach (JsonPlace point in points)
        {
            if (point["isAlarm"].Boolean() != point["statistic"].Number() > limit)
            {
                throw point["isAlarm"].Fault("must say whether the statistic is above the limit.");
            }
        }

        if (points.Count(point => point["isAlarm"].Boolean()) != document["alarmCount"].Integer())
        {
            throw document["alarmCount"].Fault("must be the number of alarms.");
        }
    }

    private static void Present(JsonPlace place, bool isPresent, params string[] names)
    {
        foreach (string name in names)
        {
            if (place.TryGet(name) is not null != isPresent)
            {
                throw place.Fault($"key '{name}' is {(isPresent ? "missing" : "given for what is not determined")}.");
            }
        }
    }

    private static void Needs(JsonPlace document, string kind, string? subject = null)
    {
        if (!Findings(document).Any(finding => finding["kind"].Text() == kind
            && (subject is null || finding["subject"].TextOrNull() == subject)))
        {
            throw Missing(document, kind);
        }
    }

    private static List<JsonPlace> Findings(JsonPlace document) => document.TryGet("findings")?.Items() ?? [];

    private static ExchangeException Missing(JsonPlace document, string kind) =>
        document["findings"].Fault($"the finding {kind} belongs to these values but is missing.");
}
