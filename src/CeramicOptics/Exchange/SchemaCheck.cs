using System.Text.Json;
using System.Text.RegularExpressions;

namespace CeramicOptics.Exchange;

/// <summary>Compares JSON with the published schema of results; knows the keywords that this schema uses.</summary>
internal static class SchemaCheck
{
    private static readonly JsonElement Schema = Load();

    /// <summary>Checks a whole document of the kind that it names.</summary>
    /// <exception cref="ExchangeException">It does not follow the schema; says where.</exception>
    public static void Check(JsonPlace document)
    {
        string kind = document["kind"].Text();
        foreach (JsonElement known in Schema.GetProperty("oneOf").EnumerateArray())
        {
            if (known.GetProperty("properties").GetProperty("kind").GetProperty("const").GetString() == kind)
            {
                Check(document, known);
                return;
            }
        }

        throw document["kind"].Fault($"'{kind}' is not known.");
    }

    private static void Check(JsonPlace place, JsonElement schema)
    {
        JsonElement value = place.Element;
        foreach (JsonProperty rule in schema.EnumerateObject())
        {
            JsonElement wanted = rule.Value;
            switch (rule.Name)
            {
                case "$ref":
                    Check(place, Schema.GetProperty("$defs").GetProperty(wanted.GetString()!.Split('/')[2]));
                    break;
                case "type":
                    Require(IsOfType(value, wanted), place, $"must be of type {wanted}");
                    break;
                case "const":
                    Require(JsonElement.DeepEquals(value, wanted), place, $"must be {wanted}");
                    break;
                case "enum":
                    Require(
                        wanted.EnumerateArray().Any(item => JsonElement.DeepEquals(item, value)), place,
                        $"must be one of {wanted}");
                    break;
                case "minimum" when value.ValueKind == JsonValueKind.Number:
                    Require(place.Number() >= wanted.GetDouble(), place, $"must be at least {wanted}");
                    break;
                case "maximum" when value.ValueKind == JsonValueKind.Number:
                    Require(place.Number() <= wanted.GetDouble(), place, $"must be at most {wanted}");
                    break;
                case "pattern" when value.ValueKind == JsonValueKind.String:
                    Require(
                        Regex.IsMatch(place.Text(), wanted.GetString()!, RegexOptions.CultureInvariant), place,
                        $"must have the form {wanted}");
                    break;
                case "items":
                    place.Items().ForEach(item => Check(item, wanted));
                    break;
                case "minItems":
                    Require(value.GetArrayLength() >= wanted.GetInt32(), place, $"needs at least {wanted} items");
                    break;
                case "maxItems":
                    Require(value.GetArrayLength() <= wanted.GetInt32(), place, $"may have at most {wanted} items");
                    break;
                case "required" when value.ValueKind == JsonValueKind.Object:
                    foreach (JsonElement key in wanted.EnumerateArray())
                    {
                        _ = place[key.GetString()!];
                    }

                    break;
                case "properties" when value.ValueKind == JsonValueKind.Object:
                    foreach (KeyValuePair<string, JsonPlace> property in place.Properties())
                    {
                        Check(
                            property.Value, wanted.TryGetProperty(property.Key, out JsonElement inner)
                                ? inner
                                : throw place.Fault($"key '{property.Key}' is unknown."));
                    }

                    break;
            }
        }
    }

    private static bool IsOfType(JsonElement value, JsonElement wanted) => wanted.ValueKind == JsonValueKind.Array
        ? wanted.EnumerateArray().Any(one => IsOfType(value, one))
        : wanted.GetString() switch
        {
            "object" => value.ValueKind == JsonValueKind.Object,
            "array" => value.ValueKind == JsonValueKind.Array,
            "string" => value.ValueKind == JsonValueKind.String,
            "number" => value.ValueKind == JsonValueKind.Number,
            "integer" => value.ValueKind == JsonValueKind.Number && value.TryGetInt32(out _),
            "boolean" => value.ValueKind is JsonValueKind.True or JsonValueKind.False,
            _ => value.ValueKind == JsonValueKind.Null,
        };

    private static void Require(bool holds, JsonPlace place, string must)
    {
        if (!holds)
        {
            string given = place.Element.ValueKind is JsonValueKind.Object or JsonValueKind.Array
                ? "."
                : $" but is {place.Element.GetRawText()}.";
            throw place.Fault(must + given);
        }
    }

    private static JsonElement Load()
    {
        using Stream text = typeof(SchemaCheck).Assembly.GetManifestResourceStream("result.schema.json")!;
        using JsonDocument schema = JsonDocument.Parse(text);
        return schema.RootElement.Clone();
    }
}
