using System.Text.Json;
using CeramicOptics.Colorimetry;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Layers;
using CeramicOptics.Mapping;

namespace CeramicOptics.Exchange;

/// <summary>
/// Saves compiled responses as JSON, so that a program can map thicknesses without the original spectra.
/// </summary>
/// <remarks>
/// The schema is docs/schema/thickness-response.schema.json, version 3. Numbers read back exactly; error bound,
/// criterion, requirement and cautions stay with the tables. A file is refused whose recommended thickness does not
/// follow from its parts, whose thicknesses do not agree with its table, or which lacks a caution. Cautions are read by
/// kind, subject and value; their texts are for people and are not read. Whether a table is true cannot be checked:
/// read only files that you trust as you would the spectra.
/// </remarks>
public static class ResponseJson
{
    private const string Format = "CeramicOptics thickness response", OneLayer = "one layer", TwoLayers = "two layers";
    private const string CompileAgain = " Compile the response again and save it with this version.";
    private const int Version = 3;
    private const double LargestColor = 1e4;

    /// <summary>Writes a response over one thickness.</summary>
    /// <param name="response">The response.</param>
    /// <param name="stream">Destination; UTF-8, left open.</param>
    public static void Write(ThicknessResponse response, Stream stream)
    {
        Guard.NotNull(response);
        JsonFile.Write(stream, Format, Version, json =>
        {
            json.WriteString("kind", OneLayer);
            Range(json, "rangeMm", response.Range);
            json.WriteNumber("errorBound", response.ErrorBound);
            RequirementJson.Write(json, response.Requirement);
            JsonFile.Numbers(
                json, "maskedRangesMm",
                [.. response.MaskedRanges.SelectMany(masked => (double[])[masked.MinMm, masked.MaxMm])]);
            JsonFile.Numbers(json, "differences", response.DifferenceTable);
            JsonFile.Numbers(
                json, "colors",
                [.. response.ColorNodes.ToArray().SelectMany(color => (double[])[color.L, color.A, color.B])]);
        });
    }

    /// <summary>Writes a response over veneer and core.</summary>
    /// <param name="response">The response.</param>
    /// <param name="stream">Destination; UTF-8, left open.</param>
    public static void Write(TwoLayerResponse response, Stream stream)
    {
        Guard.NotNull(response);
        JsonFile.Write(stream, Format, Version, json =>
        {
            json.WriteString("kind", TwoLayers);
            Range(json, "veneerRangeMm", response.VeneerRange);
            Range(json, "coreRangeMm", response.CoreRange);
            json.WriteNumber("errorBound", response.ErrorBound);
            RequirementJson.Write(json, response.Requirements);
            Cells(json, "differences", response.DifferenceCells);
            Cells(json, "colors", response.ColorCells);
        });
    }

    /// <summary>Reads a response over one thickness.</summary>
    /// <param name="stream">UTF-8 JSON, at most 64 MB.</param>
    /// <param name="source">Name of the source for messages.</param>
    /// <exception cref="ExchangeException">It is not such a file, or contradicts itself; the message names source and
    /// place.</exception>
    public static ThicknessResponse Read(Stream stream, string source) => JsonFile.Read(
        stream, source, Format, Version, root =>
        {
            CheckKind(
                root.ObjectWith("$schema", "format", "version", "kind", "rangeMm", "errorBound", "requirement",
                "maskedRangesMm", "differences", "colors"),
                OneLayer);
            JsonPlace differences = root["differences"], colors = root["colors"], requirement = root["requirement"];
            double[] table = differences.Convert(() => InRange(differences.Numbers(), 2, 0, LargestColor));
            double[] nodes = colors.Convert(() => InRange(colors.Numbers(), 9, -LargestColor, LargestColor));
            if (nodes.Length % 3 != 0)
            {
                throw colors.Fault($"three numbers a colour are needed but {Guard.Text(nodes.Length)} are given.");
            }

            Lab[] tabled =
                [.. Enumerable.Range(0, nodes.Length / 3).Select(
                    i => new Lab(nodes[3 * i], nodes[(3 * i) + 1], nodes[(3 * i) + 2]))];
            ThicknessRange range = Range(root["rangeMm"]);
            ThicknessRequirement needed = RequirementJson.Read(requirement, range);
            double bound = Bound(root["errorBound"]);
            ThicknessRange[] masked = Masked(root["maskedRangesMm"], requirement["byColorMm"], range, needed.Minimum);
            for (int i = 0; i < table.Length; i++)
            {
                double mm = range.At(i / (table.Length - 1.0));
                double above = table[i] - needed.Criterion.Limit;
                if (Array.Exists(masked, part => part.Contains(mm)) ? above > bound : above < -bound)
                {
                    throw root["maskedRangesMm"].Fault(
                        $"contradicts the table, whose difference is {Guard.Text(table[i])} at {Guard.Text(mm)} mm.");
                }
            }

            return new ThicknessResponse(range, tabled, table, bound, needed, masked);
        },
        CompileAgain);

