using System.Text.Json;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Mapping;
using CeramicOptics.Selection;

namespace CeramicOptics.Exchange;

/// <summary>Saves compiled responses as JSON, so that a program can map thicknesses without the spectra they were made from.</summary>
/// <remarks>
/// The schema is docs/schema/thickness-response.schema.json, version 1. Numbers read back exactly; the error bound, criterion, requirement and cautions stay with the
/// tables. Readers check structure and ranges, not whether a table is true: read only files that you trust as you would the spectra.
/// </remarks>
public static class ResponseJson
{
    private const string Format = "CeramicOptics thickness response", OneLayer = "one layer", TwoLayers = "two layers";
    private const int Version = 1;
    private const double LargestColor = 1e4;

    /// <summary>Writes a response over one thickness.</summary>
    /// <param name="response">The response.</param>
    /// <param name="stream">Where to; UTF-8, left open.</param>
    public static void Write(ThicknessResponse response, Stream stream)
    {
        Guard.NotNull(response);
        JsonFile.Write(stream, Format, Version, json =>
        {
            json.WriteString("kind", OneLayer);
            Range(json, "rangeMm", response.RangeMm);
            json.WriteNumber("errorBound", response.ErrorBound);
            Requirement(json, response.Requirement);
            JsonFile.Numbers(json, "differences", response.DifferenceTable);
            JsonFile.Numbers(json, "colors", [.. response.ColorNodes.ToArray().SelectMany(color => (double[])[color.L, color.A, color.B])]);
        });
    }

    /// <summary>Writes a response over two thicknesses.</summary>
    /// <param name="response">The response.</param>
    /// <param name="stream">Where to; UTF-8, left open.</param>
    public static void Write(TwoLayerResponse response, Stream stream)
    {
        Guard.NotNull(response);
        JsonFile.Write(stream, Format, Version, json =>
        {
            json.WriteString("kind", TwoLayers);
            Range(json, "upperRangeMm", response.UpperRangeMm);
            Range(json, "lowerRangeMm", response.LowerRangeMm);
            json.WriteNumber("errorBound", response.ErrorBound);
            Requirement(json, response.Requirement);
            Cells(json, "differences", response.DifferenceCells);
            Cells(json, "colors", response.ColorCells);
        });
    }

    /// <summary>Reads a response over one thickness.</summary>
    /// <param name="stream">UTF-8 JSON, at most 64 MB.</param>
    /// <param name="source">Name of the source for messages.</param>
    /// <exception cref="ExchangeException">It is not such a file; the message names source and place.</exception>
    public static ThicknessResponse Read(Stream stream, string source) => JsonFile.Read(stream, source, Format, Version, root =>
    {
        CheckKind(root.ObjectWith("$schema", "format", "version", "kind", "rangeMm", "errorBound", "requirement", "differences", "colors"), OneLayer);
        JsonPlace differences = root["differences"];
        double[] table = differences.Convert(() => InRange(differences.Numbers(), 2, 0, LargestColor));
        JsonPlace colors = root["colors"];
        double[] nodes = colors.Convert(() => InRange(colors.Numbers(), 9, -LargestColor, LargestColor));
        if (nodes.Length % 3 != 0)
        {
            throw colors.Fault($"three numbers a colour are needed but {Guard.Text(nodes.Length)} are given.");
        }

        Lab[] tabled = [.. Enumerable.Range(0, nodes.Length / 3).Select(i => new Lab(nodes[3 * i], nodes[(3 * i) + 1], nodes[(3 * i) + 2]))];
        (double, double) range = Range(root["rangeMm"]);
        return new ThicknessResponse(range, tabled, table, Bound(root["errorBound"]), Requirement(root["requirement"]));
    });

    /// <summary>Reads a response over two thicknesses.</summary>
    /// <param name="stream">UTF-8 JSON, at most 64 MB.</param>
    /// <param name="source">Name of the source for messages.</param>
    /// <exception cref="ExchangeException">It is not such a file; the message names source and place.</exception>
    public static TwoLayerResponse ReadTwoLayer(Stream stream, string source) => JsonFile.Read(stream, source, Format, Version, root =>
    {
        CheckKind(root.ObjectWith("$schema", "format", "version", "kind", "upperRangeMm", "lowerRangeMm", "errorBound", "requirement", "differences", "colors"), TwoLayers);
        double bound = Bound(root["errorBound"]);
        return new TwoLayerResponse(
            Range(root["upperRangeMm"]), Range(root["lowerRangeMm"]), Cells(root["colors"], 3, -LargestColor), Cells(root["differences"], 1, 0), bound, Requirement(root["requirement"]));
    });

    private static void CheckKind(JsonPlace root, string kind)
    {
        if (root["kind"].Text() != kind)
        {
            throw root["kind"].Fault($"must be '{kind}'.");
        }
    }

