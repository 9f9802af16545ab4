using System.Text.Json;
using CeramicOptics.Characterization;
using CeramicOptics.Characterization.Photographs;
using CeramicOptics.Decisions.Appearance;
using CeramicOptics.Decisions.Delivered;
using CeramicOptics.Decisions.Discs;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Layers;
using CeramicOptics.Mapping;
using CeramicOptics.Spectra;
using static CeramicOptics.Exchange.ReportParts;
using static CeramicOptics.Exchange.ResultParts;

namespace CeramicOptics.Exchange;

/// <summary>What results write that decide nothing about a restoration: values, and findings.</summary>
internal static class ReportContent
{
    /// <summary>The kind of a result, and what writes its content.</summary>
    public static (string Kind, Action<Utf8JsonWriter> Write) Of(Report result) => result switch
    {
        AppearanceResult appearance => ("appearance", json => Appearance(json, appearance)),
        StackDifference difference => ("stack difference", json => Difference(json, difference)),
        CharacterizationResult found => ("characterization", json => Characterization(json, found)),
        RecalibrationResult found => ("recalibration", json => Recalibration(json, found)),
        SurfaceFitResult surface => ("surface terms", json => Surface(json, surface)),
        PigmentResult pigment => ("pigment", json => Pigment(json, pigment)),
        PhotographResult photograph => ("photograph", json => Photograph(json, photograph)),
        DiscPlan plan => ("disc plan", json => Discs(json, plan)),
        CorrectionResult correction => ("correction", json => Correction(json, correction)),
        CorrectedPrediction prediction => ("corrected prediction", json => Prediction(json, prediction)),
        AgreementGroup group => ("agreement", json => Agreement(json, group)),
        DriftResult drift => ("drift", json => Drift(json, drift)),
        SpreadField field => (MapContent.SpreadKind, json => MapContent.Write(json, field)),
        _ => throw new ArgumentException(
            $"{result.GetType().Name} is not a result of this library.", nameof(result)),
    };

    private static void Appearance(Utf8JsonWriter json, AppearanceResult result)
    {
        Seen(json, result.Options);
        Backing(json, "black", result.Options.Black);
        Backing(json, "white", result.Options.White);
        JsonFile.List(json, "stacks", [result.Stack], stack => Stack(json, stack));
        Color(json, "color", result.Color);
        Color(json, "overBlack", result.OverBlack);
        Color(json, "overWhite", result.OverWhite);
        Color(json, "transmitted", result.Transmitted);
        Value(json, "luminousTransmittance", result.LuminousTransmittance);
        Value(json, "translucencyTp", result.TranslucencyParameter);
        Value(json, "translucencyTp00", result.TranslucencyParameter00);
        Value(json, "contrastRatio", result.ContrastRatio);
        Value(json, "opalescence", result.Opalescence);
        Wavelengths(json, result.Transmittance.Grid);
        JsonFile.Numbers(json, "transmittance", result.Transmittance.Values);
        Sentence(json, result);
    }

    private static void Difference(Utf8JsonWriter json, StackDifference result)
    {
        Seen(json, result.Options);
        JsonFile.List(json, "stacks", result.Stacks, stack => Stack(json, stack));
        Color(json, "first", result.First);
        Color(json, "second", result.Second);
        json.WriteString("formula", result.Formula.ToString());
        Value(json, "difference", result.Difference);
        Sentence(json, result);
    }

    private static void Characterization(Utf8JsonWriter json, CharacterizationResult result)
    {
        json.WriteString("material", result.Name);
        json.WriteString("theory", result.Model.Name);
        JsonFile.Numbers(json, "discThicknessesMm", [.. result.DiscThicknessesMm]);
        json.WriteBoolean("isComplete", result.IsComplete);
        Constants(json, result.Grid, result.SolutionAt);
        if (result.Fit is FitStatistics fit)
        {
            JsonFile.Numbers(json, "chiSquare", fit.ChiSquare);
            json.WriteNumber("degreesOfFreedom", fit.DegreesOfFreedom);
        }

        json.WriteString("film", result.Coupling?.ToString());
        Sentence(json, result);
        Findings(json, result.Findings);
    }

