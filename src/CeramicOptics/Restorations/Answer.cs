using System.Text.Json.Serialization;

namespace CeramicOptics.Restorations;

/// <summary>
/// An answer of the library to a question about restorations: what it says in words, and the cautions that must be
/// shown with it.
/// </summary>
/// <remarks>
/// Created by the library only. System.Text.Json writes any answer in the format of <see cref="Exchange.ResultJson"/>;
/// it makes none from text.
/// </remarks>
[JsonConverter(typeof(AnswerConverter))]
public abstract class Answer : Report
{
    private protected Answer(IReadOnlyList<Caution> cautions) => Cautions = cautions;

    /// <summary>Cautions that must be shown with the answer.</summary>
    public IReadOnlyList<Caution> Cautions { get; }
}