    private static void Range(Utf8JsonWriter json, string name, (double Min, double Max) range) => JsonFile.Numbers(json, name, [range.Min, range.Max]);

    private static (double Min, double Max) Range(JsonPlace place)
    {
        double[] ends = place.Numbers();
        return ends.Length != 2 ? throw place.Fault("two numbers are needed.") : place.Convert(() =>
        {
            Guard.InRange(ends[0], 0, Layer.MaximumThicknessMm - 0.001, "mm", "Smallest thickness");
            Guard.InRange(ends[1], ends[0] + 0.0009, Layer.MaximumThicknessMm, "mm", "Largest thickness");
            return (ends[0], ends[1]);
        });
    }

    private static double Bound(JsonPlace place) => place.Convert(() => Guard.InRange(place.Number(), 0, 1000, "", "Error bound"));

    private static double[] InRange(double[] values, int least, double min, double max)
    {
        if (values.Length < least)
        {
            throw new ArgumentException($"at least {Guard.Text(least)} numbers are needed but {Guard.Text(values.Length)} are given.");
        }

        for (int i = 0; i < values.Length; i++)
        {
            Guard.InRange(values[i], min, max, "", $"Number {Guard.Text(i)}");
        }

        return values;
    }

    private static void Requirement(Utf8JsonWriter json, WallRequirement requirement)
    {
        json.WriteStartObject("requirement");
        json.WriteStartObject("criterion");
        json.WriteString("name", requirement.Criterion.Name);
        json.WriteString("formula", requirement.Criterion.Formula.ToString());
        json.WriteNumber("limit", requirement.Criterion.Limit);
        json.WriteString("source", requirement.Criterion.Source);
        json.WriteEndObject();
        JsonFile.Number(json, "opticalMinimumMm", requirement.OpticalMinimumMm);
        JsonFile.Number(json, "recommendedMinimumMm", requirement.RecommendedMinimumMm);
        JsonFile.Number(json, "thicknessStandardUncertaintyMm", requirement.ThicknessStandardUncertaintyMm);
        JsonFile.Number(json, "structuralMinimumMm", requirement.StructuralMinimumMm);
        JsonFile.Cautions(json, requirement.Cautions);
        json.WriteEndObject();
    }

    private static WallRequirement Requirement(JsonPlace place)
    {
        place.ObjectWith("criterion", "opticalMinimumMm", "recommendedMinimumMm", "thicknessStandardUncertaintyMm", "structuralMinimumMm", "cautions");
        JsonPlace criterion = place["criterion"].ObjectWith("name", "formula", "limit", "source");
        return new WallRequirement
        {
            Criterion = criterion.Convert(() => new ColorCriterion(
                criterion["name"].Text(), Named<ColorDifferenceFormula>(criterion["formula"]), criterion["limit"].Number(), criterion["source"].Text())),
            OpticalMinimumMm = Millimetres(place["opticalMinimumMm"]),
            RecommendedMinimumMm = Millimetres(place["recommendedMinimumMm"]),
            ThicknessStandardUncertaintyMm = place["thicknessStandardUncertaintyMm"] is var u && u.NumberOrNull() is double mm ? u.Convert(() => Guard.InRange(mm, 0, double.MaxValue, "mm", "Uncertainty")) : null,
            StructuralMinimumMm = Millimetres(place["structuralMinimumMm"]),
            Cautions = [.. place["cautions"].Items().Select(item =>
            {
                item.ObjectWith("kind", "text");
                return new Caution(Named<CautionKind>(item["kind"]), item["text"].Text());
            })],
        };
    }

    private static double? Millimetres(JsonPlace place) =>
        place.NumberOrNull() is double mm ? place.Convert(() => Guard.InRange(mm, 0, Layer.MaximumThicknessMm, "mm", "Thickness")) : null;

    private static T Named<T>(JsonPlace place)
        where T : struct, Enum
    {
        string name = place.Text();
        return Enum.TryParse(name, out T value) && value.ToString() == name ? value : throw place.Fault($"'{name}' is not known.");
    }

    private static void Cells(Utf8JsonWriter json, string name, CellTable table)
    {
        json.WriteStartObject(name);
        json.WriteNumber("errorBound", table.ErrorBound);
        JsonFile.Numbers(json, "parts", [.. table.Parts.Select(parts => (double)parts)]);
        json.WriteStartArray("values");
        foreach (float value in table.Values)
        {
            json.WriteNumberValue(value);
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static CellTable Cells(JsonPlace place, int functions, double min)
    {
        place.ObjectWith("errorBound", "parts", "values");
        JsonPlace parts = place["parts"], values = place["values"];
        int[] divided = [.. parts.Items().Select(item => item.Integer())];
        float[] numbers = [.. values.Convert(() => InRange(values.Numbers(), 0, min, LargestColor)).Select(value => (float)value)];
        return place.Convert(() => CellTable.Of(divided, numbers, functions, Bound(place["errorBound"])));
    }
}
