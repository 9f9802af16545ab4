using System.Text.Json;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Exchange;

/// <summary>
/// JSON files whose format and version stand in them: reading, where every fault is placed, and writing.
/// </summary>
internal static class JsonFile
{
    private const int MaximumBytes = 64 * 1024 * 1024;

    public static T Read<T>(
        Stream stream, string source, string format, int version, Func<JsonPlace, T> content, string otherVersions = "",
        int? oldestVersion = null)
    {
        Guard.NotNull(stream);
        using MemoryStream bytes = new();
        byte[] buffer = new byte[64 * 1024];
        for (int read; (read = stream.Read(buffer, 0, buffer.Length)) > 0;)
        {
            bytes.Write(buffer, 0, read);
            if (bytes.Length > MaximumBytes)
            {
                throw new ExchangeException($"{source}: the file is longer than {Guard.Text(MaximumBytes)} bytes.");
            }
        }

        try
        {
            ReadOnlyMemory<byte> text = bytes.GetBuffer().AsMemory(0, (int)bytes.Length);
            text = text.Span.StartsWith((ReadOnlySpan<byte>)[0xEF, 0xBB, 0xBF]) ? text.Slice(3) : text;
            using JsonDocument document = JsonDocument.Parse(
                text, new JsonDocumentOptions { AllowDuplicateProperties = false });
            JsonPlace root = new(document.RootElement, $"{source}: $");
            return content(root.ObjectOf(format, version, otherVersions, oldestVersion));
        }
        catch (JsonException error)
        {
            string fault = error.Message.Split([" Path:", " LineNumber:"], StringSplitOptions.None)[0];
            throw new ExchangeException(
                error.LineNumber is long line ? $"{source}, line {line + 1}: {fault}" : $"{source}: {fault}", error);
        }
    }

    public static void Write(Stream stream, string format, int version, Action<Utf8JsonWriter> content)
    {
        using Utf8JsonWriter writer = new(Guard.NotNull(stream), new JsonWriterOptions { Indented = true });
        writer.WriteStartObject();
        writer.WriteString("format", format);
        writer.WriteNumber("version", version);
        content(writer);
        writer.WriteEndObject();
    }

    /// <summary>Writes a file; one of this name stays whole until the new one is complete.</summary>
    public static void Save(string path, Action<Stream> write)
    {
        string temporary = path + ".new";
        using (FileStream stream = File.Create(temporary))
        {
            write(stream);
        }

        if (File.Exists(path))
        {
            File.Replace(temporary, path, null);
        }
        else
        {
            File.Move(temporary, path);
        }
    }

    public static void Number(Utf8JsonWriter json, string name, double? value)
    {
        if (value is double number)
        {
            json.WriteNumber(name, number);
        }
        else
        {
            json.WriteNull(name);
        }
    }

    public static void Numbers(Utf8JsonWriter json, string name, ReadOnlySpan<double> values)
    {
        json.WriteStartArray(name);
        foreach (double value in values)
        {
            json.WriteNumberValue(value);
        }

        json.WriteEndArray();
    }

    public static void Grid(Utf8JsonWriter json, WavelengthGrid grid)
    {
        json.WriteStartObject("wavelengths");
        json.WriteNumber("startNm", grid.StartNm);
        json.WriteNumber("stepNm", grid.StepNm);
        json.WriteNumber("count", grid.Count);
        json.WriteEndObject();
    }

    public static void List<T>(Utf8JsonWriter json, string name, IEnumerable<T> items, Action<T> content)
    {
        json.WriteStartArray(name);
        foreach (T item in items)
        {
            json.WriteStartObject();
            content(item);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    public static void Cautions(Utf8JsonWriter json, IReadOnlyList<Caution> cautions) =>
        List(json, "cautions", cautions, caution =>
    {
        json.WriteString("kind", caution.Kind.ToString());
        json.WriteString("subject", caution.Subject);
        Number(json, "value", caution.Value);
        if (caution.Ceramic is not null)
        {
            json.WriteString("ceramic", caution.Ceramic);
        }

        json.WriteString("text", caution.ToString());
    });
}