    private static void Recalibration(Utf8JsonWriter json, RecalibrationResult result)
    {
        Material found = result.Material;
        json.WriteString("material", found.Name);
        json.WriteString("from", result.From.Name);
        json.WriteString("theory", found.Model.Name);
        JsonFile.Numbers(json, "discThicknessesMm", [.. result.DiscThicknessesMm]);
        json.WriteNumber("largestResidual", result.LargestResidual);
        JsonFile.Number(json, "largestColorDifference", result.LargestColorDifference);
        Constants(
            json, found.Grid,
            i => new CharacterizationResult.Solution(
                found.Absorption[i], found.Scattering[i], found.Uncertainty?.AbsorptionPerMm[i] ?? 0,
                found.Uncertainty?.ScatteringPerMm[i] ?? 0, found.Uncertainty?.Correlation[i] ?? 0),
            found.Uncertainty is not null);
        Sentence(json, result);
    }

    private static void Surface(Utf8JsonWriter json, SurfaceFitResult result)
    {
        JsonFile.Number(json, "specularShare", result.SpecularShare);
        JsonFile.Number(json, "specularShareUncertainty", result.SpecularShareUncertainty);
        JsonFile.Number(json, "internalReflectance", result.InternalReflectance);
        JsonFile.Number(json, "internalReflectanceUncertainty", result.InternalReflectanceUncertainty);
        json.WriteNumber("chiSquareOfAll", result.ChiSquare);
        json.WriteNumber("degreesOfFreedom", result.DegreesOfFreedom);
        Sentence(json, result);
        Findings(json, result.Findings);
    }

    private static void Pigment(Utf8JsonWriter json, PigmentResult result)
    {
        json.WriteString("pigment", result.Name);
        json.WriteString("theory", result.Model.Name);
        JsonFile.List(json, "drawdowns", result.Drawdowns, drawdown =>
        {
            json.WriteNumber("load", drawdown.Load);
            JsonFile.Numbers(json, "thicknessesMm", [.. drawdown.Layer.ThicknessesMm]);
        });
        json.WriteBoolean("isComplete", result.IsComplete);
        json.WriteNumber("degreesOfFreedom", result.DegreesOfFreedom);
        Constants(json, result.Grid, result.SolutionAt);
        JsonFile.List(json, "fits", result.Points, point =>
        {
            json.WriteNumber("wavelengthNm", point.WavelengthNm);
            json.WriteNumber("absorptionPerMm", point.Absorption);
            json.WriteNumber("scatteringPerMm", point.Scattering);
            json.WriteNumber("carrierAbsorptionPerMm", point.CarrierAbsorption);
            json.WriteNumber("carrierScatteringPerMm", point.CarrierScattering);
            json.WriteNumber("chiSquare", point.ChiSquare);
            json.WriteBoolean("isDetermined", point.IsDetermined);
        });
        Sentence(json, result);
        Findings(json, result.Findings);
    }

    private static void Photograph(Utf8JsonWriter json, PhotographResult result)
    {
        json.WriteString("under", result.Under.Name);
        json.WriteString("method", result.Correction.Method.ToString());
        JsonFile.List(json, "methods", result.Evaluations, evaluation =>
        {
            json.WriteString("method", evaluation.Method.ToString());
            json.WriteNumber("terms", evaluation.Terms);
            json.WriteString("status", evaluation.Status.ToString());
            JsonFile.Number(json, "meanDifference", evaluation.MeanDifference);
            JsonFile.Number(json, "largestDifference", evaluation.LargestDifference);
        });
        JsonFile.List(json, "chart", result.Chart, error =>
        {
            json.WriteString("patch", error.Patch.Reading.Name);
            ResultParts.Color(json, "known", error.Patch.Known);
            ResultParts.Color(json, "leftOut", error.LeftOut);
            json.WriteNumber("difference", error.Difference);
        });
        JsonFile.List(json, "colors", result.Colors, color =>
        {
            json.WriteString("patch", color.Name);
            json.WriteBoolean("isDetermined", color.IsDetermined);
            if (color.IsDetermined)
            {
                ResultParts.Color(json, "color", color.Color);
                json.WriteString("swatch", Swatch(color.Color));
                JsonFile.Numbers(json, "standardUncertainties",
                    [color.StandardUncertainty.L, color.StandardUncertainty.A, color.StandardUncertainty.B]);
            }
        });
        Sentence(json, result);
        Findings(json, result.Findings);
    }