    /// <summary>Reads a response over veneer and core.</summary>
    /// <param name="stream">UTF-8 JSON, at most 64 MB.</param>
    /// <param name="source">Name of the source for messages.</param>
    /// <exception cref="ExchangeException">It is not such a file, or contradicts itself; the message names source and
    /// place.</exception>
    public static TwoLayerResponse ReadTwoLayer(Stream stream, string source) => JsonFile.Read(
        stream, source, Format, Version, root =>
        {
            CheckKind(
                root.ObjectWith(
                    "$schema", "format", "version", "kind", "veneerRangeMm", "coreRangeMm", "errorBound", "requirement",
                    "differences", "colors"),
                TwoLayers);
            double bound = Bound(root["errorBound"]);
            ThicknessRange veneer = Range(root["veneerRangeMm"]), core = Range(root["coreRangeMm"]);
            CoreRequirements requirements = RequirementJson.ReadCore(root["requirement"], veneer, core);
            TwoLayerResponse response = new(
                veneer, core, Cells(root["colors"], 3, -LargestColor), Cells(root["differences"], 1, 0), bound,
                requirements);
            CheckTable(root["requirement"]["veneers"].Items(), response);
            return response;
        },
        CompileAgain);

    // Pairs, rising, of which the one of the answer is one: for masking the one that reaches the end of the range.
    private static ThicknessRange[] Masked(
        JsonPlace place, JsonPlace byColor, ThicknessRange range, MinimumThickness minimum)
    {
        double[] ends = place.Numbers();
        for (int i = 0; i < ends.Length; i++)
        {
            place.Convert(() => Guard.InRange(
                ends[i], i == 0 ? range.MinMm : ends[i - 1], range.MaxMm, "mm", $"Number {Guard.Text(i)}"));
        }

        if (ends.Length % 2 != 0)
        {
            throw place.Fault($"two numbers a range are needed but {Guard.Text(ends.Length)} are given.");
        }

        ThicknessRange[] masked =
            [.. Enumerable.Range(0, ends.Length / 2).Select(i => new ThicknessRange(ends[2 * i], ends[(2 * i) + 1]))];
        double upTo = minimum.ByColorUpToMm ?? range.MaxMm;
        bool agrees = minimum.ByColorMm is double from
            ? Array.Exists(masked, part => part.MinMm == from && part.MaxMm == upTo)
            : !Array.Exists(masked, part => part.MaxMm == range.MaxMm);
        return agrees ? masked : throw byColor.Fault("must be where one of the masked ranges begins.");
    }

    // From each thickness by colour on, the table is within the limit, as far as it can tell.
    private static void CheckTable(List<JsonPlace> veneers, TwoLayerResponse response)
    {
        const int steps = 256;
        double limit = response.Requirements.Criterion.Limit + response.ErrorBound;
        (ThicknessRange veneer, ThicknessRange core) = (response.VeneerRange, response.CoreRange);
        for (int node = 0; node < CoreRequirements.Count; node++)
        {
            double veneerMm = CoreRequirements.VeneerMm(veneer, node);
            double from = response.Requirements.Minima[node].ByColorMm ?? double.PositiveInfinity;
            for (int i = 0; i <= steps; i++)
            {
                double mm = core.At(i / (double)steps);
                double difference = response.Difference(veneerMm, mm);
                if (mm >= from && !(mm > response.Requirements.Minima[node].ByColorUpToMm) && difference > limit)
                {
                    throw Contradicts(veneers[node]["byColorMm"], from, mm, difference);
                }
            }
        }
    }

    private static ExchangeException Contradicts(JsonPlace place, double byColorMm, double mm, double difference) =>
        place.Fault(
        $"{Guard.Text(byColorMm)} mm contradicts the table, whose difference is {Guard.Text(difference)} at "
            + $"{Guard.Text(mm)} mm.");

    private static void CheckKind(JsonPlace root, string kind)
    {
        if (root["kind"].Text() != kind)
        {
            throw root["kind"].Fault($"must be '{kind}'.");
        }
    }

    private static void Range(Utf8JsonWriter json, string name, ThicknessRange range) =>
        JsonFile.Numbers(json, name, [range.MinMm, range.MaxMm]);

    private static ThicknessRange Range(JsonPlace place)
    {
        double[] ends = place.Numbers();
        return ends.Length != 2 ? throw place.Fault("two numbers are needed.") : place.Convert(() =>
        {
            Guard.InRange(ends[0], 0, Layer.MaximumThicknessMm - 0.001, "mm", "Smallest thickness");
            Guard.InRange(ends[1], ends[0] + 0.0009, Layer.MaximumThicknessMm, "mm", "Largest thickness");
            return new ThicknessRange(ends[0], ends[1]);
        });
    }

    private static double Bound(JsonPlace place) =>
        place.Convert(() => Guard.InRange(place.Number(), 0, 1000, "", "Error bound"));

    private static double[] InRange(double[] values, int least, double min, double max)
    {
        if (values.Length < least)
        {
            throw new ArgumentException(
                $"at least {Guard.Text(least)} numbers are needed but {Guard.Text(values.Length)} are given.");
        }

        for (int i = 0; i < values.Length; i++)
        {
            if (!(values[i] >= min && values[i] <= max))
            {
                Guard.InRange(values[i], min, max, "", $"Number {Guard.Text(i)}");
            }
        }

        return values;
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
        float[] numbers = [.. values.Convert(() => InRange(values.Numbers(), 0, min, LargestColor)).Select(
            value => (float)value)];
        return place.Convert(() => CellTable.Of(divided, numbers, functions, Bound(place["errorBound"])));
    }
}
