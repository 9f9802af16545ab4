using System.Text.Json.Serialization;

namespace CeramicOptics;

/// <summary>
/// What the library found, in words and as JSON: an <see cref="Restorations.Answer"/>, constants, a colour.
/// </summary>
/// <remarks>
/// Created by the library only. System.Text.Json writes any report in the format of <see cref="Exchange.ResultJson"/>;
/// it makes none from text.
/// </remarks>
[JsonConverter(typeof(ReportConverter))]
public abstract class Report : Formattable
{
    private protected Report()
    {
    }
}