    private static void Discs(Utf8JsonWriter json, DiscPlan plan)
    {
        void Planned(PlannedDisc disc)
        {
            json.WriteNumber("thicknessMm", disc.ThicknessMm);
            JsonFile.List(json, "backings", disc.Backings, backing => Backing(json, backing));
            json.WriteNumber("standardUncertainty", disc.StandardUncertainty);
            json.WriteNumber("fromMaterial", disc.FromMaterial);
        }

        json.WriteString("goal", plan.Goal == DiscGoal.MaskingThickness ? "masking thickness" : "difference");
        json.WriteString("material", plan.Material);
        json.WriteString("zone", plan.Zone.Name);
        json.WriteNumber("answer", plan.Answer);
        JsonFile.Number(json, "standardUncertainty", plan.StandardUncertainty);
        JsonFile.Number(json, "fromMaterial", plan.FromMaterial);
        json.WriteNumber("fromOthers", plan.FromOthers);
        JsonFile.List(json, "others", plan.Others, part => Contribution(json, part));
        JsonFile.List(json, "candidates", plan.Candidates, Planned);
        JsonFile.List(json, "sequence", plan.Sequence, Planned);
        Sentence(json, plan);
        Findings(json, plan.Findings);
    }

    private static void Correction(Utf8JsonWriter json, CorrectionResult result)
    {
        json.WriteNumber("scatterFactor", result.ScatterFactor);
        JsonFile.List(json, "quantities", result.Quantities, quantity =>
        {
            json.WriteString("quantity", quantity.Kind.ToString());
            json.WriteString("subject", quantity.Subject);
            json.WriteString("batch", quantity.Batch);
            json.WriteNumber("before", quantity.Before);
            json.WriteNumber("beforeUncertainty", quantity.BeforeUncertainty);
            json.WriteNumber("after", quantity.After);
            json.WriteNumber("afterUncertainty", quantity.AfterUncertainty);
            json.WriteNumber("learned", quantity.Learned);
            Deviation(json, "meanEffect", quantity.MeanEffect);
        });
        JsonFile.List(json, "pieces", result.Pieces, piece =>
        {
            json.WriteString("piece", piece.Piece.Name);
            json.WriteBoolean("isUsed", piece.IsUsed);
            Deviation(json, "before", piece.Before);
            Deviation(json, "after", piece.After);
            json.WriteNumber("differenceBefore", piece.DifferenceBefore);
            json.WriteNumber("differenceAfter", piece.DifferenceAfter);
        });
        Sentence(json, result);
        Findings(json, result.Findings);
    }

    private static void Prediction(Utf8JsonWriter json, CorrectedPrediction prediction)
    {
        json.WriteString("under", prediction.Under.Name);
        ResultParts.Color(json, "asGiven", prediction.AsGiven);
        ResultParts.Color(json, "color", prediction.Color);
        json.WriteString("swatch", Swatch(prediction.Color));
        Deviation(json, "standardUncertainties", prediction.StandardUncertainty);
        Sentence(json, prediction);
    }

    private static void Agreement(Utf8JsonWriter json, AgreementGroup group)
    {
        json.WriteString("group", group.Name);
        json.WriteString("batch", group.Batch);
        json.WriteNumber("pieces", group.Pieces.Count);
        Deviation(json, "meanDeviation", group.MeanDeviation);
        json.WriteNumber("meanDifference", group.MeanDifference);
        Limits(json, "l", group.L);
        Limits(json, "a", group.A);
        Limits(json, "b", group.B);
        Limits(json, "difference", group.Difference);
        Sentence(json, group);
    }

    private static void Drift(Utf8JsonWriter json, DriftResult result)
    {
        json.WriteNumber("limit", result.Limit);
        json.WriteNumber("averageRunLength", result.AverageRunLength);
        json.WriteNumber("alarmCount", result.Alarms.Count);
        JsonFile.List(json, "points", result.Points, point =>
        {
            json.WriteString("piece", point.Piece.Name);
            json.WriteNumber("statistic", point.Statistic);
            json.WriteBoolean("isAlarm", point.IsAlarm);
            Deviation(json, "shift", point.Shift);
        });
        Sentence(json, result);
    }
}
