using System.Text.Json;
using System.Text.Json.Serialization;
using CeramicOptics.Exchange;
using CeramicOptics.Restorations;

namespace CeramicOptics;

/// <summary>
/// How System.Text.Json writes an answer: in the format of <see cref="ResultJson"/>. Every answer names it, so that
/// nothing has to be registered.
/// </summary>
/// <remarks>
/// Answers are not read: only the library makes them. What was written is read as a <see cref="ResultDocument"/>.
/// </remarks>
public sealed class AnswerConverter : JsonConverter<Answer>
{
    /// <summary>True for every type of answer.</summary>
    /// <param name="typeToConvert">The type.</param>
    public override bool CanConvert(Type typeToConvert) => typeof(Answer).IsAssignableFrom(typeToConvert);

    /// <summary>Not possible.</summary>
    /// <param name="reader">Ignored.</param>
    /// <param name="typeToConvert">Ignored.</param>
    /// <param name="options">Ignored.</param>
    /// <exception cref="NotSupportedException">Always.</exception>
    public override Answer Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
        throw new NotSupportedException("Answers are not made from text; read it as a ResultDocument.");

    /// <summary>Writes an answer.</summary>
    /// <param name="writer">Destination.</param>
    /// <param name="value">The answer.</param>
    /// <param name="options">Ignored: the format is fixed.</param>
    public override void Write(Utf8JsonWriter writer, Answer value, JsonSerializerOptions options) =>
        ResultJson.Write(value, writer);
}
