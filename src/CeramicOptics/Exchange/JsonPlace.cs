using System.Text.Json;
using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Exchange;

/// <summary>A JSON element that knows where it stands, so that every fault can be placed.</summary>
internal readonly struct JsonPlace(JsonElement element, string place)
{
    public JsonElement Element => element;

    public JsonPlace this[string key] => TryGet(key) ?? throw Fault($"key '{key}' is missing.");

    public JsonPlace? TryGet(string key) =>
        element.TryGetProperty(key, out JsonElement value) ? new JsonPlace(value, $"{place}.{key}") : null;

    /// <summary>This element as an object that holds no other keys than the known ones.</summary>
    public JsonPlace ObjectWith(params string[] known)
    {
        RequireObject();
        foreach (JsonProperty property in element.EnumerateObject())
        {
            if (Array.IndexOf(known, property.Name) < 0)
            {
                throw Fault($"key '{property.Name}' is unknown; allowed: {string.Join(", ", known)}.");
            }
        }

        return this;
    }

    /// <summary>
    /// This element as an object of the known format, of the known version or an older one that is still read; what to
    /// do about other versions ends the message.
    /// </summary>
    public JsonPlace ObjectOf(string format, int version, string otherVersions = "", int? oldestVersion = null)
    {
        RequireObject();
        int oldest = oldestVersion ?? version;
        JsonPlace given = this["version"];
        string known = oldest == version
            ? $"allowed: {Guard.Text(version)}"
            : $"allowed: {Guard.Text(oldest)} to {Guard.Text(version)}";
        return this["format"].Text() != format ? throw this["format"].Fault($"must be '{format}'.")
            : given.Integer() >= oldest && given.Integer() <= version ? this
            : throw given.Fault($"version {Guard.Text(given.Integer())} is not known; {known}.{otherVersions}");
    }

    public string Text() =>
        element.ValueKind == JsonValueKind.String
            ? element.GetString()!
            : throw Fault($"a text is needed but {Kind} is given.");

    public double Number() =>
        element.ValueKind == JsonValueKind.Number && element.TryGetDouble(out double value) && Guard.IsFinite(value)
        ? value
        : throw Fault($"a finite number is needed but {Kind} is given.");

    public int Integer() => element.ValueKind == JsonValueKind.Number && element.TryGetInt32(out int value)
        ? value
        : throw Fault("a whole number is needed.");

    public bool Boolean() => element.ValueKind is JsonValueKind.True or JsonValueKind.False
        ? element.GetBoolean()
        : throw Fault($"true or false is needed but {Kind} is given.");

    /// <summary>The values of an object with their names.</summary>
    public IEnumerable<KeyValuePair<string, JsonPlace>> Properties()
    {
        string parent = place;
        return element.EnumerateObject().Select(property => new KeyValuePair<string, JsonPlace>(
            property.Name, new JsonPlace(property.Value, $"{parent}.{property.Name}")));
    }

    public List<JsonPlace> Items()
    {
        if (element.ValueKind != JsonValueKind.Array)
        {
            throw Fault($"a list is needed but {Kind} is given.");
        }

        string parent = place;
        return [.. element.EnumerateArray().Select((item, i) => new JsonPlace(item, $"{parent}[{Guard.Text(i)}]"))];
    }

    /// <summary>This element as a grid of wavelengths.</summary>
    public WavelengthGrid Grid()
    {
        JsonPlace grid = ObjectWith("startNm", "stepNm", "count");
        return Convert(() => new WavelengthGrid(
            grid["startNm"].Number(), grid["stepNm"].Number(), grid["count"].Integer()));
    }

    public double[] Numbers() => [.. Items().Select(item => item.Number())];

    /// <summary>Runs a conversion and puts this place before the message of any argument error in it.</summary>
    public T Convert<T>(Func<T> convert) => ExchangeException.Placed(place, convert);

    public string? TextOrNull() => element.ValueKind == JsonValueKind.Null ? null : Text();

    public double? NumberOrNull() => element.ValueKind == JsonValueKind.Null ? null : Number();

    private void RequireObject()
    {
        if (element.ValueKind != JsonValueKind.Object)
        {
            throw Fault($"an object is needed but {Kind} is given.");
        }
    }

    private string Kind => element.ValueKind switch
    {
        JsonValueKind.Object => "an object",
        JsonValueKind.Array => "a list",
        JsonValueKind.String => "a text",
        JsonValueKind.Number => element.GetRawText(),
        _ => element.ValueKind.ToString().ToLowerInvariant(),
    };

    public ExchangeException Fault(string fault) => new($"{place}: {fault}");
}
