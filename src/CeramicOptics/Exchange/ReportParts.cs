using System.Text.Json;
using CeramicOptics.Characterization;
using CeramicOptics.Characterization.Photographs;
using CeramicOptics.Colorimetry;
using CeramicOptics.Decisions.Appearance;
using CeramicOptics.Decisions.Delivered;
using CeramicOptics.Decisions.Discs;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Spectra;

namespace CeramicOptics.Exchange;

/// <summary>What several results that decide nothing about a restoration write in the same way.</summary>
internal static class ReportParts
{
    public static void Sentence(Utf8JsonWriter json, Report result) =>
        json.WriteString("sentence", result.ToString());

    public static void Value(Utf8JsonWriter json, string name, UncertainValue value)
    {
        json.WriteStartObject(name);
        json.WriteNumber("value", value.Value);
        json.WriteNumber("mean", value.Mean);
        json.WriteNumber("standardUncertainty", value.StandardUncertainty);
        Interval(json, "interval95", value.Interval95);
        json.WriteEndObject();
    }

    public static void Color(Utf8JsonWriter json, string name, UncertainColor color)
    {
        json.WriteStartObject(name);
        Value(json, "l", color.L);
        Value(json, "a", color.A);
        Value(json, "b", color.B);
        json.WriteString("swatch", ResultParts.Swatch(color.Color));
        json.WriteEndObject();
    }

    public static void Deviation(Utf8JsonWriter json, string name, ColorDeviation deviation) =>
        JsonFile.Numbers(json, name, [deviation.L, deviation.A, deviation.B]);

    public static void Seen(Utf8JsonWriter json, AppearanceOptions options)
    {
        json.WriteString("under", options.Under.Name);
        json.WriteString("geometry", GeometryNames.Name(options.Geometry));
    }

    public static void Backing(Utf8JsonWriter json, string name, Backing backing)
    {
        json.WriteStartObject(name);
        Backing(json, backing);
        json.WriteEndObject();
    }

    public static void Backing(Utf8JsonWriter json, Backing backing)
    {
        json.WriteString("body", backing.Substrate.Name);
        json.WriteBoolean("isEstimated", backing.Substrate.IsEstimated);
        json.WriteString("film", backing.Coupling?.Name);
    }

    public static void Stack(Utf8JsonWriter json, UncertainStack stack)
    {
        int at = 0;
        json.WriteString("theory", stack.Stack.Model.Name);
        JsonFile.List(json, "layers", stack.Stack.Layers, layer =>
        {
            json.WriteString("material", layer.Material.Name);
            json.WriteNumber("thicknessMm", layer.ThicknessMm);
            json.WriteNumber("standardUncertaintyMm", stack.ThicknessStandardUncertaintiesMm[at++]);
            json.WriteBoolean("hasUncertainty", layer.Material.Uncertainty is not null);
        });
        Backing(json, "over", new Backing(stack.Stack.Substrate, stack.Stack.Coupling));
    }

    public static void Wavelengths(Utf8JsonWriter json, WavelengthGrid grid) =>
        JsonFile.Numbers(json, "wavelengthsNm", [.. Enumerable.Range(0, grid.Count).Select(i => grid[i])]);

    /// <summary>K and S over wavelength, where they are determined, and their uncertainty, where it is known.</summary>
    public static void Constants(
        Utf8JsonWriter json, WavelengthGrid grid, Func<int, CharacterizationResult.Solution?> at,
        bool hasUncertainty = true) =>
        JsonFile.List(json, "constants", Enumerable.Range(0, grid.Count), i =>
        {
            CharacterizationResult.Solution? found = at(i);
            json.WriteNumber("wavelengthNm", grid[i]);
            json.WriteBoolean("isDetermined", found is not null);
            if (found is not null)
            {
                json.WriteNumber("absorptionPerMm", found.Absorption);
                json.WriteNumber("scatteringPerMm", found.Scattering);
            }

            if (found is not null && hasUncertainty)
            {
                json.WriteNumber("absorptionUncertaintyPerMm", found.AbsorptionUncertainty);
                json.WriteNumber("scatteringUncertaintyPerMm", found.ScatteringUncertainty);
                json.WriteNumber("correlation", found.Correlation);
            }
        });

    public static void Limits(Utf8JsonWriter json, string name, LimitsOfAgreement? limits)
    {
        if (limits is null)
        {
            json.WriteNull(name);
            return;
        }

        json.WriteStartObject(name);
        json.WriteNumber("bias", limits.Bias);
        json.WriteNumber("standardDeviation", limits.StandardDeviation);
        json.WriteNumber("lower", limits.Lower);
        json.WriteNumber("upper", limits.Upper);
        Interval(json, "biasInterval95", limits.BiasInterval95);
        Interval(json, "lowerInterval95", limits.LowerInterval95);
        Interval(json, "upperInterval95", limits.UpperInterval95);
        json.WriteEndObject();
    }

    /// <summary>Findings with their number, so that a reader notices when one was dropped.</summary>
    public static void Findings<T>(Utf8JsonWriter json, IReadOnlyList<T> findings)
        where T : IFormattable
    {
        json.WriteNumber("findingCount", findings.Count);
        JsonFile.List(json, "findings", findings, finding =>
        {
            (Enum kind, string? subject, double? nm, IReadOnlyList<double> values) = Parts(finding);
            json.WriteString("kind", kind.ToString());
            json.WriteString("subject", subject);
            JsonFile.Number(json, "wavelengthNm", nm);
            JsonFile.Numbers(json, "values", [.. values]);
            json.WriteString("text", finding.ToString(null, null));
        });
    }

    private static void Interval(Utf8JsonWriter json, string name, Interval interval) =>
        JsonFile.Numbers(json, name, [interval.Low, interval.High]);

    private static (Enum Kind, string? Subject, double? Nm, IReadOnlyList<double> Values) Parts(
        IFormattable finding)
    {
        static IReadOnlyList<double> One(double? value) => value is double number ? [number] : [];
        return finding switch
        {
            Finding it => (it.Kind, null, it.WavelengthNm, it.Values),
            PhotographFinding it => (it.Kind, it.Subject, null, One(it.Value)),
            DiscFinding it => (it.Kind, it.Subject, null, One(it.Value)),
            CorrectionFinding it => (it.Kind, it.Subject, null, One(it.Value)),
            _ => throw new ArgumentException($"{finding.GetType().Name} is not a finding.", nameof(finding)),
        };
    }
}
