using System.Text;
using System.Text.Json;
using CeramicOptics.Restorations;

namespace CeramicOptics.Exchange;

/// <summary>A written answer, other result or map, read back: what it said, not the result itself.</summary>
/// <remarks>
/// Only the library creates results, so a file is read as this snapshot, whose kind and cautions are typed and whose
/// other content is JSON as the schema says (docs/schema/result.schema.json, version 4). A file is refused that does
/// not follow the schema, whose values do not follow from each other, that offers a wall below the structural
/// minimum, or that lacks a caution or finding required by its values. Whether it is true cannot be checked. Immutable.
/// </remarks>
public sealed class ResultDocument
{
    private ResultDocument(JsonPlace document)
    {
        SchemaCheck.Check(document);
        Cautions = ResultRules.Check(document);
        (Kind, Content) = (document["kind"].Text(), document.Element.Clone());
    }

    /// <summary>The kind of result, such as "masking" or "photograph".</summary>
    public string Kind { get; }

    /// <summary>
    /// What must be shown with it; empty for results with findings, which <see cref="Content"/> holds.
    /// </summary>
    public IReadOnlyList<Caution> Cautions { get; }

    /// <summary>The whole object, cautions and findings included.</summary>
    public JsonElement Content { get; }

    /// <summary>The snapshot of a result.</summary>
    /// <param name="result">The result.</param>
    /// <exception cref="ArgumentException">The result was not made by this library.</exception>
    internal static ResultDocument Of(Report result)
    {
        using MemoryStream text = new(ResultJson.Bytes(result));
        return Read(text, "result");
    }

    /// <summary>Reads a written result.</summary>
    /// <param name="stream">Source; UTF-8, at most 64 MiB, left open.</param>
    /// <param name="source">Name for messages, such as that of the file.</param>
    /// <exception cref="ExchangeException">It is not a result of version 4 or breaks a rule; says where.</exception>
    public static ResultDocument Read(Stream stream, string source) => JsonFile.Read(
        stream, Guard.NotBlank(source), ResultJson.Format, ResultJson.Version,
        document => new ResultDocument(document), " Write the answer again with this version.");

    /// <summary>Reads a written result.</summary>
    /// <param name="json">The text.</param>
    /// <exception cref="ExchangeException">It is not a result of version 4 or breaks a rule; says where.</exception>
    public static ResultDocument Parse(string json)
    {
        using MemoryStream text = new(Encoding.UTF8.GetBytes(Guard.NotNull(json)));
        return Read(text, "text");
    }

    /// <summary>Writes it as it was read.</summary>
    /// <param name="json">Destination; not flushed.</param>
    internal void Write(Utf8JsonWriter json) => Content.WriteTo(Guard.NotNull(json));

    /// <summary>The text, as <see cref="ResultJson.ToJson"/> made it.</summary>
    public string ToJson()
    {
        using MemoryStream text = new();
        using (Utf8JsonWriter json = new(text, new JsonWriterOptions { Indented = true }))
        {
            Write(json);
        }

        return Encoding.UTF8.GetString(text.ToArray());
    }
}
