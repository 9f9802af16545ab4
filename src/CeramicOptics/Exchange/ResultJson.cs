using System.Text;
using System.Text.Json;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;

namespace CeramicOptics.Exchange;

/// <summary>Writes answers, other results and maps as JSON, for other programs and for records.</summary>
/// <remarks>
/// The schema is docs/schema/result.schema.json, version 4: an object with <c>format</c>, <c>version</c>, <c>kind</c>,
/// the content of that kind and the cautions or findings. Lengths are in mm, colours L*, a*, b* with their illuminant
/// and observer, swatches sRGB. Numbers read back exactly; texts are English. System.Text.Json writes results in the
/// same form, also inside other objects. What was written is read by <see cref="ResultDocument"/>. Maps have single
/// precision except for thicknesses, and at most 400,000 points.
/// </remarks>
public static class ResultJson
{
    internal const string Format = "CeramicOptics result";
    internal const int Version = 4;

    private static readonly JsonWriterOptions Indented = new() { Indented = true };

    /// <summary>Writes a result as one JSON object.</summary>
    /// <param name="result">The result.</param>
    /// <param name="json">Destination; not flushed. Its options decide about indentation.</param>
    /// <exception cref="ArgumentException">The result was not made by this library.</exception>
    public static void Write(Report result, Utf8JsonWriter json)
    {
        Guard.NotNull(json);
        (string kind, Action<Utf8JsonWriter> content) = ResultContent.Of(Guard.NotNull(result));
        Head(json, kind);
        content(json);
        if (result is Answer answer)
        {
            ResultParts.Cautions(json, answer.Cautions);
        }

        json.WriteEndObject();
    }

    /// <summary>Writes a result.</summary>
    /// <param name="result">The result.</param>
    /// <param name="stream">Destination; UTF-8, left open.</param>
    /// <exception cref="ArgumentException">The result was not made by this library.</exception>
    public static void Write(Report result, Stream stream)
    {
        using Utf8JsonWriter json = new(Guard.NotNull(stream), Indented);
        Write(result, json);
    }

    /// <summary>Writes a result to a stream that may allow no synchronous writing.</summary>
    /// <param name="result">The result.</param>
    /// <param name="stream">Destination; UTF-8, left open.</param>
    /// <param name="cancellation">Stops the writing.</param>
    /// <exception cref="ArgumentException">The result was not made by this library.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    /// <remarks>The whole text is made first, then written.</remarks>
    public static async Task WriteAsync(Report result, Stream stream, CancellationToken cancellation = default)
    {
        Guard.NotNull(stream);
        using MemoryStream text = new(Bytes(result));
        await text.CopyToAsync(stream, 81920, cancellation).ConfigureAwait(false);
    }

    /// <summary>A result as text.</summary>
    /// <param name="result">The result.</param>
    /// <exception cref="ArgumentException">The result was not made by this library.</exception>
    public static string ToJson(Report result) => Encoding.UTF8.GetString(Bytes(result));

    /// <summary>Writes what a map says of its points: statuses, differences and colours.</summary>
    /// <param name="map">The map.</param>
    /// <param name="thicknessesMm">Thicknesses, mm, at most 400,000; NaN for no data.</param>
    /// <param name="stream">Destination; UTF-8, left open.</param>
    /// <param name="zones">Zone of each point; empty where the map has one.</param>
    /// <exception cref="ArgumentException">Too many points, lengths differ, or the zones of several are not given.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">No such zone.</exception>
    public static void Write(
        ThicknessMap map, ReadOnlySpan<double> thicknessesMm, Stream stream, ReadOnlySpan<byte> zones = default)
    {
        MapPointValues points = MapPointValues.Of(Guard.NotNull(map), thicknessesMm, zones);
        using Utf8JsonWriter json = new(Guard.NotNull(stream), Indented);
        Head(json, MapContent.OneLayerKind);
        MapContent.Write(json, map, points);
        json.WriteEndObject();
    }

    /// <summary>Writes what a map over veneer and core says of its points.</summary>
    /// <param name="map">The map.</param>
    /// <param name="veneerMm">Thicknesses of the veneer, mm, at most 400,000; NaN for no data.</param>
    /// <param name="coreMm">Thicknesses of the core, mm; NaN for no data.</param>
    /// <param name="stream">Destination; UTF-8, left open.</param>
    /// <param name="zones">Zone of each point; empty where the map has one.</param>
    /// <exception cref="ArgumentException">Too many points, lengths differ, or the zones of several are not given.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">No such zone.</exception>
    public static void Write(
        TwoLayerMap map, ReadOnlySpan<double> veneerMm, ReadOnlySpan<double> coreMm, Stream stream,
        ReadOnlySpan<byte> zones = default)
    {
        MapPointValues points = MapPointValues.Of(Guard.NotNull(map), veneerMm, coreMm, zones);
        using Utf8JsonWriter json = new(Guard.NotNull(stream), Indented);
        Head(json, MapContent.TwoLayerKind);
        MapContent.Write(json, map, points);
        json.WriteEndObject();
    }

    internal static byte[] Bytes(Report result)
    {
        using MemoryStream text = new();
        Write(result, text);
        return text.ToArray();
    }

    private static void Head(Utf8JsonWriter json, string kind)
    {
        json.WriteStartObject();
        json.WriteString("format", Format);
        json.WriteNumber("version", Version);
        json.WriteString("kind", kind);
    }
}
