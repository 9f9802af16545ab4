using System.Text.Json;
using System.Text.Json.Serialization;
using CeramicOptics.Exchange;

namespace CeramicOptics;

/// <summary>
/// How System.Text.Json writes an answer or another result: in the format of <see cref="ResultJson"/>. Every result
/// names it, so that nothing has to be registered.
/// </summary>
/// <remarks>
/// Results are not read: only the library makes them. What was written is read as a <see cref="ResultDocument"/>.
/// </remarks>
public sealed class ReportConverter : JsonConverter<Report>
{
    /// <summary>True for every type of result.</summary>
    /// <param name="typeToConvert">The type.</param>
    public override bool CanConvert(Type typeToConvert) => typeof(Report).IsAssignableFrom(typeToConvert);

    /// <summary>Not possible.</summary>
    /// <param name="reader">Ignored.</param>
    /// <param name="typeToConvert">Ignored.</param>
    /// <param name="options">Ignored.</param>
    /// <exception cref="NotSupportedException">Always.</exception>
    public override Report Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
        throw new NotSupportedException("Results are not made from text; read it as a ResultDocument.");

    /// <summary>Writes a result.</summary>
    /// <param name="writer">Destination.</param>
    /// <param name="value">The result.</param>
    /// <param name="options">Ignored: the format is fixed.</param>
    public override void Write(Utf8JsonWriter writer, Report value, JsonSerializerOptions options) =>
        ResultJson.Write(value, writer);
}
