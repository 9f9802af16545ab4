using System.Text;
using System.Text.Json;
using CeramicOptics.Restorations;

namespace CeramicOptics.Exchange;

/// <summary>Writes answers as JSON, for other programs and for records.</summary>
/// <remarks>
/// The schema is docs/schema/result.schema.json, version 4: an object with <c>format</c>, <c>version</c>, <c>kind</c>,
/// the content of that kind and the cautions. Lengths are in mm, colours L*, a*, b* with their illuminant and observer,
/// swatches sRGB. Numbers read back exactly; texts are English. System.Text.Json writes answers in the same form, also
/// inside other objects. What was written is read by <see cref="ResultDocument"/>.
/// </remarks>
public static class ResultJson
{
    internal const string Format = "CeramicOptics result";
    internal const int Version = 4;

    private static readonly JsonWriterOptions Indented = new() { Indented = true };

    /// <summary>Writes an answer as one JSON object.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="json">Destination; not flushed. Its options decide about indentation.</param>
    /// <exception cref="ArgumentException">The answer was not made by this library.</exception>
    public static void Write(Answer answer, Utf8JsonWriter json)
    {
        Guard.NotNull(json);
        string kind = ResultContent.KindOf(Guard.NotNull(answer));
        json.WriteStartObject();
        json.WriteString("format", Format);
        json.WriteNumber("version", Version);
        json.WriteString("kind", kind);
        ResultContent.Write(json, answer);
        ResultParts.Cautions(json, answer.Cautions);
        json.WriteEndObject();
    }

    /// <summary>Writes an answer.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="stream">Destination; UTF-8, left open.</param>
    /// <exception cref="ArgumentException">The answer was not made by this library.</exception>
    public static void Write(Answer answer, Stream stream)
    {
        using Utf8JsonWriter json = new(Guard.NotNull(stream), Indented);
        Write(answer, json);
    }

    /// <summary>Writes an answer to a stream that may allow no synchronous writing.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="stream">Destination; UTF-8, left open.</param>
    /// <param name="cancellation">Stops the writing.</param>
    /// <exception cref="ArgumentException">The answer was not made by this library.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    /// <remarks>The whole text is made first, then written.</remarks>
    public static async Task WriteAsync(Answer answer, Stream stream, CancellationToken cancellation = default)
    {
        Guard.NotNull(stream);
        using MemoryStream text = new(Bytes(answer));
        await text.CopyToAsync(stream, 81920, cancellation).ConfigureAwait(false);
    }

    /// <summary>An answer as text.</summary>
    /// <param name="answer">The answer.</param>
    /// <exception cref="ArgumentException">The answer was not made by this library.</exception>
    public static string ToJson(Answer answer) => Encoding.UTF8.GetString(Bytes(answer));

    internal static byte[] Bytes(Answer answer)
    {
        using MemoryStream text = new();
        Write(answer, text);
        return text.ToArray();
    }
}
